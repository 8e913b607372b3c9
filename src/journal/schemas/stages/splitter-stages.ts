import { z } from 'zod';
import type { GridFeed, SplitterDescription, Tail } from '../../../load/index.ts';
import { line, quantity } from '../fields.ts';
import { stageKeys } from './common.ts';

const bias = z
  .strictObject({
    /** Grid to ground, from a divider or the stage before: `90 V`. */
    gridVoltage: quantity('voltage').optional(),
    /** Below the cathode, with the grid leak to its lower end: `1.5 kΩ`. */
    resistor: quantity('resistance').optional(),
  })
  .refine(({ gridVoltage, resistor }) => (gridVoltage === undefined) !== (resistor === undefined), {
    error: 'The bias of this stage is given by exactly one of gridVoltage and resistor.',
    params: {
      rule: 'bias',
      hint: 'Write for example bias: { resistor: 1.5 kΩ }, or bias: { gridVoltage: 90 V }.',
    },
  });

const common = {
  ...stageKeys,
  /** A tube type known to the project: `12AU7`; a pentode is taken with its screen at the plate. */
  device: line,
  /** Supply voltage of this stage where it differs from the version's: `300 V`. */
  supply: quantity('voltage').optional(),
  bias,
  /** Grid leak of the next stage: `470 kΩ`. */
  nextGridLeak: quantity('resistance').optional(),
};

const twoOutputs = {
  /** Grid leak at the cathode or the other plate where it differs: `220 kΩ`. */
  otherGridLeak: quantity('resistance').optional(),
};

/** One tube with its output at the cathode. */
export const cathodeFollowerSchema = z.strictObject({
  topology: z.literal('cathode-follower'),
  ...common,
  /** From cathode or bias resistor to ground: `47 kΩ`. */
  cathodeResistor: quantity('resistance'),
});

/** One tube with equal resistors at plate and cathode. */
export const splitLoadSchema = z.strictObject({
  topology: z.literal('split-load'),
  ...common,
  ...twoOutputs,
  /** `22 kΩ`. */
  plateResistor: quantity('resistance'),
  /** From cathode or bias resistor to ground: `22 kΩ`. */
  cathodeResistor: quantity('resistance'),
});

const tail = z
  .strictObject({
    /** `82 kΩ`. */
    resistor: quantity('resistance').optional(),
    /** Voltage at its lower end: `-150 V`; left out, ground. */
    supply: quantity('voltage').optional(),
    /** Current source in its place: `2 mA`. */
    current: quantity('current').optional(),
  })
  .refine(
    ({ resistor, supply, current }) =>
      (resistor === undefined) !== (current === undefined) && (supply === undefined || current === undefined),
    {
      error: 'A tail is a resistor, with the voltage at its lower end where it is not ground, or a current.',
      params: {
        rule: 'tail',
        hint: 'Write for example tail: { resistor: 82 kΩ }, or tail: { current: 2 mA }.',
      },
    },
  );

/** Two tubes with joined cathodes; the grid of the other one is grounded for signals. */
export const longTailedSchema = z.strictObject({
  topology: z.literal('long-tailed'),
  ...common,
  ...twoOutputs,
  /** At the driven tube: `100 kΩ`. */
  plateResistor: quantity('resistance'),
  /** At the other tube: `110 kΩ`; left out, as at the driven one. */
  otherPlateResistor: quantity('resistance').optional(),
  tail,
});

type SplitterData =
  | z.infer<typeof cathodeFollowerSchema>
  | z.infer<typeof splitLoadSchema>
  | z.infer<typeof longTailedSchema>;

/** The stage as the load room takes it. */
export function splitterDescription(stage: SplitterData): SplitterDescription {
  const { id, device } = stage;
  const shared = {
    id,
    device,
    supplyV: stage.supply ?? null,
    grid: gridFeedOf(stage.bias),
    nextGridLeakOhm: stage.nextGridLeak ?? null,
    otherGridLeakOhm: 'otherGridLeak' in stage ? (stage.otherGridLeak ?? null) : null,
  };
  switch (stage.topology) {
    case 'cathode-follower':
      return { ...shared, topology: stage.topology, cathodeResistorOhm: stage.cathodeResistor };
    case 'split-load':
      return {
        ...shared,
        topology: stage.topology,
        plateResistorOhm: stage.plateResistor,
        cathodeResistorOhm: stage.cathodeResistor,
      };
    case 'long-tailed':
      return {
        ...shared,
        topology: stage.topology,
        plateResistorOhm: stage.plateResistor,
        otherPlateResistorOhm: stage.otherPlateResistor ?? stage.plateResistor,
        tail: tailOf(stage.tail),
      };
  }
}

const gridFeedOf = ({ gridVoltage, resistor }: z.infer<typeof bias>): GridFeed =>
  resistor === undefined ? { kind: 'voltage', gridV: gridVoltage ?? 0 } : { kind: 'tap', ohm: resistor };

const tailOf = ({ resistor, supply, current }: z.infer<typeof tail>): Tail =>
  current === undefined
    ? { kind: 'resistor', ohm: resistor ?? 0, returnV: supply ?? 0 }
    : { kind: 'current', totalA: current };
