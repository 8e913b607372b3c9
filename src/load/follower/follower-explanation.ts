import { printNumber, quantityText } from '../../quantity/index.ts';
import type { FollowerLoadRow, FollowerSheet, FollowerState, ThermalSheet } from './follower-types.ts';

type Figures = Omit<FollowerSheet, 'explanation' | 'absent'>;

const watts = (value: number) => quantityText(value, 'W');
const degrees = (value: number) => quantityText(Math.round(value), '°C', whole(value));
const whole = (value: number) => Math.max(1, `${Math.abs(Math.round(value))}`.length);

/** A few sentences on rest, the end of the swing, heat and temperatures; every number is one of the sheet. */
export function explainFollower(sheet: Figures): string[] {
  const { rest, largest, worst, thermal } = sheet;
  if (!rest || !largest || !worst || sheet.loadOhm === null) return [];
  return [
    restSentence(sheet, rest),
    classA(sheet),
    largestSentence(sheet.loadOhm, sheet.limitedBy, { rest, largest }),
    worstSentence(rest, worst, largest),
    reactive(sheet),
    halfLoad(sheet),
    ...(thermal ? heat(thermal) : []),
    ...caution(sheet),
  ].flatMap((sentence) => sentence ?? []);
}

function restSentence({ biasA, biasReadingV, topology }: Figures, rest: FollowerState): string {
  const current = biasA === 0 ? 'no current' : quantityText(biasA ?? 0, 'A');
  const resistors = topology === 'follower-pair' ? 'two opposite emitter resistors' : 'an emitter resistor';
  const reading =
    biasReadingV === null || biasReadingV === 0
      ? ''
      : `; a voltmeter across ${resistors} reads ${quantityText(biasReadingV, 'V')}`;
  return `At rest each transistor carries ${current} and turns ${watts(rest.deviceW)} into heat${reading}.`;
}

function classA({ topology, classAW, largest }: Figures): string | null {
  if (topology === 'follower') return 'A single follower works in class A up to the end of its swing.';
  if (classAW === null || classAW === 0 || !largest) return null;
  return classAW >= largest.outputW
    ? 'Both halves conduct all the time up to the end of the swing: class A throughout.'
    : `Both halves conduct all the time up to ${watts(classAW)}, where the crest of the load current is twice the current at rest; above that they take turns.`;
}

function largestSentence(
  loadOhm: number,
  limitedBy: Figures['limitedBy'],
  { rest, largest }: Record<'rest' | 'largest', FollowerState>,
): string {
  const sagging = rest.railV - largest.railV > 0.005 * rest.railV;
  const rails = sagging
    ? `, the rail having sagged from ${quantityText(rest.railV, 'V')} to ${quantityText(largest.railV, 'V')}`
    : '';
  const end = limitedBy === 'cut-off' ? 'where the current at rest is used up' : 'at the rail';
  return (
    `Into ${quantityText(loadOhm, 'Ω')} the largest sine ends ${end}, at ${quantityText(largest.outputPeakV, 'V')} peak and ` +
    `${watts(largest.outputW)}${rails}: ${quantityText(100 * largest.efficiency, '%', 2)} of the power from the rails.`
  );
}

function worstSentence(rest: FollowerState, worst: FollowerState, largest: FollowerState): string {
  if (worst.outputW <= 1e-3 * largest.outputW) {
    return `A transistor is hottest without a signal, with ${watts(rest.deviceW)}; at the largest sine it is ${watts(largest.deviceW)}.`;
  }
  const than =
    worst.outputW < 0.98 * largest.outputW
      ? `, not at the largest sine, where it is ${watts(largest.deviceW)}`
      : ', the largest sine';
  return `A transistor dissipates most, ${watts(worst.deviceW)} on average, at an output of ${watts(worst.outputW)}${than}.`;
}

function reactive({ loads, thermal }: Figures): string | null {
  const row = loads.find(({ angleDeg }) => angleDeg !== 0);
  if (!row) return null;
  return `Into a loudspeaker of the same impedance whose current leads or lags by ${printNumber(row.angleDeg, 2)}° it is up to ${watts(row.worstDeviceW)}${junction(row, thermal)}.`;
}

function halfLoad({ loads, thermal }: Figures): string | null {
  const least = [...loads].sort((a, b) => a.ohm - b.ohm)[0];
  if (!least) return null;
  return `Into ${quantityText(least.ohm, 'Ω')} the largest sine is ${watts(least.largestW)}, and a transistor dissipates up to ${watts(least.worstDeviceW)}${junction(least, thermal)}.`;
}

function junction({ junctionC }: FollowerLoadRow, thermal: ThermalSheet | null): string {
  if (junctionC === null || !thermal) return '';
  const side = junctionC > thermal.maxJunctionC ? 'above' : 'below';
  return `, with the junction at ${degrees(junctionC)}, ${side} the stated maximum`;
}

function heat(thermal: ThermalSheet): string[] {
  const { ambientC, rest, worst, maxJunctionC, devices } = thermal;
  const apart = Math.abs(maxJunctionC - worst.junctionC);
  const side = worst.junctionC > maxJunctionC ? 'above' : 'below';
  const many = devices === 1 ? 'one transistor' : `${devices} transistors`;
  return [
    `With ${many} on the sink in air of ${degrees(ambientC)} the sink settles at ${degrees(rest.sinkC)} at rest and ` +
      `${degrees(worst.sinkC)} at the worst steady output, where the junction is at ${degrees(worst.junctionC)}: ` +
      `${printNumber(apart, 2)} K ${side} the stated maximum junction temperature of ${degrees(maxJunctionC)}.`,
    sink(thermal),
    'Whether a surface may be touched is not judged here: that depends on its material and the time of contact, and is for the standard of the finished equipment.',
  ];
}

function sink({ requiredSink, maxJunctionC, worst }: ThermalSheet): string {
  if (requiredSink === null) {
    return `No sink holds the junction at ${degrees(maxJunctionC)} at that output.`;
  }
  const sinkC = maxJunctionC - (worst.junctionC - worst.sinkC);
  return (
    `A sink of ${quantityText(requiredSink, 'K/W')} would just bring the junction to ${degrees(maxJunctionC)} at that output ` +
    `and be at ${degrees(sinkC)} itself; other loads ask for more.`
  );
}

function caution({ topology }: Figures): string[] {
  const handover =
    topology === 'follower-pair'
      ? 'the halves are taken to hand over along straight lines, so that crossover distortion is not computed; '
      : '';
  return [
    `These are steady averages of a sine: ${handover}ripple of the rails, the driver, what a transistor bears at high voltage and current together for a moment, and peaks of the junction within a low cycle are left out.`,
  ];
}
