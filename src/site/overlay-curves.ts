import type { Column } from '../capture/index.ts';
import type { SweepChannel } from '../journal/analysis/sweep-channels.ts';
import type { Analysis } from '../journal/index.ts';
import { type Curve, harmonicView, type View } from '../overlay/index.ts';
import { powerOf } from './capture-charts.ts';
import type { ChartedCapture } from './charted-capture.ts';
import { spectrumCurves } from './overlay-spectrum.ts';
import { type Kept, keptDigits } from './rounded.ts';
import { bandOf } from './sweep-bands.ts';

type Of<Kind extends Analysis['kind']> = Extract<Analysis, { kind: Kind }>;

/** Every curve of a capture that can be laid over others, by channel and view. */
export function overlayCurves(capture: ChartedCapture): Curve[] {
  const { analysis, output } = capture;
  const derived = output
    ? [impedanceCurve('output impedance', output.impedance.frequencyHz, output.impedance.ohm)]
    : [];
  switch (analysis.kind) {
    case 'waveform':
    case 'two-tone':
      return spectrumCurves(analysis);
    case 'frequency-sweep':
      return [...frequencyCurves(capture, analysis), ...derived];
    case 'level-sweep':
      return powerCurves(capture, analysis);
    case 'impedance-sweep':
      return analysis.sweeps.flatMap(({ channel: { name, level } }) =>
        level ? [impedanceCurve(name, analysis.axis.values, level.values)] : [],
      );
    case 'unsummarised':
      return [];
  }
}

const impedanceCurve = (channel: string, frequencyHz: Kept, ohm: Kept): Curve => ({
  ...{ view: 'impedance', channel, unit: 'Ω' },
  ...{ x: keptDigits(frequencyHz), y: readings(ohm) },
});

function frequencyCurves(capture: ChartedCapture, { axis, sweeps }: Of<'frequency-sweep'>): Curve[] {
  const x = axis.values;
  return sweeps.flatMap(({ channel }) => [
    ...responseCurve(channel, x),
    ...distortionCurves(capture, channel, { x, along: 'frequency', frequencyHz: x }),
  ]);
}

/** A sweep with distortion is taken at a level that is held, and shows no response. */
function responseCurve({ name, level, thd, harmonics }: SweepChannel, x: Float64Array): Curve[] {
  if (!level || thd || harmonics.length > 0) return [];
  const factor = level.quantity === 'power' ? 10 : 20;
  const y = level.values.map((value) => factor * Math.log10(value));
  return [{ view: 'response', channel: name, unit: levelUnit(level), x: keptDigits(x), y: readings(y) }];
}

function levelUnit({ quantity }: Column): string {
  const units: Partial<Record<Column['quantity'], string>> = { voltage: 'dBV', power: 'dBW', gain: 'dB' };
  return units[quantity] ?? 'dB re 1 A';
}

function powerCurves(capture: ChartedCapture, { axis, sweeps, loadOhm }: Of<'level-sweep'>): Curve[] {
  return sweeps.flatMap(({ channel }) => {
    const x = powerOf(channel, axis, loadOhm);
    return x ? distortionCurves(capture, channel, { x, along: 'power', frequencyHz: null }) : [];
  });
}

interface Places {
  x: Float64Array;
  along: View['along'];
  frequencyHz: Float64Array | null;
}

function distortionCurves(capture: ChartedCapture, channel: SweepChannel, places: Places): Curve[] {
  const { name, thd, thdPlusNoise, harmonics } = channel;
  const columns = { thd, 'thd-plus-noise': thdPlusNoise };
  const totals = (['thd', 'thd-plus-noise'] as const).flatMap((id) => {
    const ratio = columns[id]?.values;
    if (!ratio) return [];
    const band = bandOf(capture, { id, channel: name, ratio, frequencyHz: places.frequencyHz });
    return [{ ...percentCurve(`${id}-${places.along}`, name, places.x, ratio), ...inPercent(band) }];
  });
  const single = harmonics.map(({ order, values }) =>
    percentCurve(harmonicView(order, places.along), name, places.x, values),
  );
  return [...totals, ...single];
}

const percentCurve = (view: string, channel: string, x: Float64Array, ratio: Float64Array): Curve => ({
  ...{ view, channel, unit: '%' },
  ...{ x: keptDigits(x), y: readings(ratio.map((value) => 100 * value)) },
});

function inPercent(band: ReturnType<typeof bandOf>): Pick<Curve, 'low' | 'high'> {
  const percent = (ends: Float64Array) => keptDigits(ends.map((value) => 100 * value));
  return band ? { low: percent(band.low), high: percent(band.high) } : {};
}

/** What is not finite is no reading. */
const readings = (values: Kept): (number | null)[] =>
  keptDigits(values).map((value) => (Number.isFinite(value) ? value : null));
