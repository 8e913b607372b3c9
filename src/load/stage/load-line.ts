import type { RestingStage } from '../types.ts';

/**
 * The load line in force: the load, and what rectification has made of the averages. Without signal the
 * average plate current is that at rest and the cathode has not risen.
 */
export interface LoadLine {
  loadOhm: number;
  averagePlateA: number;
  cathodeRiseV: number;
}

/** The load line through the point of rest. */
export function lineAtRest(stage: RestingStage, loadOhm: number): LoadLine {
  return { loadOhm, averagePlateA: stage.rest.plateA, cathodeRiseV: 0 };
}

/** The two ends of the load line through the point of rest: no current, and no plate voltage. */
export function lineEnds(stage: RestingStage, loadOhm: number): { plateV: number; plateA: number }[] {
  const { plateV, plateA } = stage.rest;
  return [
    { plateV: plateV + loadOhm * plateA, plateA: 0 },
    { plateV: 0, plateA: plateA + plateV / loadOhm },
  ];
}
