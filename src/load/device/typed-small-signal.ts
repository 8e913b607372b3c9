import { outOfRange } from '../messages.ts';
import type { LoadFault, SmallSignal, TypedSmallSignal } from '../types.ts';
import { disagreeingSmallSignal, tooFewSmallSignal } from './device-messages.ts';

/** Data books round: their transconductance times plate resistance misses mu by a few per cent. */
const roundedShare = 0.05;

/**
 * mu, plate resistance and transconductance from two or three typed values. With all three, mu and plate
 * resistance count, and a product that misses mu by more than 5 % is a warning.
 * @source mu = gm rp
 */
export function typedSmallSignal(typed: TypedSmallSignal): {
  small: SmallSignal | null;
  faults: LoadFault[];
} {
  const faults = faultsOf(typed);
  if (faults.length > 0) return { small: null, faults };
  const small = completed(typed);
  if (small === null) return { small, faults: [tooFewSmallSignal()] };
  return { small, faults: warningsOf(typed) };
}

function completed({ mu, plateResistanceOhm: rpOhm, transconductanceS: gmS }: TypedSmallSignal) {
  if (mu !== null && rpOhm !== null) return { mu, rpOhm, gmS: gmS ?? mu / rpOhm };
  if (mu !== null && gmS !== null) return { mu, rpOhm: mu / gmS, gmS };
  return rpOhm !== null && gmS !== null ? { mu: gmS * rpOhm, rpOhm, gmS } : null;
}

function faultsOf({ mu, plateResistanceOhm, transconductanceS }: TypedSmallSignal): LoadFault[] {
  const checked = [
    { key: 'mu', value: mu, unit: '', range: [0.1, 1e5] },
    { key: 'plateResistance', value: plateResistanceOhm, unit: 'Ω', range: [1, 1e8] },
    { key: 'transconductance', value: transconductanceS, unit: 'S', range: [1e-6, 10] },
  ] as const;
  return checked.flatMap(({ key, value, unit, range }) =>
    value === null || (value >= range[0] && value <= range[1])
      ? []
      : [outOfRange(['smallSignal', key], value, unit, range)],
  );
}

function warningsOf({ mu, plateResistanceOhm, transconductanceS }: TypedSmallSignal): LoadFault[] {
  if (mu === null || plateResistanceOhm === null || transconductanceS === null) return [];
  const product = transconductanceS * plateResistanceOhm;
  return Math.abs(product / mu - 1) > roundedShare ? [disagreeingSmallSignal(mu, product)] : [];
}
