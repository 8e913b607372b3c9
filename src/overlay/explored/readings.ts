import type { ExploredChart, ExploredLine, ExploredPanel } from '../../charts/explored.ts';
import { printNumber, printQuantity } from '../../quantity/index.ts';
import { readRuns } from '../levels.ts';
import { valueNumber, valueText } from '../print.ts';
import { drawnOn } from './plots.ts';
import type { Stretch } from './stretch.ts';

/** What a line reads at a place, with the ends of its 95 % interval where it has one. */
export interface LineReading {
  line: ExploredLine;
  panel: ExploredPanel;
  value: number | null;
  low: number | null;
  high: number | null;
}

/** The places of all readings of some lines on a stretch, ascending, each once. */
export function placesIn(lines: Iterable<ExploredLine>, [from, to]: Stretch): number[] {
  const all = [...lines].flatMap(({ runs }) => runs.flatMap(({ x }) => x));
  return [...new Set(all)].filter((place) => place >= from && place <= to).sort((a, b) => a - b);
}

/** What every line of a chart reads at a place, read as it is drawn and only between its readings. */
export const readingsAt = (chart: ExploredChart, place: number): LineReading[] =>
  chart.panels.flatMap((panel) =>
    panel.lines.map((line) => {
      const read = (runs: ExploredLine['runs'] = []) => readRuns(runs, place, drawnOn(chart, panel));
      return {
        ...{ line, panel, value: read(line.runs) },
        ...{ low: read(line.edges?.low), high: read(line.edges?.high) },
      };
    }),
  );

/** The readings that a chart's named places stand for: of those beside each, the highest of the first line. */
export function markedPlaces({ marks = [], panels }: ExploredChart): number[] {
  const runs = panels[0]?.lines[0]?.runs ?? [];
  const readings = runs.flatMap(({ x, y }) => x.map((place, i) => ({ place, value: y[i] ?? 0 })));
  return marks.flatMap(({ at }) => {
    const beside = readings.filter(({ place }) => Math.abs(at / place - 1) < nearEnough);
    const [highest] = beside.toSorted((a, b) => b.value - a.value);
    return highest ? [highest.place] : [];
  });
}

const prefixed = ['Hz', 'W', 'Ω'];
const placeDigits = 4;

/** A place with its unit, and the name that it has: "2.000 kHz, H2". */
export function exploredPlace({ x: { unit }, marks = [] }: ExploredChart, place: number): string {
  const { number, unit: shown } = prefixed.includes(unit)
    ? printQuantity(place, unit, placeDigits)
    : { number: printNumber(place, placeDigits), unit };
  const name = marks.find(({ at }) => Math.abs(at / place - 1) < nearEnough)?.name;
  return [`${number}\u00a0${shown}`, ...(name === undefined ? [] : [name])].join(', ');
}

/** A place this near to a mark has its name, as a share. */
const nearEnough = 0.005;

/** A reading with its unit and its interval: "0.482 % (0.450 to 0.516)". */
export function readingText({ value, low, high, panel: { unit } }: LineReading): string {
  const said = valueText(value, unit);
  if (value === null || high === null) return said;
  const least = low === null ? '0' : valueNumber(low, unit);
  return `${said} (${least} to ${valueNumber(high, unit)})`;
}

/** Everything that a cursor shows, in one sentence. */
export function readingsSentence(
  chart: ExploredChart,
  place: number,
  readings: readonly LineReading[],
): string {
  const said = readings.map((reading) => `${reading.line.name} ${readingText(reading)}`);
  return `At ${exploredPlace(chart, place)}: ${said.join('; ')}.`;
}
