import { printNumber, quantityText } from '../../quantity/index.ts';
import type { LoadAtFrequency, OutputSheet, RealLoad } from '../types.ts';

const watts = (value: number) => quantityText(value, 'W');
const ohms = (value: number) => quantityText(value, 'Ω');
const hertz = (value: number) => quantityText(value, 'Hz');
const percent = (ratio: number, digits = 2) => quantityText(100 * ratio, '%', ratio >= 1 ? 3 : digits);

/**
 * Sentences on transformer and loudspeaker; every number in them is a figure of the sheet. `restA` is the current of a
 * tube that should never be cut off; null for a pair, whose sides may be.
 */
export function explainOutput(sheet: OutputSheet, restA: number | null): string[] {
  return [
    reflected(sheet),
    part(sheet),
    loss(sheet),
    ends(sheet),
    core(sheet),
    ...real(sheet.realLoad, restA),
    caution(sheet),
  ].flatMap((sentence) => sentence ?? []);
}

function reflected({ transformer, turnsRatio, speakerOhm, reflectedOhm, loadOhm }: OutputSheet): string {
  const windings = loadOhm > reflectedOhm * 1.001 ? `, ${ohms(loadOhm)} with the windings` : '';
  return (
    `${transformer} has ${printNumber(turnsRatio)} turns of the primary in use for each of the secondary, so that ` +
    `${ohms(speakerOhm)} look like ${ohms(reflectedOhm)}${windings}.`
  );
}

/** What the use of a part of the turns costs. */
function part({ primaryShare }: OutputSheet): string | null {
  if (primaryShare === 1) return null;
  return (
    `Only ${percent(primaryShare, 3)} of the turns are in use: load, inductance and leakage are ` +
    `${percent(primaryShare ** 2, 3)} of those of the whole winding. The low end rises as the plate resistance does ` +
    `not fall with them; the flux of the sine at equal power is the same.`
  );
}

function loss({ efficiency, lossDb, speakerW }: OutputSheet): string | null {
  if (efficiency === null || lossDb === null) return null;
  const left = speakerW === null ? '' : ` and leave ${watts(speakerW)} for the loudspeaker`;
  return `The windings take ${quantityText(lossDb, 'dB', 2)}${left}; the loss in the iron is not known.`;
}

function ends({ low, high }: OutputSheet): string | null {
  const [from, to] = [low.at(-1), high.at(-1)];
  const lower = from ? [`3 dB are lost at ${hertz(from.frequencyHz)} at the low end`] : [];
  const upper = to ? [`by leakage alone at ${hertz(to.frequencyHz)} at the high end`] : [];
  const both = [...lower, ...upper].join(' and ');
  return both === '' ? null : `Small signals: ${both}.`;
}

function core({ core: found }: OutputSheet): string | null {
  if (!found) return null;
  const { directShare, fullPowerHz, powerAtRatedHzW, ratedHz } = found;
  return (
    `${directShare === 0 ? 'The' : `The direct current takes ${percent(directShare)} of the largest flux; with the rest the`} core ` +
    `carries full power down to ${hertz(fullPowerHz)}, and ${watts(powerAtRatedHzW)} at ${hertz(ratedHz)}.`
  );
}

function real(load: RealLoad | null, restA: number | null): string[] {
  if (!load) return [];
  const { speaker, withPhase, worst, rows, unsolvedHz } = load;
  const onto = speaker === null ? 'the resistor' : `the loudspeaker (${speaker})`;
  const powers = rows.toSorted((a, b) => a.speakerW - b.speakerW);
  const [least, most] = [powers[0] ?? worst, powers.at(-1) ?? worst];
  return [
    `At the same drive and over frequency ${onto} gets from ${watts(least.speakerW)} at ${hertz(least.frequencyHz)} ` +
      `to ${watts(most.speakerW)} at ${hertz(most.frequencyHz)}.`,
    `The worst frequency is ${hertz(worst.frequencyHz)} with ${percent(worst.thdRatio)} total distortion: ${happens(worst, restA)}.`,
    ...(withPhase
      ? []
      : ['The sweep has no phase, so its modulus is taken as a resistance; the load line is no ellipse.']),
    ...(unsolvedHz.length > 0 ? [`No steady period was found at ${unsolvedHz.map(hertz).join(', ')}.`] : []),
  ];
}

const leastCurrent = 0.01;

/** What happens at the worst frequency, as a maker would tell it. */
function happens(
  { loadOhm, phaseDeg, leastPlateA, leastPlateV, peakPlateV }: LoadAtFrequency,
  restA: number | null,
): string {
  const load = `there the ${restA === null ? 'pair' : 'plate'} sees ${ohms(loadOhm)} at ${printNumber(Math.round(phaseDeg))}°`;
  const cut =
    restA !== null && leastPlateA < leastCurrent * restA
      ? ', and the tube is cut off for a part of each cycle'
      : '';
  return `${load}, ${restA === null ? 'a' : 'the'} plate swings between ${quantityText(leastPlateV, 'V')} and ${quantityText(peakPlateV, 'V')}${cut}`;
}

function caution({ transformer }: OutputSheet): string {
  return (
    `Of ${transformer} turns, resistances and inductances are reckoned with; the capacitance of the windings, the loss ` +
    'and the bend of the iron are not, nor that inductance changes with level and direct current.'
  );
}
