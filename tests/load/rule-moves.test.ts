import { describe, expect, test } from 'vitest';
import {
  type Candidate,
  type Device,
  loadSheet,
  type PushPullDescription,
  type RestingStage,
  type TubeStageDescription,
} from '../../src/load/index.ts';
import { candidateLoads, type LoadQuestion } from '../../src/load/rules/candidates.ts';
import { explainMoves } from '../../src/load/rules/moves-explanation.ts';
import { findRoot } from '../../src/load/solving/solve.ts';
import { loadsAround, sweepLoads } from '../../src/load/stage/sweep.ts';
import {
  linearTriode,
  offBy,
  pentode,
  singleEnded,
  spaceChargeTriode,
  stageAt,
  tubeSheet,
  tubes,
} from './support.ts';

/** A stage that draws a current at a plate voltage, its bias found. */
function stageDrawing(device: Device, plateV: number, plateA: number): RestingStage {
  const excess = (gridV: number) => device.plateCurrent({ plateV, screenV: 0, gridV }) - plateA;
  return stageAt(device, plateV, findRoot(excess, { low: -plateV, high: 0 }) ?? Number.NaN);
}

function movesOn(stages: LoadQuestion['stages'], middleOhm: number): Candidate[] {
  const loads = loadsAround(middleOhm);
  return candidateLoads({
    ...{ stages, triode: true, loads, sweep: sweepLoads(stages.here, loads, null), describedV: null },
    ...{ aims: { powerW: null, distortionRatio: null }, typical: [], count: 1, offers: [] },
  });
}

const movesOf = (candidates: readonly Candidate[], short: string) => {
  const found = candidates.find((one) => one.short === short)?.moves;
  return { voltage: found?.voltage?.relative ?? Number.NaN, current: found?.current?.relative ?? Number.NaN };
};

describe('closed forms', () => {
  // Straight characteristics: rp is the same everywhere, and the swing rule is algebra.
  test('on straight characteristics rp stays, and U/I − 2rp moves as its terms do', () => {
    const device = linearTriode(4, 800);
    const stages = {
      here: stageDrawing(device, 300, 0.06),
      voltage: stageDrawing(device, 330, 0.06),
      current: stageDrawing(device, 300, 0.066),
    };
    const found = movesOn(stages, 3400);
    const exact = 1e-6; // central differences
    for (const short of ['rp', '2 rp']) {
      expect(Math.abs(movesOf(found, short).voltage)).toBeLessThan(exact);
      expect(Math.abs(movesOf(found, short).current)).toBeLessThan(exact);
    }
    const at = (volts: number, amperes: number) => (300 * volts) / (0.06 * amperes) - 1600;
    const { voltage, current } = movesOf(found, 'U/I − 2rp');
    expect(offBy(1 + voltage, at(1.1, 1) / at(1, 1))).toBeLessThan(exact);
    expect(offBy(1 + current, at(1, 1.1) / at(1, 1))).toBeLessThan(exact);
    const move = found.find((one) => one.short === 'U/I − 2rp')?.moves.current;
    expect(offBy(move?.ohm ?? 0, at(1, 1.1) - at(1, 1))).toBeLessThan(1e-5);
  });

  // Child-Langmuir scaling: all voltages times F and currents times F^(3/2) make every load F^(−1/2) times itself.
  test.each(['rp', '2 rp', 'U/I − 2rp', 'most power'])(
    'of a three-halves-power triode scaled as the space charge demands, %s falls with the root of the voltage',
    (short) => {
      const device = spaceChargeTriode(4e-5, 4);
      const here = stageDrawing(device, 300, 0.06);
      const scaled = stageDrawing(device, 1.1 * 300, 1.1 ** 1.5 * 0.06);
      const found = movesOn({ here, voltage: scaled, current: null }, 3000);
      // Of a search, what a parabola through three loads leaves; of a formula, central differences.
      const tolerance = short === 'most power' ? 0.005 : 1e-6;
      expect(Math.abs(movesOf(found, short).voltage - (1.1 ** -0.5 - 1))).toBeLessThan(tolerance);
    },
  );
});

