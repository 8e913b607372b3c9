import { describe, expect, test } from 'vitest';
import {
  type ChainDescription,
  type ChainSheet,
  loadSheet,
  type StageDescription,
  trimDb,
  turnsRatio,
} from '../../src/load/index.ts';
import { offBy, resistanceCoupled, singleEnded, tubes } from './support.ts';

const chain: ChainDescription = {
  sourceV: 2,
  sourceOhm: 1000,
  inputOhm: 100e3,
  feedbackDb: 0,
  speakerOhm: 8,
  turnsRatio: null,
};

const driver: StageDescription = { ...resistanceCoupled, supplyV: 330, nextGridLeakOhm: 470e3 };
const stages = [driver, singleEnded];

const of = (description: ChainDescription, through: readonly StageDescription[] = stages) =>
  loadSheet(through, null, tubes, description);

function sheetOf(description: ChainDescription, through: readonly StageDescription[] = stages): ChainSheet {
  const { chain: sheet } = of(description, through);
  if (!sheet) throw new Error('no chain');
  return sheet;
}

const text = ({ explanation }: ChainSheet) => explanation.join(' ').replaceAll('\u00a0', ' ');

describe('a chain of a driver and an output stage', () => {
  const sheet = sheetOf(chain);
  const [first, last] = sheet.links;
  if (!first || !last) throw new Error('no links');

  test('hands each level on: what a stage wants is what the one before gives', () => {
    expect(last.inputVrms).toBeCloseTo(61 / Math.SQRT2, 9); // full drive to 0 V at the grid
    expect(first.outputVrms).toBe(last.inputVrms);
    expect(offBy(first.inputVrms * first.gain, first.outputVrms)).toBeLessThan(1e-12);
    expect(offBy((sheet.sensitivityVrms * 100) / 101, first.inputVrms)).toBeLessThan(1e-12); // 100 kΩ behind 1 kΩ
  });

  test('delivers at the speaker the power of the output stage, its transformer being ideal', () => {
    const output = of(chain).stages[1];
    const at = output?.topology === 'single-ended' ? output.atLoad : null;
    expect(offBy(sheet.powerW ?? 0, at?.powerW ?? 1)).toBeLessThan(1e-12);
    expect(sheet.turnsRatio).toBe(turnsRatio(3400, 8));
  });

  test('takes a stated turns ratio before the ideal one', () => {
    const stated = sheetOf({ ...chain, turnsRatio: 25 });
    expect(offBy(stated.speakerVrms * 25, last.outputVrms)).toBeLessThan(1e-12);
  });

  test('has the gain of its parts: divider, stages, turns ratio', () => {
    const product = (100 / 101) * first.gain * last.gain * (1 / turnsRatio(3400, 8));
    expect(offBy(10 ** (sheet.gainDb / 20), product)).toBeLessThan(1e-12);
  });

  test('does not count an input resistance that is not stated', () => {
    expect(offBy(sheetOf({ ...chain, inputOhm: null }).sensitivityVrms, first.inputVrms)).toBeLessThan(1e-12);
  });

  test('with 6.02 dB of feedback takes twice the voltage and has half the gain', () => {
    const db = 20 * Math.log10(2);
    const closed = sheetOf({ ...chain, feedbackDb: db });
    expect(offBy(closed.sensitivityVrms, 2 * sheet.sensitivityVrms)).toBeLessThan(1e-12);
    expect(closed.sensitivityWithoutFeedbackVrms).toBe(sheet.sensitivityVrms);
    expect(sheet.gainDb - closed.gainDb).toBeCloseTo(db, 9);
    expect(closed.links).toEqual(sheet.links);
    expect(text(closed)).toMatch(/with 6\.0 dB of feedback, and .* rms without it/);
  });

  test('says which stage runs out first and what the one before has to spare', () => {
    expect(sheet.firstToRunOut).toBe('output');
    expect(last.headroomDb).toBe(0);
    expect(first.headroomDb).toBeCloseTo(20 * Math.log10(first.largestVrms / first.outputVrms), 9);
    expect(text(sheet)).toContain(
      'the stage output runs out first; of those before it driver has least to spare',
    );
  });

  test('says where the driver runs out before the output stage', () => {
    const weak = sheetOf(chain, [{ ...driver, supplyV: 120 }, singleEnded]);
    expect(weak.firstToRunOut).toBe('driver');
    expect(weak.links[0]?.headroomDb).toBeLessThan(0);
    expect(text(weak)).toMatch(/The stage driver runs out \d.* dB before output is at full output/);
  });

  test('says how far the source is from full output', () => {
    expect(sheet.marginDb).toBeCloseTo(20 * Math.log10(2 / sheet.sensitivityVrms), 9);
    expect(text(sheet)).toContain('more than that');
    expect(text(sheetOf({ ...chain, sourceV: 0.1 }))).toContain('less than that: full output is not reached');
  });
});

