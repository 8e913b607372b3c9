import {
  harmonicSpectrum,
  harmonicsAgainstFrequency,
  harmonicsAgainstPower,
  impedance,
  response,
  thdAgainstFrequency,
  thdAgainstPower,
  waveformExcerpt,
} from '../charts/index.ts';
import type { Analysis, ChartKind } from '../journal/index.ts';
import { amplitudeSpectrum, type ChannelSummary } from '../signal/index.ts';
import type { ChartedCapture } from './charted-capture.ts';
import { chosenChannel, noiseChart } from './noise-chart.ts';
import { type SizedChart, sized } from './sized-chart.ts';
import { bandOf, bandSentence } from './sweep-bands.ts';
import { twoToneChart } from './two-tone-chart.ts';
import { windowText } from './window-words.ts';

type Of<Kind extends Analysis['kind']> = Extract<Analysis, { kind: Kind }>;

/** A chart of a capture; null where its kind does not give that chart. */
export function captureChart(
  capture: ChartedCapture,
  kind: ChartKind,
  channel: string | null,
): SizedChart | null {
  const { analysis } = capture;
  if (kind === 'output-impedance') return outputImpedanceChart(capture);
  if (kind === 'loudspeaker-response') return loudspeakerChart(capture);
  switch (analysis.kind) {
    case 'waveform':
      return waveformChart(capture, analysis, kind, channel);
    case 'two-tone':
      return twoToneChart(capture, analysis, kind, channel);
    case 'frequency-sweep':
      return frequencyChart(capture, narrowed(analysis, channel), kind);
    case 'level-sweep':
      return kind === 'harmonics'
        ? harmonicsOverPower(capture, narrowed(analysis, channel))
        : powerChart(capture, narrowed(analysis, channel));
    case 'impedance-sweep':
      return impedanceChart(capture, narrowed(analysis, channel));
    case 'unsummarised':
      return null;
  }
}

function waveformChart(
  capture: ChartedCapture,
  analysis: Of<'waveform'>,
  kind: ChartKind,
  channel: string | null,
): SizedChart | null {
  if (kind === 'excerpt') return excerpt(capture, analysis);
  return kind === 'noise' ? noiseChart(capture, analysis, channel) : spectrum(capture, analysis, channel);
}

/** The analysis with one channel only, where one is asked for. */
function narrowed<A extends { sweeps: { channel: { name: string } }[] }>(
  analysis: A,
  channel: string | null,
): A {
  const chosen = analysis.sweeps.filter((sweep) => channel === null || sweep.channel.name === channel);
  return { ...analysis, sweeps: chosen.length > 0 ? chosen : analysis.sweeps };
}

function spectrum(
  capture: ChartedCapture,
  analysis: Of<'waveform'>,
  wanted: string | null,
): SizedChart | null {
  const { rateHz, summary } = analysis;
  const { harmonics } = summary.settings;
  const { channel, figures } = chosenChannel(analysis, wanted) ?? {};
  if (!channel || !figures) return null;
  const drawn = amplitudeSpectrum(channel, rateHz, { harmonics });
  const { frequencyHz, rms, floorRms } = drawn;
  const data = {
    ...{ channel: channel.name, role: channel.role, frequencyHz, rms, floorRms },
    fundamental: figures.fundamental,
    harmonics: figures.harmonics,
    source: capture.data.title,
  };
  return sized(
    harmonicSpectrum,
    data,
    `${capture.data.title}: spectrum of ${channel.name}, ${windowText(drawn)}`,
  );
}

function excerpt(capture: ChartedCapture, { channels, rateHz, summary }: Of<'waveform'>): SizedChart {
  const data = {
    rateHz,
    fundamentalHz: fundamentalOf(summary.channels),
    channels,
    source: capture.data.title,
  };
  return sized(waveformExcerpt, data, `${capture.data.title}: an excerpt of the waveform.`);
}

const fundamentalOf = (channels: readonly ChannelSummary[]) =>
  channels.find(({ fundamental }) => fundamental)?.fundamental?.frequencyHz ?? null;

function frequencyChart(
  capture: ChartedCapture,
  analysis: Of<'frequency-sweep'>,
  kind: ChartKind,
): SizedChart | null {
  if (kind === 'thd') return thdChart(capture, analysis);
  return kind === 'harmonics' ? harmonicsChart(capture, analysis) : responseChart(capture, analysis);
}

function responseChart(capture: ChartedCapture, { axis, sweeps }: Of<'frequency-sweep'>): SizedChart {
  const drawn = sweeps.flatMap(({ channel, summary }) =>
    channel.level ? [{ ...channel, level: channel.level, summary }] : [],
  );
  const gains = drawn.every(({ level }) => level.quantity === 'gain');
  const referenceHz = drawn.find(({ summary }) => summary.response)?.summary.response?.referenceHz ?? null;
  const data = {
    quantity: gains ? 'Gain' : 'Level',
    referenceHz,
    channels: drawn.map(({ name, level, summary }) => ({
      name,
      frequencyHz: axis.values,
      levelDb: level.values.map(decibelsRe(level.quantity, summary.response)),
    })),
    source: capture.data.title,
  };
  return sized(response, data, `${capture.data.title}: ${data.quantity.toLowerCase()} against frequency.`);
}

type Response = Of<'frequency-sweep'>['sweeps'][number]['summary']['response'];

/** Turns a column's values into decibels re its own value at the reference, or re its unit without one. */
export function decibelsRe(quantity: string, at: Response): (value: number) => number {
  const zero = at?.referenceLevel ?? 1;
  return quantity === 'power'
    ? (value) => 10 * Math.log10(value / zero ** 2)
    : (value) => 20 * Math.log10(value / zero);
}

