import { stringify } from 'yaml';
import { declarationText } from './declaration-text.ts';
import type { Inspection } from './inspect-document.ts';

interface Skeleton {
  title: string;
  date: string;
  amplifier: string;
  captures: readonly Inspection[];
}

/** The record of a log that is still to be written, with what each key is for and its captures declared. */
export function logSkeleton({ title, date, amplifier, captures }: Skeleton): string {
  const declared =
    captures.length > 0
      ? declarationText(captures)
      : '# captures:\n#   - { file: tone.csv, title: What it shows }';
  return `---
${stringify({ title }, { lineWidth: 0 }).trimEnd()}
date: ${date}
amplifier: ${amplifier}
# version: ${amplifier}/v1     the version that was measured
question: What was asked?
# answer: one sentence, once there is one
${declared}
# keyFigures: at most three, shown at the top
#   - { figure: thd, of: tone }
---

What was done, and what came of it.
`;
}
