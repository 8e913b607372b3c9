import { intervalContent } from '../figures/index.ts';
import type { CaptureRecord } from '../journal/types.ts';

/** What the intervals of a capture hold, in words that begin small. */
export function intervalNote({
  analysis: { kind },
  figures,
  measurement,
}: Pick<CaptureRecord, 'analysis' | 'figures' | 'measurement'>): string {
  return intervalContent({ figures, measurement, isSampled: kind === 'waveform' || kind === 'two-tone' });
}
