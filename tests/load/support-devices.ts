import {
  loadSheet,
  type TracedFamily,
  type TubeStageDescription,
  type TubeStageSheet,
  tracedFamily,
} from '../../src/load/index.ts';
import { tubeSheet, tubes } from './support.ts';

export * from './support.ts';

/** The sentences of a sheet with plain spaces. */
export const explanationsOf = ({ explanation }: TubeStageSheet) =>
  explanation.join('\n').replaceAll('\u00a0', ' ');

/** The sheet of a tube stage; warnings are fine. */
export function sheetOf(description: TubeStageDescription): TubeStageSheet {
  const { stages, problems } = loadSheet([description], null, tubes);
  const errors = problems.filter(({ severity }) => severity !== 'warning');
  if (errors.length > 0) throw new Error(errors.map(({ message }) => message).join(' '));
  return tubeSheet(stages[0]);
}

/** Rule and path of each problem of a stage. */
export const faultsOf = (description: TubeStageDescription) =>
  loadSheet([description], null, tubes).problems.map(({ rule, path }) => [rule, path.join('.')]);

/** A family sampled from a function, as a tracer would write it. */
export function sampled(
  current: (plateV: number, gridV: number) => number,
  gridV: readonly number[],
  plateV: readonly number[],
): TracedFamily {
  const points = gridV.flatMap((grid) => plateV.map((plate) => ({ grid, plate })));
  return tracedFamily('sampled.csv', {
    gridV: points.map(({ grid }) => grid),
    plateV: points.map(({ plate }) => plate),
    plateA: points.map(({ grid, plate }) => current(plate, grid)),
    screenA: null,
  });
}

/** Evenly spaced values, both ends included. */
export const steps = (from: number, to: number, step: number) =>
  Array.from({ length: Math.round((to - from) / step) + 1 }, (_, k) => from + k * step);
