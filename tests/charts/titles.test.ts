import { describe, expect, it } from 'vitest';
import {
  type ChartResult,
  combinedLoadLine,
  harmonicSpectrum,
  harmonicsAgainstFrequency,
  loadLine,
  loadOverFrequency,
  noiseDensityChart,
  powerAgainstLoad,
  predictedHarmonics,
  reactivePath,
  response,
  thdAgainstFrequency,
  thdAgainstPower,
  waveformExcerpt,
} from '../../src/charts/index.ts';
import {
  decades,
  harmonics,
  intoLoudspeaker,
  modelAndMeasured,
  noisy,
  onePower,
  oneResponse,
  oneThd,
  pairLoop,
  powerOverLoad,
  spectrumData,
  tubeLoad,
  tubeLoop,
  twoPowers,
  twoResponses,
  twoThd,
  waveform,
} from './samples.ts';
import { chartOf } from './support.ts';

const titleOf = (result: ChartResult) => chartOf(result).text.title.replaceAll('\u00a0', ' ');
const plain = (text: string | undefined) => text?.replaceAll('\u00a0', ' ');

describe('titles say the answer', () => {
  it('of a spectrum: the largest harmonics above the noise', () => {
    // 20 lg 0.004 = −47.96, 20 lg 0.0008 = −61.94, 20 lg 0.0003 = −70.46
    expect(titleOf(harmonicSpectrum(spectrumData(240)))).toBe(
      'Second harmonic at −48 dB, third at −62 dB and fourth at −70 dB',
    );
  });

  it('of a spectrum without a harmonic above the noise', () => {
    const data = spectrumData(240);
    const hidden = data.harmonics.map((harmonic) => ({ ...harmonic, detected: false }));
    expect(titleOf(harmonicSpectrum({ ...data, harmonics: hidden }))).toBe(
      'No harmonic stands above the noise',
    );
  });

  it('of a stage over frequency: where distortion is largest and power least', () => {
    expect(titleOf(loadOverFrequency(intoLoudspeaker))).toBe(
      'Most distortion, 7.8 %, at 20 Hz; least power, 1.1 W, at 20 Hz',
    );
  });

  it('of a path into a reactive load: where it is, and what the plate sees there', () => {
    expect(titleOf(reactivePath(tubeLoop))).toBe(
      'At 25 Hz, where distortion is largest (11 %), the load is 1.9 kΩ at 52° at the plate',
    );
  });

  it('of the path of a pair into a reactive load: where it is, the load there, and how far the plates swing', () => {
    expect(titleOf(combinedLoadLine(pairLoop))).toBe(
      'At 20 Hz, where distortion is largest (6.2 %), the load is 2.1 kΩ at −46° from plate to plate: each plate swings from 140 V to 460 V',
    );
  });

  it('of harmonics by a model: both at one watt', () => {
    // The data at 1 W: 0.2 % and 0.15 % measured, 0.22 % and 0.075 % by the model.
    expect(titleOf(predictedHarmonics(modelAndMeasured))).toBe(
      'At 1 W: second harmonic 0.2 % measured, 0.22 % by the model; third harmonic 0.15 % measured, 0.075 % by the model',
    );
  });

  it('of a noise density: the noise in the middle of the band, and the hum', () => {
    // 1.3 µV/√Hz · √(1 + 200/1580) in the middle of a logarithmic range.
    expect(titleOf(noiseDensityChart(noisy))).toBe(
      'Noise of 1.4 µV/√Hz from 500 Hz to 5 kHz, hum at 50 Hz, 100 Hz and 200 Hz',
    );
    expect(titleOf(noiseDensityChart({ ...noisy, hum: [] }))).toContain('no line of the mains above it');
  });

  it('of a waveform: peak to peak', () => {
    // Amplitudes 0.3 and 0.9 V; 48 samples a cycle miss a crest by up to 1 − cos(π/48) = 0.2 %.
    expect(titleOf(waveformExcerpt(waveform))).toBe('v_in 599 mV and v_out 1.8 V peak to peak');
  });

  it('of a response: the band within the smallest tolerance that holds for a decade', () => {
    expect(titleOf(response(oneResponse))).toMatch(/^Flat within 0\.5 dB from 3\d Hz to 3\d kHz$/);
    expect(titleOf(response(twoResponses))).toMatch(
      /^Flat within 0\.5 dB: triode connection from 3\d Hz to 2\d kHz and distributed load from 4\d Hz to \d+ kHz$/,
    );
  });

  it('of a response that is nowhere flat, and of one that is flat throughout', () => {
    const frequencyHz = decades(20, 20, 20_000);
    const slope = { name: 'out', frequencyHz, levelDb: frequencyHz.map((hz) => 20 * Math.log10(hz / 1000)) };
    const flat = { name: 'out', frequencyHz, levelDb: frequencyHz.map(() => 0.1) };
    expect(titleOf(response({ quantity: 'Level', referenceHz: 1000, channels: [slope] }))).toBe(
      'No band of a decade around the reference stays within 3 dB',
    );
    expect(titleOf(response({ quantity: 'Level', referenceHz: 1000, channels: [flat] }))).toBe(
      'Flat within 0.5 dB over the whole sweep, from 20 Hz to 20 kHz',
    );
  });

  it('of distortion against frequency: the range of one line, the order of two', () => {
    // 1e-4·(4 + 600/20 + 0.04) = 0.34 % at 20 Hz; the lowest reading lies near √(0.06/2e-7) = 548 Hz
    expect(titleOf(thdAgainstFrequency(oneThd))).toMatch(
      /^THD: lowest 0\.062 % at 5\d0 Hz, highest 0\.44 % at 20 kHz$/,
    );
    // 0.0004 + 0.06/f = 0.0006 + 0.02/f at f = 200 Hz
    expect(titleOf(thdAgainstFrequency(twoThd))).toBe(
      'THD: 1 µF is below 330 nF up to 200 Hz and above it beyond',
    );
  });

  it('of distortion against power: where 1, 3 and 10 % are reached', () => {
    expect(titleOf(thdAgainstPower(onePower))).toMatch(
      /^THD reaches 1 % at 3\.\d W, 3 % at 5\.\d W and 10 % at 6\.\d W$/,
    );
    expect(titleOf(thdAgainstPower(twoPowers))).toMatch(
      /^3 % THD: triode at 3\.\d W and pentode at 5\.\d W$/,
    );
  });

  it('of distortion against power with stated marks: those, not readings off the line', () => {
    const [series] = onePower.series;
    const stated = {
      ...onePower,
      series: series === undefined ? [] : [{ ...series, marks: [{ ratio: 0.01, powerW: 2.22 }] }],
    };
    expect(titleOf(thdAgainstPower(stated))).toBe('THD reaches 1 % at 2.2 W');
  });

  it('of harmonics: which is the largest where', () => {
    expect(titleOf(harmonicsAgainstFrequency(harmonics))).toMatch(
      /^Second harmonic is the largest from \d\d Hz to \d+(\.\d)? kHz, the third below and above$/,
    );
    const [second] = harmonics.orders;
    const alone = { ...harmonics, orders: second === undefined ? [] : [second] };
    expect(titleOf(harmonicsAgainstFrequency(alone))).toBe(
      'Second harmonic is the largest from 20 Hz to 20 kHz',
    );
  });

  it('of a load line: operating point, dissipation against its limit, swing', () => {
    expect(titleOf(loadLine(tubeLoad))).toBe(
      '300B at rest: 300 V, 60 mA, 18 W of a plate limit of 40 W; full swing from 110 V to 470 V',
    );
    expect(titleOf(loadLine({ ...tubeLoad, operatingPoint: null, swing: [] }))).toBe(
      'Plate characteristics of 300B',
    );
  });

  it('of power against load: the chosen load and the most power', () => {
    // 19000·3400/5600² = 2.06 W; the most lies at 2200 Ω, where it is 19000/8800 = 2.16 W
    expect(titleOf(powerAgainstLoad(powerOverLoad))).toMatch(
      /^2\.1 W with 3 % THD at 3\.4 kΩ; most power, 2\.2 W, at 2\.\d+ kΩ$/,
    );
    expect(titleOf(powerAgainstLoad({ ...powerOverLoad, chosenOhm: null }))).toMatch(
      /^Most power, 2\.2 W, at 2\.\d+ kΩ$/,
    );
  });
});

