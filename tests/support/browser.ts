import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const places = [
  process.env['CHROME_PATH'],
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/usr/bin/microsoft-edge',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
];

export const browserMissing =
  'The browser tests need Chromium, Chrome or Edge. Install one (on Debian: apt-get install chromium), or name it in CHROME_PATH.';

/** Path of a browser that the tests can drive, or null. */
export function findBrowser(): string | null {
  return places.find((place) => place !== undefined && existsSync(place)) ?? null;
}

/** Installs Debian's Chromium where this process may; the path of the browser, or null. */
export function installBrowser(): string | null {
  if (process.getuid?.() !== 0 || !existsSync('/usr/bin/apt-get')) return null;
  const quiet = { stdio: 'ignore', env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } } as const;
  spawnSync('apt-get', ['update'], quiet);
  spawnSync('apt-get', ['install', '-y', '--no-install-recommends', 'chromium'], quiet);
  return findBrowser();
}
