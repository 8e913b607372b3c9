import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fontOfWoff } from './woff.ts';

const scripts = ['latin', 'latin-ext', 'greek', 'cyrillic'];
const weights = [400, 600];

let ready = false;

/**
 * Makes the site's own fonts the ones that pictures are drawn with, whatever the machine has; its fonts stand in for
 * characters that the site's lack. Holds for this process, whose end takes the files away again.
 */
export function usePictureFonts(): void {
  if (ready) return;
  const folder = mkdtempSync(path.join(tmpdir(), 'quiescent-fonts-'));
  process.once('exit', () => rmSync(folder, { recursive: true, force: true }));
  const { resolve } = createRequire(import.meta.url);
  for (const name of scripts.flatMap((script) => weights.map((weight) => `${script}-${weight}-normal`))) {
    const woff = readFileSync(resolve(`@fontsource/ibm-plex-sans/files/ibm-plex-sans-${name}.woff`));
    writeFileSync(path.join(folder, `${name}.ttf`), fontOfWoff(woff));
  }
  const settings = path.join(folder, 'fonts.conf');
  writeFileSync(settings, configuration(folder));
  process.env['FONTCONFIG_FILE'] = settings;
  ready = true;
}

const configuration = (folder: string) => `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
  <dir>${folder.replaceAll('&', '&amp;').replaceAll('<', '&lt;')}</dir>
  <include ignore_missing="yes">/etc/fonts/fonts.conf</include>
</fontconfig>
`;
