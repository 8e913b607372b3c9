import { type Problem, problemAt } from '../../problem/index.ts';
import type { BandMeans } from '../../signal/index.ts';
import type { RawRecord } from '../records.ts';
import type { ListeningData } from '../schemas/index.ts';
import type { CaptureRecord, HeardBand, MeasuredBand } from '../types.ts';
import { listeningMessages as messages } from './listening-messages.ts';

type Alternative = ListeningData['alternatives'][number];

/** A capture of an alternative, and the means of its total distortion over octaves. */
interface Banded {
  alternative: Alternative;
  capture: CaptureRecord;
  total: BandMeans;
}

/**
 * Sets what was heard in each band beside the total distortion measured there. The mean over a band is that of the
 * octaves whose middle lies in it, each of equal weight, and of the same octaves for all alternatives.
 */
export function heardByBand(
  { data, yaml }: RawRecord<ListeningData>,
  captures: readonly CaptureRecord[],
): { heard: HeardBand[]; problems: Problem[] } {
  const found = data.alternatives.map((alternative, index) => {
    const banded = bandedOf(alternative, captures);
    if (!banded || !('rule' in banded)) return { banded, problems: [] };
    return { banded: null, problems: [problemAt(yaml.placeOf(['alternatives', index, 'capture']), banded)] };
  });
  const measured = found.flatMap(({ banded }) => banded ?? []);
  const bands = new Map(data.notes.flatMap(({ band }) => (band ? [[band.join(), band] as const] : [])));
  const heard = [...bands.values()]
    .sort((a, b) => a[0] - b[0] || a[1] - b[1])
    .map((bandHz) => ({
      bandHz,
      notes: data.notes.filter(({ band }) => band?.join() === bandHz.join()),
      ...measuredIn(bandHz, measured),
    }));
  return { heard, problems: found.flatMap(({ problems }) => problems) };
}

/** What an alternative's capture has by band; null where none is named or it could not be read, which is told elsewhere. */
function bandedOf(alternative: Alternative, captures: readonly CaptureRecord[]) {
  const [id, channel] = (alternative.capture ?? '').split('#');
  const capture = captures.find((one) => one.id === id);
  if (!capture) return null;
  const { analysis } = capture;
  if (analysis.kind !== 'frequency-sweep') return messages.notASweep(capture.id);
  const totals = analysis.sweeps.flatMap(({ channel: { name }, summary }) => {
    const total = summary.bandMeans.find(({ order }) => order === null);
    return total ? [{ name, total }] : [];
  });
  if (totals.length === 0) return messages.notASweep(capture.id);
  const fitting = totals.filter(({ name }) => channel === undefined || name === channel);
  const [first] = fitting;
  if (!first || fitting.length > 1) {
    return messages.whichChannel(
      capture.id,
      totals.map(({ name }) => name),
    );
  }
  return { alternative, capture, total: first.total };
}

function measuredIn(
  [low, high]: readonly [number, number],
  banded: readonly Banded[],
): { octavesHz: number[]; measured: MeasuredBand[] } {
  const octavesOf = ({ bands }: BandMeans) =>
    bands.filter(({ band }) => band.fraction === 1 && band.nominalHz >= low && band.nominalHz <= high);
  const [first, ...others] = banded.map(({ total }) => octavesOf(total).map(({ band }) => band.nominalHz));
  const octavesHz = (first ?? []).filter((hertz) => others.every((other) => other.includes(hertz)));
  if (octavesHz.length === 0) return { octavesHz, measured: [] };
  const measured = banded.map(({ alternative, capture, total }) => {
    const means = octavesOf(total).filter(({ band }) => octavesHz.includes(band.nominalHz));
    const square = means.reduce((sum, { energy }) => sum + energy ** 2, 0) / means.length;
    return { of: alternative.id, capture: capture.id, thd: Math.sqrt(square) };
  });
  return { octavesHz, measured };
}
