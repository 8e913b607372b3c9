import type { OutputTransformer } from '../../load/index.ts';
import { turnsRatio } from '../../load/index.ts';
import { type Fault, nearestNames } from '../../problem/index.ts';
import { parseQuantity } from '../../quantity/index.ts';
import type { PartData } from '../schemas/index.ts';
import { partMessages as messages } from './part-messages.ts';

interface Secondary {
  turnsRatio: number;
  nominalOhm: number | null;
  ohm: number | null;
}

/** A transformer of a part record with one of its secondaries in use. */
export function outputTransformer(
  part: PartData,
  tap: string | null,
): { transformer: OutputTransformer } | { key: 'transformer' | 'tap'; fault: Fault } {
  if (part.kind !== 'transformer')
    return { key: 'transformer', fault: messages.noTransformer(part.title, part.kind) };
  const found = part.taps ? tapOf(part, part.taps, tap) : onlySecondary(part, tap);
  if ('fault' in found) return { key: 'tap', fault: found.fault };
  const { ratedPower, primaryInductance, leakageInductance } = part;
  return {
    transformer: {
      name: part.title,
      turnsRatio: found.turnsRatio,
      nominalOhm: found.nominalOhm,
      primaryOhm: part.primaryResistance ?? null,
      secondaryOhm: found.ohm,
      primaryH: primaryInductance?.value ?? null,
      leakageH: leakageInductance?.value ?? null,
      ratedPower: ratedPower ? { watt: ratedPower.value, frequencyHz: ratedPower.frequency } : null,
      ratedDirectA: part.ratedDirectCurrent ?? null,
    },
  };
}

function onlySecondary(part: PartData, tap: string | null): Secondary | { fault: Fault } {
  if (tap !== null) return { fault: messages.noTaps(part.title) };
  const { primary, secondary, secondaryResistance } = part;
  const ratio =
    primary !== undefined && secondary !== undefined ? turnsRatio(primary, secondary) : part.turnsRatio;
  const nominalOhm = secondary ?? (primary === undefined ? null : primary / (ratio ?? 1) ** 2);
  return { turnsRatio: ratio ?? 1, nominalOhm, ohm: secondaryResistance ?? null };
}

function tapOf(
  { title, primary }: PartData,
  taps: NonNullable<PartData['taps']>,
  tap: string | null,
): Secondary | { fault: Fault } {
  const names = taps.map(({ name }) => name);
  const found =
    tap === null && taps.length === 1 ? taps[0] : taps.find(({ name }) => plain(name) === plain(tap ?? ''));
  if (!found) {
    return {
      fault:
        tap === null
          ? messages.tapMissing(title, names)
          : messages.unknownTap(tap, nearestNames(tap, names), names),
    };
  }
  const named = parseQuantity(found.name, 'resistance');
  const byPrimary = primary === undefined ? null : primary / found.turnsRatio ** 2;
  return {
    turnsRatio: found.turnsRatio,
    nominalOhm: 'quantity' in named && named.quantity.value > 0 ? named.quantity.value : byPrimary,
    ohm: found.resistance ?? null,
  };
}

/** `8Ω` and `8 Ω` are one tap. */
const plain = (name: string) => name.replaceAll(/\s/g, '');
