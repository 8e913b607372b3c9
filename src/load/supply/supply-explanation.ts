import { printNumber, quantityText } from '../../quantity/index.ts';
import { secondsAllowed, touchLimits } from '../solving/thresholds.ts';
import type { SupplySheet } from '../types.ts';

type Figures = Omit<SupplySheet, 'explanation' | 'absent' | 'thresholds'>;

/** A few sentences on what the supply holds and for how long, from its figures. */
export function explainSupply(sheet: Figures): string[] {
  return [voltage(sheet), energy(sheet), ...rippleSentences(sheet), ...discharge(sheet)].flatMap(
    (sentence) => sentence ?? [],
  );
}

function voltage({ highestV, offLoadV, offLoadBasis }: Figures): string | null {
  if (highestV === null || offLoadV === null) return null;
  return (
    `Off load the supply stands at ${quantityText(offLoadV, 'V')} (${offLoadBasis}), and at ` +
    `${quantityText(highestV, 'V')} with the mains 10 % high.`
  );
}

function energy({ storedEnergyJ, storedEnergyAtToleranceJ, highestV, capacitors }: Figures): string | null {
  if (storedEnergyJ === null || storedEnergyAtToleranceJ === null || highestV === null) return null;
  const both = storedEnergyAtToleranceJ >= 10 && highestV >= 100;
  const standing = `${both ? 'above' : 'not above'} both the 100 V and the 10 J of the DOE electrical safety manual`;
  const who =
    capacitors.length === 1 ? 'The capacitor then holds' : `The ${capacitors.length} capacitors then hold`;
  return (
    `${who} ${quantityText(storedEnergyJ, 'J')}, or ${quantityText(storedEnergyAtToleranceJ, 'J')} with the ` +
    `capacitance 20 % high, which is ${standing}.`
  );
}

function discharge(sheet: Figures): (string | null)[] {
  const { capacitors, highestV } = sheet;
  if (capacitors.length === 0 || highestV === null) return [];
  return [
    throughBleeder(sheet),
    needed(sheet),
    'Without a working bleeder the supply does not discharge by itself.',
  ];
}

function throughBleeder(sheet: Figures): string | null {
  const { timeTo60VoltsS, timeTo50VoltsS, timeTo60VoltsAtToleranceS } = sheet;
  if (timeTo60VoltsS === null || timeTo50VoltsS === null || timeTo60VoltsAtToleranceS === null) return null;
  if (timeTo50VoltsS === 0) {
    return (
      `It stands below the 60 V of ${touchLimits.sixty} and the 50 V of ${touchLimits.fifty} from the start; its bleeders ` +
      'are for its charge, which can drive a large current through a short circuit.'
    );
  }
  const seconds = (value: number) => `${printNumber(value, 2)}\u00a0s`;
  return (
    `Through the bleeders at their nominal resistance every capacitor described, those of the filter ` +
    `included, is below 60 V (${touchLimits.sixty}) after ${seconds(timeTo60VoltsS)} and below 50 V ` +
    `(${touchLimits.fifty}) after ${seconds(timeTo50VoltsS)}; 60 V takes ` +
    `${seconds(timeTo60VoltsAtToleranceS)} with the capacitance 20 % above nominal, against the ` +
    `${secondsAllowed} s of ${touchLimits.sixty}.`
  );
}

function needed({ bleederNeeded: bleeder, highestV }: Figures): string | null {
  if (!bleeder || highestV === null) return null;
  const { atToleranceOhm, atToleranceW } = bleeder;
  return (
    `To reach 60 V within ${secondsAllowed} s (${touchLimits.sixty}) with the capacitance 20 % above nominal, all bleeders ` +
    `together may have ${quantityText(atToleranceOhm, 'Ω')} at most, taking ${quantityText(atToleranceW, 'W')} at ` +
    `${quantityText(highestV, 'V')}.`
  );
}

function rippleSentences({ ripple }: Figures): string[] {
  if (!ripple) return [];
  const { frequencyHz, points } = ripple;
  const [first] = points;
  const last = points.at(-1);
  if (!first || !last) return [];
  const volts = (value: number) => quantityText(value, 'V');
  const behind = last === first ? '' : `, and ${volts(last.rippleVrms)} are left behind the filter`;
  return [
    `The ripple at ${quantityText(frequencyHz, 'Hz')} is ${volts(first.rippleVrms)} rms across the reservoir${behind}.`,
    ...points.flatMap(({ name, resonanceHz, peakDb }) =>
      resonanceHz === null || peakDb === null || peakDb === 0
        ? []
        : [
            `Choke and capacitor of ${name} resonate at ${quantityText(resonanceHz, 'Hz')} with a peak of ` +
              `${printNumber(peakDb, 2)}\u00a0dB, where a sudden change of the current makes the supply swing.`,
          ],
    ),
  ];
}
