import type { Coupling } from '../../load/index.ts';
import { quantityText } from '../../quantity/index.ts';
import type { Fact, FactBlock } from './fact-block.ts';

/** Output impedance and low corners of a stage. */
export function couplingBlocks(coupling: Coupling | null): FactBlock[] {
  if (!coupling) return [];
  const { outputOhm, couplingHz, shelf } = coupling;
  const hertz = (value: number) => quantityText(value, 'Hz');
  const corner: Fact[] =
    couplingHz === null ? [] : [{ name: 'Coupling capacitor, −3 dB', value: hertz(couplingHz) }];
  const step: Fact[] = shelf
    ? [
        { name: 'Bypass capacitor, step', value: `${hertz(shelf.lowerHz)} to ${hertz(shelf.upperHz)}` },
        { name: 'Depth of the step', value: quantityText(shelf.depthDb, 'dB', 3) },
        {
          name: 'Bypass capacitor, −3 dB',
          value: shelf.minus3DbHz === null ? 'none' : hertz(shelf.minus3DbHz),
        },
      ]
    : [];
  const facts = [{ name: 'Output impedance', value: quantityText(outputOhm, 'Ω') }, ...corner, ...step];
  return [{ title: 'Towards the next stage', method: 'coupling', facts }];
}
