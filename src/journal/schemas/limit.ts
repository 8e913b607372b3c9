import { z } from 'zod';
import { type CaptureKind, captureKinds } from '../../capture/index.ts';
import { writtenQuantity } from './any-quantity.ts';
import { channelName, line } from './fields.ts';

/** A value with its unit, and as it was written. */
export type WrittenQuantity = z.infer<typeof writtenQuantity>;

/** Bounds that a reading must keep, both ends included. */
export interface StatedLimits {
  least?: WrittenQuantity | undefined;
  most?: WrittenQuantity | undefined;
}

/** Keys of the bounds of a reading. */
export const boundKeys = {
  /** The lowest value that passes: `12.5 V`. */
  least: writtenQuantity.optional(),
  /** The highest value that passes: `14.5 V`. */
  most: writtenQuantity.optional(),
};

const limit = z.strictObject({
  /** Name of a reading that every unit's record gives: `Cathode voltage`. */
  reading: line.optional(),
  /** Id of a figure that a capture of every unit gives, in place of a reading: `thd`. */
  figure: line.optional(),
  /** Channel of the figure, where captures have several: `load`. */
  of: channelName.optional(),
  /** Kind of capture that the figure is taken from: `waveform`. */
  kind: z.enum(captureKinds as [CaptureKind, ...CaptureKind[]]).optional(),
  ...boundKeys,
});

export type LimitData = z.infer<typeof limit>;

interface Refusal {
  path: (string | number)[];
  message: string;
  hint: string;
}

/** What is wrong with a pair of bounds; null where they go together. */
export function boundsFault({ least, most }: StatedLimits): Omit<Refusal, 'path'> | null {
  if (!least || !most) return null;
  if (least.unit !== most.unit) {
    return {
      message: `The least value is ${least.text} and the most ${most.text}, which are different quantities.`,
      hint: 'Give both in one unit.',
    };
  }
  if (least.value <= most.value) return null;
  return { message: 'The least value is above the most.', hint: 'Swap the two, or correct one of them.' };
}

/** The limits that a version states for its units. */
export const limitsSchema = z.array(limit).superRefine((limits, context) => {
  const refusals = [...limits.flatMap(faultsOf), ...doubles(limits)];
  for (const { path, message, hint } of refusals) {
    context.addIssue({ code: 'custom', path, message, params: { rule: 'limit', hint } });
  }
});

function faultsOf({ reading, figure, of, kind, least, most }: LimitData, index: number): Refusal[] {
  const named = reading === undefined ? 'figure' : 'reading';
  const bounds = boundsFault({ least, most });
  const rules: [boolean, Refusal][] = [
    [
      reading === undefined && figure === undefined,
      {
        path: [index],
        message: 'A limit is that of a reading or of a figure, and this one names neither.',
        hint: 'Write reading: with a name of your own, or figure: with the id of a figure.',
      },
    ],
    [
      reading !== undefined && figure !== undefined,
      {
        path: [index, 'figure'],
        message: 'A limit is that of a reading or of a figure, and of one of them only.',
        hint: 'Make two entries of it.',
      },
    ],
    [
      figure === undefined && (of !== undefined || kind !== undefined),
      {
        path: [index, of === undefined ? 'kind' : 'of'],
        message: 'Only a figure has a channel and a kind of capture.',
        hint: 'Remove it, or write figure: in place of reading:.',
      },
    ],
    [
      least === undefined && most === undefined,
      { path: [index, named], message: 'This limit has no bound.', hint: 'Add least: or most:, or both.' },
    ],
  ];
  const broken = rules.flatMap(([isBroken, refusal]) => (isBroken ? [refusal] : []));
  return [...broken, ...(bounds ? [{ path: [index, 'most'], ...bounds }] : [])];
}

function doubles(limits: readonly LimitData[]): Refusal[] {
  const keys = limits.map(limitKey);
  return keys.flatMap((key, index) =>
    keys.indexOf(key) === index
      ? []
      : [
          {
            path: [index, limits[index]?.reading === undefined ? 'figure' : 'reading'],
            message: 'This is limited twice.',
            hint: 'Put least: and most: into one entry.',
          },
        ],
  );
}

/** What a limit is of, the same for every unit. */
export const limitKey = ({ reading, figure, of, kind }: Omit<LimitData, 'least' | 'most'>): string =>
  reading === undefined ? JSON.stringify([figure, of, kind]) : readingKey(reading);

/** A reading's name without regard to letter case. */
export const readingKey = (name: string): string => name.toLowerCase();
