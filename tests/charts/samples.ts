import {
  type ChartResult,
  type ChartSize,
  type CombinedLoadLineData,
  type CurrentsOverCycleData,
  combinedLoadLine,
  currentsOverCycle,
  type DissipationAgainstLoadData,
  type DissipationAgainstPowerData,
  dissipationAgainstLoad,
  dissipationAgainstPower,
  type HarmonicSpectrumData,
  type HarmonicsAgainstFrequencyData,
  type HarmonicsAgainstPowerData,
  harmonicSpectrum,
  harmonicsAgainstFrequency,
  harmonicsAgainstPower,
  type ImpedanceData,
  type IntermodulationSpectrumData,
  impedance,
  intermodulationSpectrum,
  type LoadLineData,
  type LoadOverFrequencyData,
  loadLine,
  loadOverFrequency,
  type NoiseDensityData,
  noiseDensityChart,
  type PowerAgainstLoadData,
  type PredictedHarmonicsData,
  powerAgainstLoad,
  predictedHarmonics,
  type ReactivePathData,
  type ResponseData,
  reactivePath,
  response,
  type ThdAgainstFrequencyData,
  type ThdAgainstPowerData,
  thdAgainstFrequency,
  thdAgainstPower,
  type WaveformExcerptData,
  waveformExcerpt,
} from '../../src/charts/index.ts';

// All data here are invented; they have the shape of real captures and nothing more.

/** Values evenly spread on a logarithmic axis, both ends included exactly. */
export function decades(count: number, from: number, to: number): number[] {
  return Array.from({ length: count }, (_, i) =>
    i === count - 1 ? to : Number((from * (to / from) ** (i / (count - 1))).toPrecision(6)),
  );
}

/** Noise that is the same in every run: a linear congruential sequence from 0 to 1. */
export function noise(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
}

export function spectrumData(lines: number): HarmonicSpectrumData {
  const next = noise(7);
  const frequencyHz = Array.from({ length: lines }, (_, i) => (i * 24_000) / lines);
  const floorRms = frequencyHz.map((hz) => 1e-5 * (1 + Math.sqrt(100 / (hz + 5))));
  const rms = floorRms.map((floor) => floor * (0.05 + next()));
  const harmonics = [0.004, 0.0008, 0.0003, 0.000012, 0.000008].map((ratio, i) => ({
    order: i + 2,
    frequencyHz: (i + 2) * 1000,
    ratio,
    detected: ratio > 2e-5,
  }));
  for (const { frequencyHz: hz, ratio } of [{ frequencyHz: 1000, ratio: 1 }, ...harmonics]) {
    rms[Math.round((hz * lines) / 24_000)] = ratio;
  }
  return {
    channel: 'v_out',
    role: 'response',
    frequencyHz,
    rms,
    floorRms,
    fundamental: { frequencyHz: 1000, rms: 1 },
    harmonics,
    source: 'spectrum.csv',
  };
}

/** Two tones with lines around them; what the tones are for decides the stretch that is drawn. */
export function twoToneData(
  lower: number,
  upper: number,
  pattern: IntermodulationSpectrumData['pattern'],
): IntermodulationSpectrumData {
  const next = noise(11);
  const step = 20;
  const frequencyHz = Array.from({ length: 1601 }, (_, i) => i * step);
  const floorRms = frequencyHz.map(() => 2e-6);
  const rms = floorRms.map((floor) => floor * (0.05 + next()));
  const lines = [
    { name: 'f2 − f1', frequencyHz: upper - lower, ratio: 0.002 },
    { name: 'f2 + f1', frequencyHz: upper + lower, ratio: 0.0025 },
    { name: '2f1 − f2', frequencyHz: Math.abs(2 * lower - upper), ratio: 0.0004 },
    { name: 'f2 + 2f1', frequencyHz: upper + 2 * lower, ratio: 0.0003 },
    { name: '2f2 − f1', frequencyHz: 2 * upper - lower, ratio: 0.000009 },
  ].map((line) => ({ ...line, detected: line.ratio > 1e-5 }));
  const tones = { lower: { frequencyHz: lower, rms: 1 }, upper: { frequencyHz: upper, rms: 1 } };
  const all = [...lines, { frequencyHz: lower, ratio: 1 }, { frequencyHz: upper, ratio: 1 }];
  for (const { frequencyHz: hz, ratio } of all) rms[Math.round(hz / step)] = ratio;
  return {
    ...{ channel: 'v_out', role: 'response' as const, frequencyHz, rms: rms.slice(0, 1601), floorRms },
    ...{ tones, pattern, lines, source: 'two-tone.csv' },
  };
}

