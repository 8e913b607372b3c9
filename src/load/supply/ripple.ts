import { type Complex, modulus, over, plus, times } from '../output/complex.ts';
import type { Rectifier, ReservoirCapacitor, RipplePoint, RippleSheet, SupplyDescription } from '../types.ts';

/** Frequency of the charging pulses. */
export const rippleFrequency = (mainsHz: number, rectifier: Rectifier): number =>
  rectifier === 'half-wave' ? mainsHz : 2 * mainsHz;

/**
 * Ripple across a reservoir capacitor, V rms: a triangle whose capacitor discharges the whole time. Full-wave
 * and bridge: I/(4√3·f·C), which is the handbooks' 2.4·I/C (mA, µF) at 60 Hz and 2.887·I/C at 50 Hz; half-wave:
 * twice that.
 * @source triangular ripple; worked numbers in shared/checks/load.json
 */
export function rippleVrms(
  currentA: number,
  capacitanceF: number,
  mainsHz: number,
  rectifier: Rectifier = 'full-wave',
): number {
  return currentA / (2 * Math.sqrt(3) * rippleFrequency(mainsHz, rectifier) * capacitanceF);
}

/** Whether a capacitor ends a filter section, and of which kind. */
export const sectionOf = ({ section, seriesOhm, seriesH }: ReservoirCapacitor): 'RC' | 'LC' | null => {
  if (section) return section;
  if (seriesH) return 'LC';
  return seriesOhm ? 'RC' : null;
};

/**
 * Ripple from the reservoir on. Behind the reservoir all of it counts as a sine of the ripple frequency, which
 * errs upwards, as a filter takes more of the harmonics. Null without mains, current or reservoir.
 * @source ladder of series and shunt impedances, solved from its end
 */
export function rippleSheet(supply: SupplyDescription): RippleSheet | null {
  const { currentA, mainsHz, rectifier = 'full-wave' } = supply;
  const reservoirF = reservoirOf(supply);
  if (currentA === null || mainsHz === null || reservoirF === null) return null;
  const frequencyHz = rippleFrequency(mainsHz, rectifier);
  const peakToPeakV = currentA / (frequencyHz * reservoirF);
  const atReservoir = rippleVrms(currentA, reservoirF, mainsHz, rectifier);
  return {
    rectifier,
    frequencyHz,
    peakToPeakV,
    belowCrestV: peakToPeakV / 2,
    points: [
      { ...nothingInSeries, name: 'reservoir', kind: 'reservoir', rippleVrms: atReservoir },
      ...sectionPoints(sectionsOf(supply), { frequencyHz, atReservoir, currentA }),
    ],
  };
}

const nothingInSeries = {
  attenuationDb: null,
  sectionA: null,
  dropV: null,
  resonanceHz: null,
  peakDb: null,
};

/** Capacitance across the rectifier; of split rails that of one; null where a filter section comes first. */
function reservoirOf({ capacitors, splitRails = false }: SupplyDescription): number | null {
  const [first] = capacitors;
  if (!first || sectionOf(first) !== null) return null;
  const end = capacitors.findIndex((capacitor) => sectionOf(capacitor) !== null);
  const joined = splitRails ? [first] : capacitors.slice(0, end < 0 ? capacitors.length : end);
  return joined.reduce((total, { capacitanceF }) => total + capacitanceF, 0);
}

interface Section {
  capacitor: ReservoirCapacitor;
  kind: 'RC' | 'LC';
}

/** Filter sections in order; of split rails none, as which rail a section stands in is not described. */
export function sectionsOf({ capacitors, splitRails = false }: SupplyDescription): Section[] {
  if (splitRails) return [];
  return capacitors.flatMap((capacitor) => {
    const kind = sectionOf(capacitor);
    return kind ? [{ capacitor, kind }] : [];
  });
}

function sectionPoints(
  sections: readonly Section[],
  { frequencyHz, atReservoir, currentA }: { frequencyHz: number; atReservoir: number; currentA: number },
): RipplePoint[] {
  const ratios = ladderRatios(sections, frequencyHz);
  let rippleHere = atReservoir;
  return sections.map(({ capacitor, kind }, index) => {
    const ratio = ratios[index] ?? 1;
    rippleHere *= ratio;
    const sectionA = capacitor.sectionA ?? currentA;
    return {
      name: `section ${index + 1}`,
      kind,
      rippleVrms: rippleHere,
      attenuationDb: -20 * Math.log10(ratio),
      sectionA,
      dropV: sectionA * (capacitor.seriesOhm ?? 0),
      ...resonanceOf(capacitor),
    };
  });
}

/** Voltage behind each section over that before it. */
function ladderRatios(sections: readonly Section[], frequencyHz: number): number[] {
  const omega = 2 * Math.PI * frequencyHz;
  const ratios: number[] = [];
  let onward: Complex = { re: 0, im: 0 };
  for (const { capacitor } of [...sections].reverse()) {
    const { capacitanceF, bleederOhm, seriesOhm, seriesH } = capacitor;
    const leakS = bleederOhm === null ? 0 : 1 / bleederOhm;
    const shunt = over(one, plus(onward, { re: leakS, im: omega * capacitanceF }));
    const whole = plus(shunt, { re: seriesOhm ?? 0, im: omega * (seriesH ?? 0) });
    ratios.unshift(modulus(times(shunt, over(one, whole))));
    onward = over(one, whole);
  }
  return ratios;
}

const one: Complex = { re: 1, im: 0 };

/**
 * Of choke and capacitor alone, damped by the resistance in series; a load damps it further.
 * @source second-order low pass: f = 1/(2π√(LC)), Q = √(L/C)/R, peak Q²/√(Q² − ¼)
 */
function resonanceOf({ capacitanceF, seriesOhm, seriesH }: ReservoirCapacitor) {
  if (!seriesH) return { resonanceHz: null, peakDb: null };
  const resonanceHz = 1 / (2 * Math.PI * Math.sqrt(seriesH * capacitanceF));
  if (!seriesOhm) return { resonanceHz, peakDb: null };
  const quality = Math.sqrt(seriesH / capacitanceF) / seriesOhm;
  const peaks = quality > Math.SQRT1_2;
  return { resonanceHz, peakDb: peaks ? 20 * Math.log10(quality ** 2 / Math.sqrt(quality ** 2 - 0.25)) : 0 };
}