describe('a described stage', () => {
  const sheetOf = (stage: TubeStageDescription) => tubeSheet(loadSheet([stage], null, tubes).stages[0]);
  const { candidates, operatingPoint } = sheetOf(pentode);
  const plateA = operatingPoint?.plateA ?? 0;

  /** The same stage described with one condition 10 % up. */
  const described = {
    voltage: { ...pentode, plateV: 275, screenV: 291.5, bias: { kind: 'current', plateA } },
    current: { ...pentode, bias: { kind: 'current', plateA: 1.1 * plateA } },
  } as const;

  test.each(['voltage', 'current'] as const)(
    'moves its rules with %s as a sheet of the moved stage says',
    (varied) => {
      const moved = sheetOf(described[varied]).candidates;
      const names = [
        'knee',
        'sheet by 3/2',
        'sheet by U/I',
        'most power',
        'least H2',
        'least THD',
        'H2 = H3',
      ];
      // The searches of the other sheet know loads an eighth of an octave apart, and here those between: half a step each.
      for (const short of names) {
        const load = (all: readonly Candidate[]) =>
          all.find((one) => one.short === short)?.loadOhm ?? Number.NaN;
        const searched = /most|least|=/.test(short);
        const told = (1 + movesOf(candidates, short)[varied]) * load(candidates);
        expect(offBy(told, load(moved)), short).toBeLessThan(searched ? 0.095 : 1e-6);
      }
    },
  );

  test('printed loads stay, and the two conversions move as their exponents say', () => {
    expect(movesOf(candidates, 'sheet 250\u00a0V')).toEqual({ voltage: 0, current: 0 });
    // F^(−1/2) and F/I: algebra.
    expect(offBy(1 + movesOf(candidates, 'sheet by 3/2').voltage, 1.1 ** -0.5)).toBeLessThan(1e-9);
    expect(movesOf(candidates, 'sheet by 3/2').current).toBe(0);
    expect(offBy(1 + movesOf(candidates, 'sheet by U/I').voltage, 1.1)).toBeLessThan(1e-9);
    expect(offBy(1 + movesOf(candidates, 'sheet by U/I').current, 1 / 1.1)).toBeLessThan(1e-9);
  });

  test('with a cathode resistor gets the resistor that its new bias needs', () => {
    const cathode = {
      ...singleEnded,
      bias: { kind: 'cathode-resistor', ohm: 1000, bypassed: false },
    } as const;
    const { operatingPoint: point, candidates: found } = sheetOf(cathode);
    const restA = point?.plateA ?? 0;
    const gridV = tubeSheet(
      loadSheet([{ ...singleEnded, bias: { kind: 'current', plateA: 1.1 * restA } }], null, tubes).stages[0],
    ).operatingPoint?.gridV;
    const ohm = -(gridV ?? 0) / (1.1 * restA);
    const moved = sheetOf({ ...cathode, bias: { ...cathode.bias, ohm } });
    const told = (1 + movesOf(found, 'most power').current) * (loadOf(found, 'most power') ?? 0);
    expect(offBy(told, loadOf(moved.candidates, 'most power') ?? 0)).toBeLessThan(0.095); // a step of the sweep
  });

  test('where the moved point of rest does not exist the moves say so', () => {
    const warm = { ...pentode, bias: { kind: 'grid', gridV: -0.5 } } as const;
    const knee = sheetOf({ ...warm, loadOhm: 1000 }).candidates.filter(({ loadOhm }) => loadOhm !== null);
    const without = knee.filter(({ moves }) => moves.current === null);
    expect(without.length).toBeGreaterThan(0);
    for (const { moves } of without) expect(moves.absent).toContain('no point of rest');
  });
});

const loadOf = (all: readonly Candidate[], short: string) => all.find((one) => one.short === short)?.loadOhm;

test('a pair moves its rules as a sheet of the moved pair says', () => {
  const pair: PushPullDescription = {
    ...{
      id: 'output',
      topology: 'push-pull',
      device: 'EL34',
      connection: 'distributed-load',
      tapRatio: 0.43,
    },
    ...{ count: 1, plateV: 350, supplyV: null, screenV: null, windingOhm: 80, loadOhm: 6600 },
    ...{ bias: { kind: 'current', plateA: 0.055 }, driveV: null, powerW: 10, mismatchRatio: 0 },
  };
  const candidatesOf = (of: PushPullDescription): Candidate[] => {
    const [sheet] = loadSheet([of], null, tubes).stages;
    return sheet?.topology === 'push-pull' ? sheet.candidates : [];
  };
  const here = candidatesOf(pair);
  const moved = candidatesOf({ ...pair, plateV: 385 });
  for (const short of ['knee', 'most power', 'least THD', 'least THD at 10.0\u00a0W']) {
    const told = (1 + movesOf(here, short).voltage) * (loadOf(here, short) ?? Number.NaN);
    const tolerance = short === 'knee' ? 1e-6 : 0.095; // a step of the sweep
    expect(offBy(told, loadOf(moved, short) ?? Number.NaN), short).toBeLessThan(tolerance);
  }
});

describe('what is said of the moves', () => {
  const moving = (method: string, relative: number): Candidate => ({
    ...{ method, short: method, loadOhm: 1000, basis: '', source: '', status: 'derived', part: null },
    ...{ powerW: 1, secondRatio: 0, thirdRatio: 0, thdRatio: 0, fromMostPowerDb: 0, side: 'at' },
    moves: { voltage: { relative, ohm: 1000 * relative }, current: { relative: 0, ohm: 0 } },
  });

  test('names the rules that move farthest either way and counts those that hardly do', () => {
    const rules = [moving('one', 0.1), moving('two', -0.05), moving('three', 0.02), moving('four', 0)];
    expect(explainMoves(rules).map((text) => text.replaceAll('\u00a0', ' '))).toEqual([
      'With 10 % more voltage at rest and the same current the rules part, and ask for up to 10 % more, 100 Ω (one), and up to 5.0 % less, 50.0 Ω (two); one hardly moves.',
      'With 10 % more current at rest and the same voltage no rule moves much.',
    ]);
  });

  test('is nothing of a single rule', () => {
    expect(explainMoves([moving('one', 0.1)])).toEqual([]);
  });
});
