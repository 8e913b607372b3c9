import { existsSync, globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Real captures beside the project, where they are. */
const outside = '../shared/captures';
const journals = ['content', 'shared/starter', 'shared/handbook'];

/** Rows of a capture that are kept, so that many can be tried. */
const mostLines = 120;

const filesBelow = (folders: readonly string[], pattern: string) =>
  folders
    .filter((folder) => existsSync(folder))
    .flatMap((folder) => globSync(`**/${pattern}`, { cwd: folder }).map((file) => join(folder, file)))
    .filter((file) => !file.includes('.quiescent'))
    .sort();

/** The beginnings of captures, and of lists of parts. */
export function captureTexts(): string[] {
  const files = [...filesBelow(journals, '*.csv'), ...filesBelow([outside], '*.csv')];
  return files.map((file) => readFileSync(file, 'latin1').split('\n').slice(0, mostLines).join('\n'));
}

/** Records by their paths in a journal. */
export function recordTexts(folders: readonly string[] = journals): { file: string; text: string }[] {
  return folders.flatMap((folder) =>
    filesBelow([folder], '*.{md,yaml}').map((file) => ({
      file: file.slice(folder.length + 1).replaceAll('\\', '/'),
      text: readFileSync(file, 'utf8'),
    })),
  );
}

/** Quantities as people write them, and as they do not. */
export const quantityTexts: readonly string[] = [
  ...[
    '5 kΩ',
    '4k7',
    '48 mA',
    '0.22 µF',
    '-1.5 dB',
    '40 Hz',
    '43 %',
    '1 W',
    '6.6kΩ',
    '4R7',
    '2M2',
    '100n',
    '2u2',
  ],
  ...[
    '1.5',
    '3,3 kΩ',
    '10 ppm',
    '20 dBu',
    '300 V',
    '1e3 Ω',
    '−3 dB',
    '5 kilo-ohm',
    '85.00 EUR',
    '$5',
    '€ 1.234,50',
  ],
];
