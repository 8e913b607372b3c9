import { harmonicTable, humTable, type PrintedTable } from '../figures/index.ts';
import type { Analysed } from '../journal/index.ts';
import { alignRows } from './rows.ts';

/** Harmonic profile and hum of every channel of a waveform, as lines for a terminal. */
export function lineTables(analysis: Analysed['analysis']): string[] {
  if (analysis.kind !== 'waveform') return [];
  const { channels, transfers } = analysis.summary;
  return channels.flatMap((channel) => [
    ...tableLines(`Harmonics of ${channel.name}`, harmonicTable(channel, transfers, null)),
    ...tableLines(`Hum of ${channel.name}`, humTable(channel, null)),
  ]);
}

function tableLines(title: string, table: PrintedTable | null): string[] {
  if (table === null) return [];
  const heading = table.columns.map(({ title: name, unit }) =>
    unit === undefined ? name : `${name}, ${unit}`,
  );
  return ['', `  ${title}`, ...alignRows([heading, ...table.rows])];
}
