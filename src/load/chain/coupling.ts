import { quantityText } from '../../quantity/index.ts';
import type { Coupling, LoadFault, Shelf, SmallSignal, TubeStageDescription } from '../types.ts';
import { bypassWithoutResistor, capacitorWithoutLeak, couplingOfTransformer } from './coupling-messages.ts';

interface Slopes {
  mu: number;
  rpOhm: number;
}

/** Output impedance and low corners of a stage into `loadOhm`; null without slopes. */
export function couplingOf(
  description: TubeStageDescription,
  { mu, rpOhm }: SmallSignal,
  loadOhm: number | null,
): Coupling | null {
  if (mu === null || rpOhm === null) return null;
  const { bias, topology, plateResistorOhm, nextGridLeakOhm } = description;
  const cathodeOhm = bias.kind === 'cathode-resistor' && !bias.bypassed ? bias.ohm : 0;
  const atPlateOhm = rpOhm + (mu + 1) * cathodeOhm;
  const resistorOhm = topology === 'resistance-coupled' ? plateResistorOhm : null;
  const outputOhm = resistorOhm ? (atPlateOhm * resistorOhm) / (atPlateOhm + resistorOhm) : atPlateOhm;
  const capacitorF = description.couplingCapacitorF ?? null;
  return {
    outputOhm,
    couplingHz:
      capacitorF === null || nextGridLeakOhm === null
        ? null
        : cornerHz(capacitorF, outputOhm + nextGridLeakOhm),
    shelf: loadOhm === null ? null : shelfOf(description, { mu, rpOhm }, loadOhm),
  };
}

function shelfOf(
  { bias, bypassCapacitorF }: TubeStageDescription,
  slopes: Slopes,
  loadOhm: number,
): Shelf | null {
  if (bias.kind !== 'cathode-resistor' || !bypassCapacitorF) return null;
  return bypassShelf({ ...slopes, loadOhm, cathodeOhm: bias.ohm, capacitorF: bypassCapacitorF });
}

const cornerHz = (capacitanceF: number, ohm: number) => 1 / (2 * Math.PI * capacitanceF * ohm);

/**
 * The gain mu·RL/(rp + RL + (mu + 1)·Zk) with Zk a resistor and a capacitor side by side is a step between 1/(2πRC)
 * and that frequency times (rp + RL + (mu + 1)·Rk)/(rp + RL), which is its depth as well.
 * @source equivalent circuit of a triode stage (algebra)
 */
export function bypassShelf(of: Slopes & { loadOhm: number; cathodeOhm: number; capacitorF: number }): Shelf {
  const around = of.rpOhm + of.loadOhm;
  const depth = (around + (of.mu + 1) * of.cathodeOhm) / around;
  const lowerHz = cornerHz(of.capacitorF, of.cathodeOhm);
  const upperHz = lowerHz * depth;
  const squared = upperHz ** 2 - 2 * lowerHz ** 2;
  return {
    lowerHz,
    upperHz,
    depthDb: 20 * Math.log10(depth),
    minus3DbHz: squared > 0 ? Math.sqrt(squared) : null,
  };
}

/** Faults of capacitors that stand where they cannot do anything. */
export function couplingFaults(description: TubeStageDescription): LoadFault[] {
  const { bias, topology, nextGridLeakOhm } = description;
  const coupled = (description.couplingCapacitorF ?? null) !== null;
  const bypassed = bias.kind === 'cathode-resistor' && bias.bypassed;
  const faults: LoadFault[] = [];
  if (coupled && topology === 'single-ended') faults.push(couplingOfTransformer());
  else if (coupled && nextGridLeakOhm === null) faults.push(capacitorWithoutLeak());
  if ((description.bypassCapacitorF ?? null) !== null && !bypassed) faults.push(bypassWithoutResistor());
  return faults;
}

/** What the capacitors do, in sentences. */
export function explainCoupling(coupling: Coupling | null): string[] {
  if (!coupling) return [];
  return [couplingSentence(coupling), shelfSentence(coupling)].flatMap((sentence) => sentence ?? []);
}

const hertz = (value: number) => quantityText(value, 'Hz');

const couplingSentence = ({ couplingHz }: Coupling): string | null =>
  couplingHz === null ? null : `Coupling capacitor and next grid leak are 3 dB down at ${hertz(couplingHz)}.`;

function shelfSentence({ shelf }: Coupling): string | null {
  if (!shelf) return null;
  const { lowerHz, upperHz, depthDb, minus3DbHz } = shelf;
  const down =
    minus3DbHz === null
      ? 'so that the capacitor alone never costs 3 dB'
      : `and is 3 dB down at ${hertz(minus3DbHz)}`;
  return (
    `With this bypass capacitor the gain falls by ${quantityText(depthDb, 'dB', 2)} in all between ${hertz(upperHz)} and ` +
    `${hertz(lowerHz)}, ${down}.`
  );
}
