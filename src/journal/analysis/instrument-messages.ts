import type { Fault } from '../../problem/index.ts';
import { quantityText } from '../../quantity/index.ts';

/** Every sentence that the journal room says about a capture and its instrument's range. */
export const instrumentMessages = {
  aboveLargestInput: (channel: string, peak: number, largest: number): Fault => ({
    rule: 'above-largest-input',
    severity: 'warning',
    message: `Channel "${channel}" reaches a peak of ${quantityText(peak, 'V')} here, more than the ${quantityText(largest, 'V')} that its instrument takes.`,
    hint: 'The reading may be cut off. Correct largestInput: or the scale: of the column, or measure again through a divider.',
  }),
  smallPartOfRange: (channel: string, peak: number, range: number, bitsLeft: number): Fault => ({
    rule: 'small-part-of-range',
    severity: 'warning',
    message: `Channel "${channel}" uses ${quantityText(peak, 'V')} of a range of ${quantityText(range, 'V')}, so that ${bitsLeft.toFixed(1)} bits of its converter are left.`,
    hint: 'Choose a smaller range of the instrument, or state the largestInput: of the range that was used.',
  }),
};