export const modulated = twoToneData(60, 7000, 'modulation');
export const beating = twoToneData(13_000, 14_000, 'difference-frequency');
export const otherTones = twoToneData(400, 3000, null);

const wave = (amplitude: number, phase: number) =>
  Float64Array.from({ length: 400 }, (_, i) => amplitude * Math.sin((2 * Math.PI * i) / 48 + phase));

export const waveform: WaveformExcerptData = {
  rateHz: 48_000,
  fundamentalHz: 1000,
  channels: [
    { name: 'v_in', role: 'stimulus', unit: 'V', values: wave(0.3, 1) },
    { name: 'v_out', role: 'response', unit: 'V', values: wave(0.9, 1.4) },
  ],
};

export const twoUnits: WaveformExcerptData = {
  ...waveform,
  channels: [
    { name: 'v_in', role: 'stimulus', unit: 'V', values: wave(0.3, 1) },
    { name: 'i_plate', role: 'response', unit: 'A', values: wave(0.02, 1.4) },
  ],
};

const sweepHz = decades(40, 10, 100_000);
const rollOff = (low: number, high: number) =>
  sweepHz.map((hz) => -10 * Math.log10(1 + (low / hz) ** 2) - 10 * Math.log10(1 + (hz / high) ** 4));

export const oneResponse: ResponseData = {
  quantity: 'Level',
  referenceHz: 1000,
  channels: [{ name: 'v_out', frequencyHz: sweepHz, levelDb: rollOff(12, 52_000) }],
};

export const twoResponses: ResponseData = {
  quantity: 'Gain',
  referenceHz: 1000,
  channels: [
    { name: 'triode connection', frequencyHz: sweepHz, levelDb: rollOff(12, 46_000) },
    { name: 'distributed load', frequencyHz: sweepHz, levelDb: rollOff(16, 33_000) },
  ],
};

const audioHz = decades(30, 20, 20_000);
const bathtub = (scale: number) => audioHz.map((hz) => scale * (0.0004 + 0.06 / hz + 2e-7 * hz));

export const oneThd: ThdAgainstFrequencyData = {
  quantity: 'THD',
  series: [{ name: 'v_out', frequencyHz: audioHz, ratio: bathtub(1), low: bathtub(0.7), high: bathtub(1.3) }],
  source: 'thd.csv',
};

export const twoThd: ThdAgainstFrequencyData = {
  quantity: 'THD',
  series: [
    { name: '330 nF', frequencyHz: audioHz, ratio: bathtub(1) },
    { name: '1 µF', frequencyHz: audioHz, ratio: audioHz.map((hz) => 0.0006 + 0.02 / hz + 2e-7 * hz) },
  ],
};

const powers = decades(30, 0.01, 8);
const rising = (limit: number) =>
  powers.map((watts) => 0.0035 * Math.sqrt(watts) + 0.06 * (watts / limit) ** 6);

export const onePower: ThdAgainstPowerData = {
  quantity: 'THD',
  series: [{ name: 'v_out', powerW: powers, ratio: rising(6) }],
};

export const twoPowers: ThdAgainstPowerData = {
  quantity: 'THD',
  series: [
    { name: 'triode', powerW: powers, ratio: rising(4) },
    { name: 'pentode', powerW: powers, ratio: rising(7) },
  ],
};

