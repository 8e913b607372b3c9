import type { Output } from '../output.ts';

/** Work that took less is not told of. */
const quietMs = 3000;

/** How often a line is replaced on a terminal, and how often one is added elsewhere. */
const replacedMs = 200;
const addedMs = 5000;

/** Says how far long work is. */
export interface Progress {
  /** Begins another piece of work, such as "Captures". */
  begin(name: string): void;
  /** So much of the work is done; `total` where it is known. */
  at(done: number, total: number | null): void;
  /** Takes away what stands on the terminal. */
  end(): void;
}

/**
 * Tells of work that lasts: on a terminal on one line that is replaced, elsewhere by a line every few seconds, and not at
 * all in the first three seconds. `clock` is the time in milliseconds.
 */
export function progressOn(output: Output, clock: () => number): Progress {
  const began = clock();
  let [name, stageBegan, told] = ['', began, began];
  const { status } = output;
  return {
    begin(next) {
      [name, stageBegan] = [next, clock()];
    },
    at(done, total) {
      const now = clock();
      if (now - began < quietMs || now - told < (status ? replacedMs : addedMs)) return;
      told = now;
      (status ?? output.notice)(progressText(name, { done, total, elapsedMs: now - stageBegan }));
    },
    end() {
      status?.('');
    },
  };
}

interface Standing {
  done: number;
  total: number | null;
  elapsedMs: number;
}

/** One line, such as "Captures 120 of 800, about 9 s left". */
export function progressText(name: string, { done, total, elapsedMs }: Standing): string {
  if (total === null) return `${name} ${done}`;
  const leftMs = done > 0 ? (elapsedMs / done) * (total - done) : null;
  return `${name} ${done} of ${total}${leftMs === null ? '' : `, about ${timeText(leftMs)} left`}`;
}

/** A time in whole seconds, beyond two minutes in minutes. */
function timeText(ms: number): string {
  const seconds = Math.max(1, Math.round(ms / 1000));
  return seconds <= 120 ? `${seconds} s` : `${Math.round(seconds / 60)} min`;
}
