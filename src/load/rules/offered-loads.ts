import { printNumber, quantityText } from '../../quantity/index.ts';
import { impossibleLoad, noSpeaker } from '../messages.ts';
import { modulus } from '../output/complex.ts';
import { loadThroughTransformer, turnsInUse } from '../output/output-transformer.ts';
import { speakerImpedance } from '../output/speaker-impedance.ts';
import type { OfferedLoad, OutputTransformer, SpeakerSweep } from '../types.ts';
import type { Proposal } from './proposal.ts';
import { fixedLoad, type Rule } from './rules.ts';

/** A resistance on the secondary: one of a loudspeaker's impedances, or null for a resistor or a rated load. */
export interface OfferedSpeaker {
  ohm: number;
  onto: OfferedLoad['onto'];
}

/** Where a loudspeaker's least impedance is looked for. */
const bandHz = { low: 20, high: 20e3 };
const referenceHz = 1000;

/** The least impedance of a loudspeaker between 20 Hz and 20 kHz, and that at 1 kHz, as far as they are swept. */
export function speakersOfSweep(sweep: SpeakerSweep): OfferedSpeaker[] {
  const { frequencyHz, ohm } = sweep;
  const inBand = ohm.filter((_, k) => {
    const hz = frequencyHz[k] ?? 0;
    return hz >= bandHz.low && hz <= bandHz.high;
  });
  const covered = (frequencyHz[0] ?? 0) <= referenceHz && (frequencyHz.at(-1) ?? 0) >= referenceHz;
  return [
    ...(inBand.length > 0 ? [{ ohm: Math.min(...inBand), onto: 'least' as const }] : []),
    ...(covered ? [{ ohm: modulus(speakerImpedance(sweep, referenceHz)), onto: '1 kHz' as const }] : []),
  ];
}

/** The load that a transformer makes of a loudspeaker for a stage; none where the loudspeaker is not known. */
export function offeredLoad(
  named: Pick<OfferedLoad, 'part' | 'name' | 'unknownUse'>,
  { transformer, primaryShare }: { transformer: OutputTransformer; primaryShare: number },
  speaker: OfferedSpeaker | null,
): OfferedLoad {
  const speakerOhm = speaker?.ohm ?? null;
  return {
    ...named,
    onto: speaker?.onto ?? null,
    ratedDirectA: transformer.ratedDirectA,
    turnsRatio: turnsInUse(transformer, primaryShare).turnsRatio,
    speakerOhm,
    loadOhm:
      speakerOhm === null
        ? null
        : loadThroughTransformer({ transformer, primaryShare, speakerOhm, sweep: null }),
  };
}

/**
 * The transformers at hand as answers to the question of the load; `directA` is what flows through the primary at rest,
 * null where both halves balance it.
 */
export const offeredRules = (offers: readonly OfferedLoad[], directA: number | null): Rule[] =>
  offers.map((offer) => fixedLoad(proposalOf(offer, directA)));

/** Between what a stage can have as a load. */
const [lowestOhm, highestOhm] = [0.1, 1e9];

const placed = {
  least: { method: ', the loudspeaker at its least', short: ', least' },
  '1 kHz': { method: ', the loudspeaker at 1\u00a0kHz', short: ', 1\u00a0kHz' },
} as const;

/** @source ideal transformer with the resistances of its windings in series */
function proposalOf(offer: OfferedLoad, directA: number | null): Proposal {
  const { part, name, onto, loadOhm } = offer;
  const told = onto === null ? { method: '', short: '' } : placed[onto];
  const possible = loadOhm !== null && loadOhm >= lowestOhm && loadOhm <= highestOhm;
  return {
    ...{ method: `${name}${told.method}`, short: `${name}${told.short}`, part },
    loadOhm: possible ? loadOhm : null,
    basis: possible ? basisOf(offer, directA) : loadOhm === null ? noSpeaker() : impossibleLoad(),
    source: 'turns and resistances of the part record',
    status: 'derived',
  };
}

function basisOf(
  { turnsRatio, speakerOhm, unknownUse, ratedDirectA }: OfferedLoad,
  directA: number | null,
): string {
  const over = ratedDirectA !== null && directA !== null && directA > ratedDirectA;
  return [
    `${printNumber(turnsRatio)} to 1 onto ${quantityText(speakerOhm ?? 0, 'Ω')}, with the windings`,
    ...(over ? [`rated for ${quantityText(ratedDirectA, 'A')}, less than flows at rest`] : []),
    ...(unknownUse ? ['its record does not say what use it is made for'] : []),
  ].join('; ');
}
