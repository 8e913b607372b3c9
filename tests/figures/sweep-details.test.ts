import { describe, expect, it } from 'vitest';
import {
  amplifierOutputFigures,
  amplifierOutputNotes,
  bandNotes,
  definitionOf,
  distortionRiseFigures,
  type Figure,
  type FigureContext,
  figureText,
  impedanceDetailFigures,
  levelLawFigures,
  levelSweepFigures,
  levelSweepFindings,
  methods,
} from '../../src/figures/index.ts';
import {
  frequencySweepDetails,
  impedanceDetails,
  levelSweepDetails,
  loudspeakerError,
  outputImpedance,
  summariseLevelSweep,
} from '../../src/signal/index.ts';

const context: FigureContext = {
  conditions: { level: '5 V' },
  provenance: { file: 'a.csv', sha256: null, lines: [2, 40] },
};
const subject = { channel: 'out', unit: 'V' };
const byId = (figures: Figure[]) => Object.fromEntries(figures.map((figure) => [figure.id, figure]));
const grid = (low: number, high: number, count: number) =>
  Float64Array.from({ length: count }, (_, i) => low * (high / low) ** (i / (count - 1)));

const powerW = grid(0.001, 4, 40);
const second = powerW.map((watts) => 0.01 * Math.sqrt(watts));
const flat = powerW.map(() => 0.001);
const level = {
  powerW,
  thd: second,
  harmonics: [
    { order: 2, ratio: second },
    { order: 3, ratio: flat },
  ],
};

describe('figures of a level sweep', () => {
  const figures = byId(levelLawFigures(levelSweepDetails(level), subject, context));

  it('give the slope in decibels per decibel, never with a prefix, and the range it holds over', () => {
    const slope = figures['harmonic-2-slope'];
    expect(slope && figureText(slope)).toMatch(/^1\.0+\sdB\/dB.*from 1\.00\smW to 4\.00\sW$/);
    // A slope of a tenth would be 100 millidecibels with a prefix.
    const small = { ...figures['harmonic-3-slope'], id: 'thd-slope', value: 0.1, low: 0.09, high: 0.11 };
    expect(figureText(small as Figure)).toMatch(/^0\.1.*dB\/dB/);
  });

  it('say why there is no onset of clipping, and leave out a gain that was not measured', () => {
    expect(figures['clipping-onset']).toMatchObject({ value: null, absent: expect.stringMatching(/laws/) });
    expect(figures).not.toHaveProperty('gain-fall');
  });

  it('state THD at every power that is asked for', () => {
    const summary = summariseLevelSweep(level, { powersW: [0.25, 1, 2.5] });
    const found = byId(levelSweepFigures(summary, subject, context));
    expect(found['thd-at-250mw']?.value).toBeCloseTo(0.005, 6);
    expect(found['thd-at-2.5w']?.value).toBeCloseTo(0.01 * Math.sqrt(2.5), 6);
    expect(definitionOf('thd-at-250mw')?.name).toBe('THD at 250 mW');
    expect(definitionOf('thd-at-1w')?.name).toBe('THD at 1 W');
  });

  it('are summed up in one sentence that names each order', () => {
    const [sentence, ...others] = levelSweepFindings(levelSweepDetails(level));
    expect(others).toEqual([
      'The second and third make up THD from 1.0 mW to 4.0 W, all but a twentieth of its square.',
    ]);
    expect(sentence).toMatch(
      /^The second follows the amplitude as a clean second order \(1\.00 ± 0\.00 dB\/dB\)/,
    );
    expect(sentence).toMatch(/the third does not follow its order \(.*a clean third order would have 2\)\.$/);
    expect(levelSweepFindings(levelSweepDetails({ powerW, thd: second }))).toEqual([]);
  });
});

describe('figures of a frequency sweep', () => {
  const frequencyHz = grid(20, 20_000, 31);
  const details = frequencySweepDetails({
    frequencyHz,
    thd: frequencyHz.map((hertz) => 0.004 * Math.max(1, 100 / hertz)),
  });

  it('give the rise, the crossings and the reason where the end is below', () => {
    const figures = byId(distortionRiseFigures(details, subject, context));
    expect(figures['thd-onset']?.value).toBeCloseTo(50, 0);
    // Straight on log-log paper down to 20 Hz: 1 % at 40 Hz.
    expect(figures['low-edge-1-percent']?.value).toBeCloseTo(40, 6);
    expect(figures['high-edge-1-percent']?.absent).toMatch(/0\.400\s% at 20\.0\skHz/);
  });

  it('name the bands that have no mean by their nominal names', () => {
    expect(bandNotes(details.bandMeans[0]?.leftOut.filter(({ band }) => band.fraction === 1) ?? [])).toEqual([
      'Left out, as they lie only partly within the sweep: 16\u00a0Hz and 16\u00a0kHz.',
    ]);
  });
});

