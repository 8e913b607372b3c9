import { stringify } from 'yaml';
import type { CaptureDeclaration } from '../capture/index.ts';
import type { Inspection } from './inspect-document.ts';

/** Frontmatter declarations of captures, to be pasted into a log and corrected. */
export function declarationText(inspections: readonly Inspection[]): string {
  return stringify({ captures: inspections.map(entryOf) }, { lineWidth: 100 }).trimEnd();
}

const entryOf = ({ file, declaration }: Inspection) => ({
  file,
  title: 'Say what this capture shows',
  ...(declaration ? written(declaration) : {}),
});

/** The declaration with frontmatter's keys and units. */
function written({ rateHz, loadOhm, columns, ...rest }: CaptureDeclaration): object {
  return {
    ...levels(rest),
    ...(rateHz === undefined ? {} : { rate: quantity(rateHz, 'Hz') }),
    ...(loadOhm === undefined ? {} : { load: quantity(loadOhm, 'Ω') }),
    ...(columns && {
      columns: Object.fromEntries(Object.entries(columns).map(([name, column]) => [name, levels(column)])),
    }),
  };
}

/** Levels of a scale are volts unless the declaration is about watts. */
function levels<T extends { fullScale?: number; reference?: number }>({
  fullScale,
  reference,
  ...rest
}: T): object {
  return {
    ...rest,
    ...(fullScale === undefined ? {} : { fullScale: quantity(fullScale, 'V') }),
    ...(reference === undefined ? {} : { reference: quantity(reference, 'V') }),
  };
}

/** A quantity as frontmatter takes it: no superfluous zeros, an ordinary space. */
const quantity = (value: number, unit: string) => `${Number(value.toPrecision(12))} ${unit}`;
