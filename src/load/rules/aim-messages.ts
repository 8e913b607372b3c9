import type { LoadFault } from '../types.ts';

export const distortionOutOfRange = (): LoadFault => ({
  rule: 'load/out-of-range',
  message: 'This is no total distortion that a load can be sought for.',
  hint: 'Values from 0.01 % to 100 % are accepted, for example statedDistortion: 5 %.',
  path: ['statedDistortion'],
});

export const noLoadToChoose = (key: string): LoadFault => ({
  rule: 'load/contradiction',
  message: 'A resistance-coupled stage has no load to be chosen, so none is sought.',
  hint: `Leave ${key}: out, or write topology: single-ended.`,
  path: [key],
});