describe('figures of an impedance sweep', () => {
  const frequencyHz = grid(20, 20_000, 61);
  const details = impedanceDetails({
    frequencyHz,
    ohm: frequencyHz.map((hertz) => 2 * Math.PI * hertz * 10),
  });
  const figuresOf = (declared: Parameters<typeof impedanceDetailFigures>[1], found = details) =>
    byId(impedanceDetailFigures(found, declared, subject, context));

  it('are an inductance for a declared transformer, with its level, and nothing that belongs to a loudspeaker', () => {
    const figures = figuresOf({ object: 'transformer', secondary: 'open' });
    expect(Object.keys(figures)).toEqual(['primary-inductance']);
    expect(figures['primary-inductance']?.value).toBeCloseTo(10, 8);
    expect(figures['primary-inductance']?.remark).toMatch(/at 5 V$/);
    const unsaid = impedanceDetailFigures(details, { secondary: 'shorted' }, subject, {
      ...context,
      conditions: {},
    });
    expect(unsaid[0]).toMatchObject({
      id: 'leakage-inductance',
      remark: expect.stringMatching(/level not stated$/),
    });
  });

  it('say why there is no inductance', () => {
    const resistor = impedanceDetails({ frequencyHz, ohm: frequencyHz.map(() => 8) });
    expect(figuresOf({ secondary: 'open' }, resistor)['primary-inductance']).toMatchObject({
      value: null,
      absent: expect.stringMatching(/proportion to frequency over no octave/),
    });
  });

  it('are rated impedance and resonance of a loudspeaker, with a caution where the log does not say so', () => {
    const figures = figuresOf({});
    expect(figures['rated-impedance']).toMatchObject({ value: 16, remark: 'if this is a loudspeaker' });
    expect(figuresOf({ object: 'loudspeaker' })['rated-impedance']).not.toHaveProperty('remark');
    expect(figures['resonance-frequency']).toMatchObject({
      value: null,
      absent: expect.stringMatching(/no hill/),
    });
    expect(figuresOf({ object: 'amplifier' })).toEqual({});
  });
});

describe("figures of an amplifier's output", () => {
  const frequencyHz = Float64Array.of(20, 1000, 20_000);
  const into = (loadOhm: number, volts: number) => ({
    loadOhm,
    frequencyHz,
    level: frequencyHz.map(() => volts),
    phaseDeg: frequencyHz.map(() => 0),
  });
  const impedance = outputImpedance(into(8, 2.8), into(4, 2.772), 0.001);
  const loudspeaker = {
    frequencyHz,
    ohm: Float64Array.of(30, 8, 8),
    phaseDeg: frequencyHz.map(() => 0),
  };
  const output = {
    impedance,
    loudspeaker: { title: 'Two-way', error: loudspeakerError(impedance, loudspeaker, 8) },
    ratedOhm: 8,
  };
  const figuresOf = (given: Parameters<typeof amplifierOutputFigures>[0]) =>
    byId(amplifierOutputFigures(given, { channel: 'amplifier' }, context));

  it('are the two-load example: 4/49 Ω and a damping factor of 98, with intervals', () => {
    const figures = figuresOf(output);
    expect(figures['output-impedance-at-1khz']?.value).toBeCloseTo(4 / 49, 10);
    expect(figures['damping-factor-at-1khz']?.value).toBeCloseTo(98, 8);
    const { low = 0, high = 0 } = figures['damping-factor-at-1khz'] ?? {};
    expect(low).toBeLessThan(98);
    expect(high).toBeGreaterThan(98);
    expect(figures['largest-response-error']?.remark).toMatch(/20\.0\sHz/);
    expect(amplifierOutputNotes(output)).toEqual([]);
  });

  it('ask for a rated load where none is stated', () => {
    const figures = figuresOf({ ...output, loudspeaker: { title: 'Two-way', error: null }, ratedOhm: null });
    expect(figures['damping-factor-at-1khz']).toMatchObject({
      value: null,
      absent: expect.stringMatching(/ratedLoad/),
    });
    expect(figures['largest-response-error']).toMatchObject({
      value: null,
      absent: expect.stringMatching(/ratedLoad/),
    });
  });

  it('warn that levels without phase fall short of a reactive output', () => {
    const { phaseDeg: _one, ...first } = into(8, 2.8);
    const { phaseDeg: _two, ...other } = into(4, 2.772);
    const blind = { impedance: outputImpedance(first, other), loudspeaker: null, ratedOhm: 8 };
    expect(figuresOf(blind)['output-impedance-at-1khz']?.remark).toMatch(/as if resistive/);
    expect(amplifierOutputNotes(blind)[0]).toMatch(/reads 0\.28 Ω .* has 1\.005 Ω/);
    expect(figuresOf(blind)).not.toHaveProperty('largest-response-error');
  });

  it('give no damping factor for an impedance below zero', () => {
    const { phaseDeg: _one, ...first } = into(8, 2.7);
    const { phaseDeg: _two, ...other } = into(4, 2.772);
    const negative = { impedance: outputImpedance(first, other), loudspeaker: null, ratedOhm: 8 };
    expect(figuresOf(negative)['damping-factor-at-1khz']).toMatchObject({ value: null });
  });

  it('and all others name a method that the methods page has', () => {
    const known = methods.map(({ id }) => id);
    for (const { id, provenance } of [
      ...amplifierOutputFigures(output, { channel: 'a' }, context),
      ...levelLawFigures(levelSweepDetails(level), subject, context),
    ]) {
      expect(definitionOf(id)?.method, id).toBe(provenance.method);
      expect(known).toContain(provenance.method);
    }
  });
});
