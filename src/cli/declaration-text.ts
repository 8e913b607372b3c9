import { stringify } from 'yaml';
import type { CaptureDeclaration } from '../capture/index.ts';
import { quantityText } from '../quantity/index.ts';
import type { Inspection } from './inspect-document.ts';

/** A frontmatter declaration of the capture, to be pasted into a log and corrected. */
export function declarationText({ file, declaration }: Inspection): string {
  const entry = { file, title: 'Say what this capture shows', ...(declaration ? written(declaration) : {}) };
  return stringify({ captures: [entry] }, { lineWidth: 100 }).trimEnd();
}

/** The declaration with frontmatter's keys and units. */
function written({ rateHz, loadOhm, ...rest }: CaptureDeclaration): object {
  return {
    ...rest,
    ...(rateHz === undefined ? {} : { rate: plain(quantityText(rateHz, 'Hz', 12)) }),
    ...(loadOhm === undefined ? {} : { load: plain(quantityText(loadOhm, 'Ω', 12)) }),
  };
}

const plain = (text: string) => text.replaceAll('\u00a0', ' ').replace(/(\.\d*?)0+(?= )/, '$1').replace(/\.(?= )/, '');