function thdChart(capture: ChartedCapture, { axis, sweeps }: Of<'frequency-sweep'>): SizedChart {
  const total = sweeps.some(({ channel }) => channel.thd);
  const id = total ? 'thd' : 'thd-plus-noise';
  const frequencyHz = axis.values;
  const lines = sweeps.flatMap(({ channel: { name, thd, thdPlusNoise } }) => {
    const ratio = (total ? thd : thdPlusNoise)?.values;
    return ratio ? [{ name, ratio, band: bandOf(capture, { id, channel: name, ratio, frequencyHz }) }] : [];
  });
  const data = {
    quantity: total ? 'THD' : 'THD+N',
    series: lines.map(({ band, ...line }) => ({ ...line, ...band, frequencyHz })),
    source: capture.data.title,
  };
  const bands = bandSentence(lines.map(({ band }) => band));
  const caption = `${capture.data.title}: ${data.quantity} against frequency.${bands}`;
  return sized(thdAgainstFrequency, data, caption);
}

function harmonicsChart(capture: ChartedCapture, { axis, sweeps }: Of<'frequency-sweep'>): SizedChart | null {
  const channel = sweeps.find((sweep) => sweep.channel.harmonics.length > 0)?.channel;
  if (!channel) return null;
  const data = {
    channel: channel.name,
    frequencyHz: axis.values,
    orders: channel.harmonics.map(({ order, values }) => ({ order, ratio: values })),
    source: capture.data.title,
  };
  return sized(
    harmonicsAgainstFrequency,
    data,
    `${capture.data.title}: harmonics of ${channel.name} against frequency.`,
  );
}

function powerChart(capture: ChartedCapture, { axis, sweeps, loadOhm }: Of<'level-sweep'>): SizedChart {
  const total = sweeps.some(({ channel }) => channel.thd);
  const id = total ? 'thd' : 'thd-plus-noise';
  const lines = sweeps.flatMap(({ channel, summary }) => {
    const { name } = channel;
    const ratio = (total ? channel.thd : channel.thdPlusNoise)?.values;
    const powerW = powerOf(channel, axis, loadOhm);
    if (!ratio || !powerW) return [];
    const marks = summary.powerAtThd.map(({ thdRatio, powerW: at }) => ({ ratio: thdRatio, powerW: at }));
    const band = bandOf(capture, { id, channel: name, ratio, frequencyHz: null });
    return [{ series: { name, powerW, ratio, ...band, ...(total ? { marks } : {}) }, band }];
  });
  const data = {
    quantity: total ? 'THD' : 'THD+N',
    series: lines.map(({ series }) => series),
    source: capture.data.title,
  };
  const bands = bandSentence(lines.map(({ band }) => band));
  const caption = `${capture.data.title}: ${data.quantity} against output power.${bands}`;
  return sized(thdAgainstPower, data, caption);
}

function harmonicsOverPower(
  capture: ChartedCapture,
  { axis, sweeps, loadOhm }: Of<'level-sweep'>,
): SizedChart | null {
  const channel = sweeps.find((sweep) => sweep.channel.harmonics.length > 0)?.channel;
  const powerW = channel ? powerOf(channel, axis, loadOhm) : null;
  if (!channel || !powerW) return null;
  const orders = channel.harmonics.map(({ order, values }) => ({ order, ratio: values }));
  const data = { channel: channel.name, powerW, orders, source: capture.data.title };
  return sized(
    harmonicsAgainstPower,
    data,
    `${capture.data.title}: harmonics of ${channel.name} against output power.`,
  );
}

/** Output power of each row, from its own column, from the axis, or from voltage and load. */
export function powerOf(
  { level }: Of<'level-sweep'>['sweeps'][number]['channel'],
  axis: Of<'level-sweep'>['axis'],
  loadOhm: number | null,
): Float64Array | null {
  if (level?.quantity === 'power') return level.values;
  if (axis.quantity === 'power') return axis.values;
  return level?.quantity === 'voltage' && loadOhm !== null
    ? level.values.map((volts) => volts ** 2 / loadOhm)
    : null;
}

function impedanceChart(capture: ChartedCapture, { axis, sweeps }: Of<'impedance-sweep'>): SizedChart {
  const data = {
    channels: sweeps.map(({ channel: { name, level } }) => ({
      name,
      frequencyHz: axis.values,
      ohm: level?.values ?? [],
    })),
    source: capture.data.title,
  };
  return sized(impedance, data, `${capture.data.title}: impedance against frequency.`);
}

function outputImpedanceChart({ data, output }: ChartedCapture): SizedChart | null {
  if (!output) return null;
  const { frequencyHz, ohm } = output.impedance;
  const channels = [{ name: 'output impedance', frequencyHz, ohm }];
  return sized(
    impedance,
    { channels, source: data.title },
    `${data.title}: output impedance from two loads.`,
  );
}

/** What the output impedance changes when a loudspeaker takes the place of the rated load. */
function loudspeakerChart({ data, output }: ChartedCapture): SizedChart | null {
  const error = output?.loudspeaker?.error;
  if (!output?.loudspeaker || !error) return null;
  const { frequencyHz, db: levelDb, referenceHz } = error;
  const channels = [{ name: 'level at the loudspeaker', frequencyHz, levelDb }];
  const chart = { quantity: 'Change of level', referenceHz, channels, source: data.title };
  const caption = `${data.title}: change of the response when the rated load is replaced (${output.loudspeaker.title}).`;
  return sized(response, chart, caption);
}