export const harmonics: HarmonicsAgainstFrequencyData = {
  channel: 'v_out',
  frequencyHz: audioHz,
  orders: [
    { order: 2, ratio: audioHz.map((hz) => 0.004 * (1 + 30 / hz)) },
    { order: 3, ratio: audioHz.map((hz) => 0.0009 * (1 + (120 / hz) ** 1.4 + hz / 3000)) },
    { order: 4, ratio: audioHz.map((hz) => 0.0005 * (1 + 60 / hz)) },
    { order: 5, ratio: audioHz.map((hz, i) => (i < 3 ? 0 : 0.0002 * (1 + hz / 8000))) },
  ],
};

const plateVolts = Array.from({ length: 61 }, (_, i) => i * 10);
const perveance = (plateV: number, gridV: number) => 5.5e-5 * Math.max(0, plateV / 3.9 + gridV) ** 1.5;

export const tubeLoad: LoadLineData = {
  device: '300B',
  curves: [0, -20, -40, -60, -80, -100, -120].map((gridV) => ({
    gridV,
    plateV: plateVolts,
    plateA: plateVolts.map((plateV) => perveance(plateV, gridV)),
  })),
  loadLine: [
    { plateV: 0, plateA: 0.14824 },
    { plateV: 504, plateA: 0 },
  ],
  loadOhm: 3400,
  operatingPoint: { plateV: 300, plateA: 0.06, gridV: -61 },
  swing: Array.from({ length: 9 }, (_, i) => ({
    plateV: 110 + 45 * i,
    plateA: 0.06 + (300 - 110 - 45 * i) / 3400,
  })),
  dissipationLimitW: 40,
};

const { swing: _swing, ...tubeCurves } = tubeLoad;

/** An ellipse about the operating point, cut off where no current is left. */
export const tubeLoop: ReactivePathData = {
  ...tubeCurves,
  path: Array.from({ length: 48 }, (_, i) => ({
    plateV: 300 + 190 * Math.cos((2 * Math.PI * i) / 48),
    plateA: Math.max(0, 0.06 - 0.08 * Math.cos((2 * Math.PI * i) / 48 - 0.9)),
  })),
  at: { frequencyHz: 25, loadOhm: 1900, phaseDeg: 52, thdRatio: 0.11 },
};

const combinedAt = (plateV: number, inputV: number) =>
  perveance(plateV, inputV - 65) - perveance(600 - plateV, -inputV - 65);

export const pairLoad: CombinedLoadLineData = {
  device: '300B',
  loadOhm: 4000,
  restV: 300,
  combined: [60, 30, 0, -30, -60].map((inputV) => ({
    inputV,
    plateV: plateVolts,
    plateA: plateVolts.map((plateV) => combinedAt(plateV, inputV)),
  })),
  sides: [1, -1].map((sign) => ({
    plateV: plateVolts,
    plateA: plateVolts.map((plateV) => sign * perveance(sign > 0 ? plateV : 600 - plateV, -65)),
  })),
  path: Array.from({ length: 9 }, (_, i) => ({ plateV: 140 + 40 * i, plateA: 0.16 - 0.04 * i })),
};

/** The same pair into a load that opens its path to a loop. */
export const pairLoop: CombinedLoadLineData = {
  ...pairLoad,
  path: Array.from({ length: 49 }, (_, i) => ({
    plateV: 300 + 160 * Math.cos((2 * Math.PI * i) / 48),
    plateA: -0.15 * Math.cos((2 * Math.PI * i) / 48 - 0.8),
  })),
  at: { frequencyHz: 20, loadOhm: 2100, phaseDeg: -46, thdRatio: 0.062 },
};

const cycleDegrees = Array.from({ length: 73 }, (_, i) => 5 * i);
const sideCurrent = (degrees: number) => Math.max(0, 0.04 + 0.12 * Math.cos((degrees * Math.PI) / 180));