test('a described transformer counts with its own ratio and losses before anything that the chain states', () => {
  const real: StageDescription = {
    ...singleEnded,
    loadOhm: null,
    output: {
      transformer: {
        name: 'A transformer',
        turnsRatio: 25,
        nominalOhm: 8,
        primaryOhm: 250,
        secondaryOhm: 0.4,
        primaryH: null,
        leakageH: null,
        ratedPower: null,
        ratedDirectA: null,
      },
      primaryShare: 1,
      speakerOhm: 8,
      sweep: null,
    },
  };
  const sheet = sheetOf({ ...chain, speakerOhm: null, turnsRatio: 20 }, [driver, real]);
  expect(sheet).toMatchObject({ turnsRatio: 25, speakerOhm: 8 });
  // 250 Ω and 0.4 Ω at 25:1 pass 90.91 % of the power: 5000 Ω of 5500 Ω, and so of the voltage (derived).
  expect(offBy((sheet.speakerVrms * 25) / (sheet.links[1]?.outputVrms ?? 1), 5000 / 5500)).toBeLessThan(1e-6);
  expect(text(sheet)).not.toContain('ideal');
});

test('the trim of two alternatives is the difference of their gains, and undoes it both ways', () => {
  const one = sheetOf(chain);
  const other = sheetOf({ ...chain, feedbackDb: 4 });
  expect(trimDb(one, other)).toBeCloseTo(-4, 9);
  expect(trimDb(other, one)).toBeCloseTo(4, 9);
});

test('an unbypassed stage counts with its own gain', () => {
  const open: StageDescription = {
    ...driver,
    bias: { kind: 'cathode-resistor', ohm: 1500, bypassed: false },
  };
  const gains = [driver, open].map((first) => sheetOf(chain, [first, singleEnded]).links[0]?.gain ?? 0);
  expect(gains[1]).toBeLessThan(0.6 * (gains[0] ?? 0));
});

test('a splitter counts by its weaker output, and a last stage without transformer plays as it is', () => {
  const splitter: StageDescription = {
    id: 'splitter',
    topology: 'split-load',
    device: '12AU7',
    supplyV: 330,
    grid: { kind: 'tap', ohm: 1e3 },
    nextGridLeakOhm: null,
    otherGridLeakOhm: null,
    plateResistorOhm: 22e3,
    cathodeResistorOhm: 22e3,
  };
  const { chain: sheet, stages: sheets } = of({ ...chain, speakerOhm: null }, [splitter]);
  const [found] = sheets;
  const outputs = found?.topology === 'split-load' ? found.outputs : [];
  expect(sheet?.links[0]?.gain).toBe(Math.min(...outputs.map(({ gain }) => gain)));
  expect(sheet).toMatchObject({ turnsRatio: null, powerW: null, speakerVrms: sheet?.links[0]?.outputVrms });
  expect(sheet?.absent).toHaveProperty('powerW');
});

test('a transistor follower divides between its emitter resistor and the load', () => {
  const follower: StageDescription = {
    id: 'output',
    topology: 'follower-pair',
    railV: 30,
    outputCapacitorF: null,
    loadOhm: 8,
    emitterOhm: 0.5,
    biasA: 0.1,
    sinkOhm: null,
    count: 2,
    lossV: 2,
    powerW: null,
    thermal: null,
    ratings: null,
  };
  const link = sheetOf(chain, [follower]).links[0];
  expect(offBy(link?.gain ?? 0, 8 / 8.25)).toBeLessThan(1e-12); // two of 0.5 Ω side by side
});

describe('faults of a chain', () => {
  test.each<[string, ChainDescription, readonly StageDescription[], (string | number)[], RegExp]>([
    ['no stages', chain, [], [], /no stage/],
    ['a stage without gain', chain, [driver, { ...singleEnded, loadOhm: null }], [], /"output" has no gain/],
    ['no speaker behind a transformer', { ...chain, speakerOhm: null }, stages, ['speaker'], /speaker/],
    ['a source of nothing', { ...chain, sourceV: 0 }, stages, ['source', 'level'], /outside/],
    ['feedback with a sign', { ...chain, feedbackDb: -6 }, stages, ['feedback'], /0 dB to 60 dB/],
    [
      'feedback that is no number',
      { ...chain, feedbackDb: Number.NaN },
      stages,
      ['feedback'],
      /0 dB to 60 dB/,
    ],
  ])('%s', (_, description, through, path, message) => {
    const { problems, chain: sheet } = of(description, through);
    const errors = problems.filter(({ severity }) => severity !== 'warning');
    expect(sheet).toBeNull();
    expect(errors).toEqual([expect.objectContaining({ path: ['chain', ...path] })]);
    expect(errors[0]?.message).toMatch(message);
    expect(errors[0]?.hint).toMatch(/\.$/);
  });
});
