import { type CurvePair, mergedCurves, type ReadCurve, stackedCurve } from '../../compare/index.ts';
import { quantityText } from '../../quantity/index.ts';
import { curveOf } from '../claims/sweep-reader.ts';
import { type ComparedSweep, comparedSweeps, readColumn } from './compared-columns.ts';
import type { ComparedAlternative } from './compared-sources.ts';

/** What is held equal while two alternatives are compared. */
type Held = 'powerW' | 'inputV';

/** Two levels count as equal within 0.1 dB, as ratios of voltage. */
const levelTolerance = 10 ** (0.1 / 20);

/**
 * Every pair of curves that two alternatives allow: over frequency at equal output power and at equal input, and over
 * level against output power and against input voltage. Distortion is read between levels, never beyond them.
 */
export function curvePairs(one: ComparedAlternative, other: ComparedAlternative): CurvePair[] {
  const sweeps = [one, other].map(({ sources }) => comparedSweeps(sources, 'frequency-sweep'));
  const levels = [one, other].map(({ sources }) => comparedSweeps(sources, 'level-sweep'));
  const [first = [], second = []] = sweeps;
  const [before = [], after = []] = levels;
  const equal = [...overFrequency(first, second, 'powerW'), ...overFrequency(first, second, 'inputV')];
  return [
    ...(equal.length > 0 ? equal : overStated(first, second)),
    ...overLevel(before, after, 'powerW'),
    ...overLevel(before, after, 'inputV'),
  ];
}

/** Kinds of sweeps that two alternatives both have, without a pair of curves having come of them. */
export function unpairedSweeps(
  one: ComparedAlternative,
  other: ComparedAlternative,
  pairs: readonly CurvePair[],
): string[] {
  const kinds = [
    { kind: 'frequency-sweep', name: 'sweeps over frequency', along: ['frequency'] },
    { kind: 'level-sweep', name: 'sweeps over level', along: ['power', 'input'] },
  ] as const;
  return kinds.flatMap(({ kind, name, along }) => {
    const [first, second] = [one, other].map(({ sources }) => comparedSweeps(sources, kind));
    const isPaired = pairs.some((pair) => along.some((axis) => axis === pair.along));
    return isPaired || sharedIds(first ?? [], second ?? []).length === 0 ? [] : [name];
  });
}

const voltageOf = (value: number, held: Held) => (held === 'powerW' ? Math.sqrt(value) : value);

function overFrequency(
  first: readonly ComparedSweep[],
  second: readonly ComparedSweep[],
  held: Held,
): CurvePair[] {
  const [known, others] = [first, second].map((sweeps) => sweeps.filter((sweep) => sweep[held] !== null));
  const targets = targetsOf([...(known ?? []), ...(others ?? [])], held);
  return targets.flatMap((target) =>
    sharedIds(known ?? [], others ?? []).flatMap((id): CurvePair[] => {
      const [one, two] = [known ?? [], others ?? []].map((sweeps) => stackAt(sweeps, id, held, target));
      if (!one || !two) return [];
      const text = quantityText(target, held === 'powerW' ? 'W' : 'V');
      const said = held === 'powerW' ? `at ${text}` : `at ${text} of input`;
      return [{ along: 'frequency', held: said, first: one, second: two }];
    }),
  );
}

/** Sweeps over frequency whose levels are not in the file: those of one stated level. */
function overStated(first: readonly ComparedSweep[], second: readonly ComparedSweep[]): CurvePair[] {
  return byCondition('level', first, second).flatMap(({ stated, one, other }) =>
    mergedPairs([one, other], ({ axis }) => axis, {
      along: 'frequency',
      held: stated === '' ? '' : `at a stated ${stated}`,
    }),
  );
}

/** Sweeps of both alternatives for which a condition is stated alike. */
function byCondition(name: string, first: readonly ComparedSweep[], second: readonly ComparedSweep[]) {
  const statedOf = ({ source: { capture } }: ComparedSweep) =>
    Object.hasOwn(capture.data.conditions, name) ? (capture.data.conditions[name] ?? '') : '';
  const every = [...new Set(first.map(statedOf))];
  return every.map((stated) => ({
    stated,
    one: first.filter((sweep) => statedOf(sweep) === stated),
    other: second.filter((sweep) => statedOf(sweep) === stated),
  }));
}

/** The level of every sweep, those that count as equal once. */
function targetsOf(sweeps: readonly ComparedSweep[], held: Held): number[] {
  const medians = sweeps.flatMap((sweep) => medianOf(sweep[held]) ?? []).sort((a, b) => a - b);
  const kept: number[] = [];
  for (const value of medians) {
    const last = kept.at(-1);
    if (last === undefined || voltageOf(value, held) > levelTolerance * voltageOf(last, held))
      kept.push(value);
  }
  return kept;
}

function medianOf(values: Float64Array | null): number | null {
  const sound = (values ?? new Float64Array(0)).filter((value) => value > 0).sort();
  return sound[Math.floor(sound.length / 2)] ?? null;
}

const sharedIds = (first: readonly ComparedSweep[], second: readonly ComparedSweep[]): string[] =>
  [...new Set(first.flatMap(({ ratios }) => [...ratios.keys()]))].filter((id) =>
    second.some(({ ratios }) => ratios.has(id)),
  );

/** A distortion column over frequency at one level, from the sweeps of an alternative. */
function stackAt(sweeps: readonly ComparedSweep[], id: string, held: Held, target: number): ReadCurve | null {
  const layers = sweeps.flatMap((sweep) => {
    const curve = readColumn(sweep, id, sweep.axis);
    const levels = sweep[held];
    if (!curve || !levels) return [];
    const { axis, values } = curveOf(sweep.axis, sweep.axis, levels);
    return [{ curve, level: { axis, values: values.map((value) => voltageOf(value, held)) } }];
  });
  return stackedCurve(layers, voltageOf(target, held), {
    tolerance: levelTolerance,
    order: Number(/^harmonic-(\d+)$/.exec(id)?.[1] ?? 3),
  });
}

function overLevel(
  first: readonly ComparedSweep[],
  second: readonly ComparedSweep[],
  held: Held,
): CurvePair[] {
  const [known, others] = [first, second].map((sweeps) => sweeps.filter((sweep) => sweep[held] !== null));
  const along = held === 'powerW' ? 'power' : 'input';
  return byCondition('frequency', known ?? [], others ?? []).flatMap(({ stated, one, other }) =>
    mergedPairs([one, other], (sweep) => sweep[held] ?? sweep.axis, {
      along,
      held: stated === '' ? '' : `at ${stated}`,
    }),
  );
}

/** A pair of curves for each column that both have, over the places of their rows. */
function mergedPairs(
  [one, other]: readonly [readonly ComparedSweep[], readonly ComparedSweep[]],
  placesOf: (sweep: ComparedSweep) => Float64Array,
  what: Pick<CurvePair, 'along' | 'held'>,
): CurvePair[] {
  const merged = (sweeps: readonly ComparedSweep[], id: string) =>
    mergedCurves(sweeps.flatMap((sweep) => readColumn(sweep, id, placesOf(sweep)) ?? []));
  return sharedIds(one, other).flatMap((id) => {
    const [first, second] = [merged(one, id), merged(other, id)];
    return first && second ? [{ ...what, first, second }] : [];
  });
}
