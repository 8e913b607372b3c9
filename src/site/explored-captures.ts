import { hertz } from '../charts/format.ts';
import type { Analysis, CaptureRecord, ChartKind } from '../journal/index.ts';
import type { CurveChoice, CurveSource } from '../overlay/explored/index.ts';
import type { Curve } from '../overlay/index.ts';
import { fileAddress } from './address.ts';
import { chosenChannel } from './noise-chart.ts';
import { curvesOf, curvesPath } from './overlay.ts';

/** Where a reader who explores a chart of a capture finds its curves; null where they are not published. */
export function capturedCurves(
  capture: CaptureRecord,
  kind: ChartKind,
  channel: string | null,
): CurveSource | null {
  const choice = choiceOf(capture, kind, channel);
  return choice && { file: fileAddress(`overlay/curves/${curvesPath(capture)}.json`), ...choice };
}

function choiceOf(capture: CaptureRecord, kind: ChartKind, wanted: string | null): CurveChoice | null {
  const { analysis } = capture;
  const curves = curvesOf(capture);
  switch (kind) {
    case 'spectrum':
      return spectrumChoice(analysis, curves, wanted);
    case 'response':
      return responseChoice(analysis, only(curves, wanted));
    case 'thd':
    case 'power':
      return totalChoice(only(curves, wanted));
    case 'harmonics':
      return harmonicsChoice(only(curves, wanted));
    case 'impedance':
      return ofView(only(curves, wanted), 'impedance');
    case 'output-impedance':
      return ofView(only(curves, 'output impedance'), 'impedance');
    default:
      return null;
  }
}

/** The curves of one channel where one is asked for that has any. */
function only(curves: readonly Curve[], wanted: string | null): readonly Curve[] {
  const own = curves.filter(({ channel }) => channel === wanted);
  return own.length > 0 ? own : curves;
}

function ofView(curves: readonly Curve[], view: string): CurveChoice | null {
  const channels = curves.filter((curve) => curve.view === view).map(({ channel }) => channel);
  return channels.length > 0 ? { views: [view], channels } : null;
}

function totalChoice(curves: readonly Curve[]): CurveChoice | null {
  const views = ['thd-frequency', 'thd-power', 'thd-plus-noise-frequency', 'thd-plus-noise-power'];
  const view = views.find((id) => curves.some((curve) => curve.view === id));
  return view === undefined ? null : ofView(curves, view);
}

function harmonicsChoice(curves: readonly Curve[]): CurveChoice | null {
  const single = curves.filter(({ view }) => view.startsWith('harmonic-'));
  const [first] = single;
  if (!first) return null;
  const views = single.filter(({ channel }) => channel === first.channel).map(({ view }) => view);
  return { views, channels: [first.channel] };
}

function responseChoice(analysis: Analysis, curves: readonly Curve[]): CurveChoice | null {
  const choice = ofView(curves, 'response');
  if (!choice || analysis.kind !== 'frequency-sweep') return null;
  const found = choice.channels.map(
    (name) => analysis.sweeps.find(({ channel }) => channel.name === name)?.summary.response ?? null,
  );
  const [first] = found;
  if (!first) return choice;
  const decibels = found.map((response) => 20 * Math.log10(response?.referenceLevel ?? 1));
  return { ...choice, re: { unit: `dB re ${hertz(first.referenceHz)}`, decibels } };
}

function spectrumChoice(
  analysis: Analysis,
  curves: readonly Curve[],
  wanted: string | null,
): CurveChoice | null {
  const channel = spectrumChannel(analysis, wanted);
  const curve = curves.find((one) => one.view === 'spectrum' && one.channel === channel?.name);
  if (!channel || curve?.carrier === undefined) return null;
  const { marks, re } = channel;
  return {
    ...{ views: ['spectrum'], channels: [channel.name] },
    re: { unit: re, decibels: [curve.carrier] },
    marks: marks.toSorted((a, b) => a.at - b.at),
  };
}

/** The channel that a capture's spectrum is drawn of, with the lines that are told from noise. */
function spectrumChannel(analysis: Analysis, wanted: string | null) {
  if (analysis.kind === 'waveform') {
    const chosen = chosenChannel(analysis, wanted);
    const harmonics = chosen?.figures.harmonics.filter(({ detected }) => detected) ?? [];
    const marks = harmonics.map(({ order, frequencyHz }) => ({ name: `H${order}`, at: frequencyHz }));
    return chosen && { name: chosen.channel.name, marks, re: 'dB re fundamental' };
  }
  if (analysis.kind !== 'two-tone') return null;
  const { channels, summary } = analysis;
  const drawn = (channels.find(({ role }) => role === 'response') ?? channels.at(-1))?.name;
  const figures = summary.channels.find(({ name }) => name === (wanted ?? drawn));
  const products = figures?.products.filter(({ detected, order }) => detected && order <= 3) ?? [];
  const marks = products.map(({ name, frequencyHz }) => ({ name, at: frequencyHz }));
  return figures ? { name: figures.name, marks, re: 'dB re upper tone' } : null;
}
