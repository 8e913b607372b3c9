import {
  type CombinedLoadLineData,
  combinedLoadLine,
  type LoadLineData,
  loadOverFrequency,
  reactivePath,
} from '../charts/index.ts';
import type { OutputSheet, RealLoad } from '../load/index.ts';
import { quantityText } from '../quantity/index.ts';
import { type SizedChart, sized } from './sized-chart.ts';

/** A load that is no resistor, and by what name it goes. */
interface Load {
  realLoad: RealLoad;
  /** The loudspeaker or resistor. */
  into: string;
  transformer: string;
}

/** Draws the path of a stage at the worst frequency of a load. */
type PathChart = (load: Load) => SizedChart;

/** What a load that is no resistor does over frequency, and the path on the stage's curves where it is worst. */
export function realLoadCharts(
  { realLoad, transformer, speakerOhm }: OutputSheet,
  path: PathChart | null,
): { name: string; chart: SizedChart }[] {
  if (!realLoad || realLoad.rows.length < 2) return [];
  const { speaker } = realLoad;
  const into = speaker === null ? quantityText(speakerOhm, 'Ω') : `the loudspeaker (${speaker})`;
  const load = { realLoad, into, transformer };
  return [
    { name: 'frequency', chart: overFrequency(load) },
    ...(path ? [{ name: 'path', chart: path(load) }] : []),
  ];
}

function overFrequency({ realLoad, into, transformer }: Load): SizedChart {
  const { rows, worst } = realLoad;
  const data = {
    into,
    frequencyHz: rows.map((row) => row.frequencyHz),
    powerW: rows.map((row) => row.speakerW),
    loadOhm: rows.map((row) => row.loadOhm),
    phaseDeg: rows.map((row) => row.phaseDeg),
    secondRatio: rows.map((row) => row.secondRatio),
    thirdRatio: rows.map((row) => row.thirdRatio),
    thdRatio: rows.map((row) => row.thdRatio),
    worst,
  };
  const caption = `Full drive into ${into} through ${transformer}, over frequency.`;
  return sized(loadOverFrequency, data, [caption, ...reservations(realLoad)].join(' '));
}

/** The path of one tube, on its plate characteristics. */
export function tubePath(plate: Omit<LoadLineData, 'swing'>): PathChart {
  return ({ realLoad: { worst, path }, into }) => {
    const caption = `${cycleAt(worst, into)}; the thin line is the rated load.`;
    return sized(reactivePath, { ...plate, path, at: worst }, caption);
  };
}

/** The path of a pair, on the combined curves of both sides. */
export function pairPath(pair: Omit<CombinedLoadLineData, 'path' | 'at'>): PathChart {
  return ({ realLoad: { worst, path }, into }) => {
    const closed = [...path, ...path.slice(0, 1)];
    return sized(combinedLoadLine, { ...pair, path: closed, at: worst }, `${cycleAt(worst, into)}.`);
  };
}

const cycleAt = ({ frequencyHz }: RealLoad['worst'], into: string) =>
  `One cycle at ${quantityText(frequencyHz, 'Hz')} into ${into}`;

/** What to bear in mind of the rows, in sentences. */
function reservations({ withPhase, unsolvedHz }: RealLoad): string[] {
  const unsolved = unsolvedHz.map((hertz) => quantityText(hertz, 'Hz')).join(', ');
  return [
    ...(withPhase ? [] : ['Its phase was not measured, so that its modulus counts as a resistance.']),
    ...(unsolved === '' ? [] : [`No steady state was found at ${unsolved}.`]),
  ];
}
