import { quantityText } from '../../quantity/index.ts';
import { explainLoads } from '../rules/loads-explanation.ts';
import {
  curvesCaution,
  largestPower,
  modelCaution,
  ordinals,
  overRatings,
  percent,
} from '../rules/shared-explanation.ts';
import type { SwingLimit } from '../types.ts';
import type {
  AmplifierClass,
  PushPullAtLoad,
  PushPullDescription,
  PushPullSheet,
} from './push-pull-types.ts';

type Figures = Omit<PushPullSheet, 'explanation' | 'absent'>;

const watts = (value: number) => quantityText(value, 'W');

/**
 * A few sentences on this pair: rest, what ends the swing, class and the load that each side sees, how the
 * current moves, where the plates are warmest. Every number in them is a figure of the sheet.
 */
export function explainPair(sheet: Figures, { mismatchRatio }: PushPullDescription): string[] {
  const { atLoad } = sheet;
  const signal = atLoad
    ? [
        swing(atLoad),
        classes[atLoad.class](atLoad),
        current(sheet, atLoad),
        cathode(atLoad),
        heat(sheet, atLoad),
        harmonics(atLoad, mismatchRatio),
      ]
    : [];
  return [
    rest(sheet, mismatchRatio),
    overRatings(sheet.limits),
    ...signal,
    ...explainLoads(sheet.candidates, atLoad?.loadOhm ?? null),
    largestPower(sheet),
    ...caution(sheet),
  ].flatMap((sentence) => sentence ?? []);
}

function rest({ device, operatingPoint, limits }: Figures, mismatchRatio: number): string | null {
  if (!operatingPoint) return null;
  const { plateA, plateV, gridV } = operatingPoint;
  const heat = limits.find(({ name }) => name === 'plate dissipation');
  const rated = heat?.share == null ? '' : `, ${percent(heat.share)} of the rating`;
  const side = mismatchRatio === 0 ? '' : ' on the stronger side';
  const warmth = heat
    ? `${side === '' ? '' : ','} and${side} dissipates ${watts(heat.value)} at the plate${rated}`
    : '';
  return (
    `At rest each ${device} draws ${mismatchRatio === 0 ? '' : 'on average '}${quantityText(plateA, 'A')} at ${quantityText(plateV, 'V')} with ` +
    `${quantityText(gridV, 'V')} at the grid${warmth}.`
  );
}

const endings: Readonly<Record<SwingLimit, string>> = {
  drive: 'as described',
  'grid current': 'where the grid reaches 0 V and grid current begins',
  'cut-off': 'at cut-off',
  saturation: 'in saturation, where more drive hardly moves the load voltage',
  'traced curves': 'where the traced curves end',
};

function swing({ loadOhm, driveV, limitedBy, powerW, efficiency, thdRatio }: PushPullAtLoad): string {
  const load = `Into ${quantityText(loadOhm, 'Ω')} from plate to plate`;
  const drive = `${quantityText(driveV, 'V')} peak at each grid`;
  const end =
    limitedBy === 'drive'
      ? `with ${drive}, ${endings.drive},`
      : `the swing ends ${endings[limitedBy]}, at ${drive};`;
  return (
    `${load} ${end} the pair delivers ${watts(powerW)} at the fundamental, ${percent(efficiency)} of the power ` +
    `from the plate supply at this drive, with a total distortion of ${percent(thdRatio)}.`
  );
}

const handover = ({ bothConductOhm, oneConductsOhm }: PushPullAtLoad) =>
  `While both conduct, each works into half the load, ${quantityText(bothConductOhm, 'Ω')}; alone, a side works ` +
  `into a quarter of it, ${quantityText(oneConductsOhm, 'Ω')}.`;

const classes: Readonly<Record<AmplifierClass, (at: PushPullAtLoad) => string>> = {
  A: ({ bothConductOhm }) =>
    `That is class A: both sides conduct throughout the cycle, each into half the load, ${quantityText(bothConductOhm, 'Ω')}.`,
  AB: (at) =>
    `That is class AB: each side is cut off for ${percent(at.cutOffShare)} of the cycle, and up to ` +
    `${watts(at.classAPowerW)} both conduct throughout, in class A. ${handover(at)}`,
  B: (at) =>
    `That is class B: each side is cut off for ${percent(at.cutOffShare)} of the cycle; both conduct throughout ` +
    `up to ${watts(at.classAPowerW)} only. ${handover(at)}`,
};

function current({ operatingPoint, count }: Figures, { averagePlateA }: PushPullAtLoad): string | null {
  const restA = 2 * count * (operatingPoint?.plateA ?? 0);
  if (Math.abs(averagePlateA / restA - 1) < 0.01) return null;
  return (
    `The plate current of both sides ${averagePlateA > restA ? 'rises' : 'falls'} from ${quantityText(restA, 'A')} ` +
    `at rest to ${quantityText(averagePlateA, 'A')}, which the supply must give.`
  );
}

function cathode({ cathodeRiseV }: PushPullAtLoad): string | null {
  if (Math.abs(cathodeRiseV) < 0.05) return null;
  const moved = cathodeRiseV > 0 ? 'more' : 'less';
  return (
    `Once the capacitor at the cathodes has followed, that is ${quantityText(Math.abs(cathodeRiseV), 'V')} ${moved} ` +
    `bias; a passage shorter than that meets the bias at rest.`
  );
}

/** Worth a sentence where the warmest drive is not rest. */
function heat({ warmest, limits }: Figures, { driveV, tubePlateW }: PushPullAtLoad): string | null {
  const restW = limits.find(({ name }) => name === 'plate dissipation')?.value ?? 0;
  if (!warmest || warmest.tubePlateW <= restW) {
    return `Each plate is warmest at rest; at full drive it dissipates ${watts(tubePlateW)}.`;
  }
  return warmest.driveV < driveV
    ? `Each plate is warmest not at full drive but at ${watts(warmest.powerW)}, with ${watts(warmest.tubePlateW)}; ` +
        `at full drive it dissipates ${watts(tubePlateW)}.`
    : `Each plate is warmest at full drive, with ${watts(tubePlateW)}.`;
}

function harmonics({ harmonics: all, unbalanceA }: PushPullAtLoad, mismatchRatio: number): string | null {
  const [leading] = all.filter(({ ratio }) => ratio > 0).toSorted((a, b) => b.ratio - a.ratio);
  if (!leading) return null;
  const leads = `The ${ordinals[leading.order]} harmonic leads at ${quantityText(100 * leading.ratio, '%', 3)}.`;
  if (mismatchRatio === 0) {
    return `${leads} Even harmonics cancel as both sides are taken as alike; two real tubes differ.`;
  }
  const second = all.find(({ order }) => order === 2)?.ratio ?? 0;
  return (
    `${leads} With currents ${percent(mismatchRatio)} apart the second is ${quantityText(100 * second, '%', 3)}, and ` +
    `${quantityText(Math.abs(unbalanceA), 'A')} of direct current in half the turns magnetises the core at this drive.`
  );
}

/** What the model leaves out. */
function caution({ operatingPoint, curvesFrom }: Figures): string[] {
  if (!operatingPoint) return [];
  if (curvesFrom !== null) return [curvesCaution(curvesFrom)];
  const circuit = ' on an ideal transformer, with a supply that does not sag and';
  return modelCaution({ circuit, hasScreen: operatingPoint.screenA !== null });
}
