import { alignRows } from '../rows.ts';

/** Measures where time goes: each stage lasts until the next one begins. */
export interface Timings {
  begin(stage: string): void;
  /** The stages with their seconds and what is noted of them, as lines. */
  lines(notes: Readonly<Record<string, string>>): string[];
}

/** `clock` is the time in milliseconds. */
export function timings(clock: () => number): Timings {
  const stages: { name: string; atMs: number }[] = [];
  return {
    begin(name) {
      stages.push({ name, atMs: clock() });
    },
    lines(notes) {
      const end = clock();
      const rows = stages.map(({ name, atMs }, index) => [
        name,
        secondsText((stages[index + 1]?.atMs ?? end) - atMs),
        notes[name] ?? '',
      ]);
      const whole = ['in all', secondsText(end - (stages[0]?.atMs ?? end)), notes['in all'] ?? ''];
      return ['Where the time went:', ...alignRows([...rows, whole], 2)];
    },
  };
}

const secondsText = (ms: number) => `${(ms / 1000).toFixed(2).padStart(8)} s`;
