import { type Fault, type Problem, problemAt } from '../problem/index.ts';

/** A position in the file that is being read; line and column count from 1. */
export interface Spot {
  line: number;
  column: number;
}

/** Collects the problems of one file. */
export interface Report {
  readonly problems: Problem[];
  /** Notes a fault and returns null, so that a reader can report and give up in one statement. */
  at(spot: Spot, fault: Fault): null;
}

export function reportOn(file: string): Report {
  const problems: Problem[] = [];
  return {
    problems,
    at(spot, fault) {
      problems.push(problemAt({ file, ...spot }, fault));
      return null;
    },
  };
}

/** Where a fault of the whole file is put. */
export const topOfFile: Spot = { line: 1, column: 1 };