export const pairCurrents: CurrentsOverCycleData = {
  degrees: cycleDegrees,
  firstA: cycleDegrees.map(sideCurrent),
  secondA: cycleDegrees.map((degrees) => sideCurrent(degrees + 180)),
  cutOffShare: 0.39,
};

const loads = decades(20, 1500, 10_000);

export const powerOverLoad: PowerAgainstLoadData = {
  loadOhm: loads,
  powerW: loads.map((ohm) => (19_000 * ohm) / (ohm + 2200) ** 2),
  secondRatio: loads.map((ohm) => 100 / ohm),
  thirdRatio: loads.map((ohm) => (180 / ohm) ** 1.7),
  thdRatio: loads.map((ohm) => Math.hypot(100 / ohm, (180 / ohm) ** 1.7)),
  chosenOhm: 3400,
  candidates: [
    { label: 'twice the plate resistance', loadOhm: 1600 },
    { label: 'most power', loadOhm: 2200 },
    { label: 'four times the plate resistance', loadOhm: 3200 },
  ],
};

const outputs = Array.from({ length: 21 }, (_, i) => 14 * (i / 20) ** 2);

/** A pair that is hottest at two fifths of its output. */
export const heatOverWatts: DissipationAgainstPowerData = {
  powerW: outputs,
  deviceW: outputs.map((watt) => 0.7 + 1.6 * Math.sqrt(watt) - 0.25 * watt),
  efficiency: outputs.map((watt) => 0.19 * Math.sqrt(watt)),
};

const speakers = decades(17, 2, 32);

export const heatOverLoads: DissipationAgainstLoadData = {
  loadOhm: speakers,
  resistiveW: speakers.map((ohm) => 0.6 + 26 / ohm),
  reactiveW: speakers.map((ohm) => 0.6 + 37 / ohm),
  chosenOhm: 8,
};

const watts = decades(24, 0.001, 6);

/** A second that grows with amplitude and a third that grows with power and overtakes it. */
export const harmonicsOverWatts: HarmonicsAgainstPowerData = {
  channel: 'output',
  powerW: watts,
  orders: [
    { order: 2, ratio: watts.map((watt) => 0.002 * Math.sqrt(watt)) },
    { order: 3, ratio: watts.map((watt) => 0.0015 * watt) },
  ],
};

const modelWatts = decades(16, 0.003, 4);

/** A model whose third is half of what is measured, down to where its numbers are long. */
export const modelAndMeasured: PredictedHarmonicsData = {
  channel: 'output',
  model: {
    powerW: modelWatts,
    orders: [
      { order: 2, ratio: modelWatts.map((watt) => 0.0022 * Math.sqrt(watt)) },
      { order: 3, ratio: modelWatts.map((watt) => 0.00075 * watt ** 1.6) },
    ],
  },
  measured: { powerW: watts, orders: harmonicsOverWatts.orders },
  source: 'level.csv',
};

/** A stage that a loudspeaker's resonance at 55 Hz troubles most. */
export const intoLoudspeaker: LoadOverFrequencyData = {
  into: 'the loudspeaker on the shelf',
  frequencyHz: audioHz,
  powerW: audioHz.map((hz) => 3.4 / (1 + (28 / hz) ** 2)),
  loadOhm: audioHz.map((hz) => 2500 + 6000 / Math.hypot(1, 3 * (hz / 55 - 55 / hz))),
  phaseDeg: audioHz.map((hz) => 50 * Math.tanh(Math.log(55 / hz))),
  secondRatio: audioHz.map((hz) => 0.03 + 0.9 / hz),
  thirdRatio: audioHz.map((hz) => 0.008 + 0.3 / hz),
  thdRatio: audioHz.map((hz) => Math.hypot(0.03 + 0.9 / hz, 0.008 + 0.3 / hz)),
  worst: { frequencyHz: 20, loadOhm: 3100, phaseDeg: 39, thdRatio: Math.hypot(0.075, 0.023) },
};

const impedanceHz = decades(60, 20, 20_000);