describe('descriptions and tables', () => {
  it('a spectrum lists every harmonic with its state', () => {
    const { table } = chartOf(harmonicSpectrum(spectrumData(240)));
    expect(table.rows[0]).toEqual(['2', '2000', '−48', '0.4', 'above the noise']);
    expect(table.rows[3]).toEqual(['5', '5000', '−98.4', '0.0012', 'not told from noise']);
  });

  it('a long table is thinned with both ends, and says so', () => {
    const { table } = chartOf(thdAgainstFrequency(oneThd));
    expect(table.rows).toHaveLength(24);
    expect(table.rows[0]?.[0]).toBe('20');
    expect(table.rows.at(-1)?.[0]).toBe('20000');
    expect(table.note).toBe('24 of 30 readings. The whole data is in thd.csv.');
  });

  it('lines over different places stand one after another', () => {
    const short = { name: 'short', frequencyHz: [20, 200], ratio: [0.01, 0.02] };
    const long = { name: 'long', frequencyHz: [30, 300, 3000], ratio: [0.01, 0.02, 0.03] };
    const { table } = chartOf(thdAgainstFrequency({ quantity: 'THD', series: [short, long] }));
    expect(table.columns.map(({ title }) => title)).toEqual(['Line', 'Frequency', 'THD']);
    expect(table.rows).toEqual([
      ['short', '20', '1'],
      ['short', '200', '2'],
      ['long', '30', '1'],
      ['long', '300', '2'],
      ['long', '3000', '3'],
    ]);
  });

  it('a spectrum draws detected and undetected harmonics as different shapes, with a key to them', () => {
    const { spec } = chartOf(harmonicSpectrum(spectrumData(240)));
    const marks = (spec.datasets?.['mark'] ?? []) as { shape: string }[];
    expect(marks.map(({ shape }) => shape)).toEqual([
      'circle',
      'circle',
      'circle',
      'circle',
      'diamond',
      'diamond',
    ]);
    expect(JSON.stringify(spec.datasets?.['key-label'])).toContain('not told from noise');
  });

  it('a load outside of the sweep is said', () => {
    const { text } = chartOf(powerAgainstLoad({ ...powerOverLoad, chosenOhm: 20_000 }));
    expect(text.description).toContain('1 load lies outside of the sweep and has no rule.');
  });

  it('an excerpt begins at the first rise of the stimulus through its mean', () => {
    const { text } = chartOf(waveformExcerpt(waveform));
    expect(plain(text.description)).toMatch(/Time counts from \d+ µs after the start of the record\./);
  });

  it('channels of different units stand in panels of their own on one time axis', () => {
    const apart = chartOf(
      waveformExcerpt({
        ...waveform,
        channels: waveform.channels.map((channel, i) => ({ ...channel, unit: i === 0 ? 'V' : 'A' })),
      }),
    );
    expect(Object.keys(apart.spec.datasets ?? {}).filter((name) => name.startsWith('curve'))).toHaveLength(2);
    expect(
      Object.keys(chartOf(waveformExcerpt(waveform)).spec.datasets ?? {}).filter((name) =>
        name.startsWith('curve'),
      ),
    ).toHaveLength(1);
  });
});