/** A resonance near 55 Hz and an inductance at the top. */
export const loudspeakers: ImpedanceData = {
  channels: [1, 0.6].map((share, i) => ({
    name: i === 0 ? 'in the cabinet' : 'with a damped port',
    frequencyHz: impedanceHz,
    ohm: impedanceHz.map((hz) => 6 + (30 * share) / Math.hypot(1, 4 * (hz / 55 - 55 / hz)) + hz / 2500),
  })),
};

const densityHz = decades(80, 10, 90_000);

/** White noise that rises towards low frequencies, with three lines of hum. */
export const noisy: NoiseDensityData = {
  channel: 'v_out',
  role: 'response',
  unit: 'V',
  frequencyHz: densityHz,
  density: densityHz.map((hz) => 1.3e-6 * Math.sqrt(1 + 200 / hz) * (1 + (Math.abs(hz - 100) < 6 ? 40 : 0))),
  hum: [50, 100, 200],
  source: 'noise.csv',
};

/** Every kind of chart, with data that show its features. */
export const samples: Record<string, (size: ChartSize) => ChartResult> = {
  'harmonic-spectrum': (size) => harmonicSpectrum(spectrumData(240), size),
  'intermodulation-spectrum': (size) => intermodulationSpectrum(beating, size),
  'intermodulation-spectrum-modulation': (size) => intermodulationSpectrum(modulated, size),
  'intermodulation-spectrum-other': (size) => intermodulationSpectrum(otherTones, size),
  'waveform-excerpt': (size) => waveformExcerpt(waveform, size),
  'waveform-excerpt-two-units': (size) => waveformExcerpt(twoUnits, size),
  response: (size) => response(oneResponse, size),
  'response-two-channels': (size) => response(twoResponses, size),
  'thd-against-frequency': (size) => thdAgainstFrequency(oneThd, size),
  'thd-against-frequency-two': (size) => thdAgainstFrequency(twoThd, size),
  'thd-against-power': (size) => thdAgainstPower(onePower, size),
  'thd-against-power-two': (size) => thdAgainstPower(twoPowers, size),
  'harmonics-against-frequency': (size) => harmonicsAgainstFrequency(harmonics, size),
  'harmonics-against-power': (size) => harmonicsAgainstPower(harmonicsOverWatts, size),
  impedance: (size) => impedance({ channels: loudspeakers.channels.slice(0, 1) }, size),
  'impedance-two': (size) => impedance(loudspeakers, size),
  'noise-density': (size) => noiseDensityChart(noisy, size),
  'load-line': (size) => loadLine(tubeLoad, size),
  'reactive-path': (size) => reactivePath(tubeLoop, size),
  'load-over-frequency': (size) => loadOverFrequency(intoLoudspeaker, size),
  'predicted-harmonics': (size) => predictedHarmonics(modelAndMeasured, size),
  'combined-load-line': (size) => combinedLoadLine(pairLoad, size),
  'combined-load-line-loop': (size) => combinedLoadLine(pairLoop, size),
  'currents-over-cycle': (size) => currentsOverCycle(pairCurrents, size),
  'dissipation-against-power': (size) => dissipationAgainstPower(heatOverWatts, size),
  'dissipation-against-load': (size) => dissipationAgainstLoad(heatOverLoads, size),
  'power-against-load': (size) => powerAgainstLoad(powerOverLoad, size),
};

/** The data behind the samples, to see that drawing leaves them as they are. */
export const sampleData = {
  spectrum: spectrumData(240),
  modulated,
  beating,
  otherTones,
  waveform,
  pairLoad,
  pairLoop,
  pairCurrents,
  twoUnits,
  oneResponse,
  twoResponses,
  oneThd,
  twoThd,
  onePower,
  twoPowers,
  harmonics,
  harmonicsOverWatts,
  loudspeakers,
  noisy,
  tubeLoad,
  tubeLoop,
  intoLoudspeaker,
  modelAndMeasured,
  powerOverLoad,
  heatOverWatts,
  heatOverLoads,
};

export const sizes: readonly ChartSize[] = ['wide', 'narrow'];
