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

const placesOfFirefox = [
  process.env['FIREFOX_PATH'],
  '/usr/bin/firefox-esr',
  '/usr/bin/firefox',
  '/Applications/Firefox.app/Contents/MacOS/firefox',
  'C:\\Program Files\\Mozilla Firefox\\firefox.exe',
];

export const firefoxMissing =
  'One of the browser tests needs Firefox. Install it (on Debian: apt-get install firefox-esr), or name it in FIREFOX_PATH.';

/** Path of a browser that the tests can drive, or null. */
export const findBrowser = () => firstThere(places);

/** Path of a Firefox, or null. */
export const findFirefox = () => firstThere(placesOfFirefox);

const firstThere = (paths: readonly (string | undefined)[]) =>
  paths.find((place) => place !== undefined && existsSync(place)) ?? null;

/** Installs packages of Debian's where this process may. */
export function installPackages(...names: string[]): void {
  if (process.getuid?.() !== 0 || !existsSync('/usr/bin/apt-get')) return;
  const quiet = { stdio: 'ignore', env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } } as const;
  spawnSync('apt-get', ['update'], quiet);
  spawnSync('apt-get', ['install', '-y', '--no-install-recommends', ...names], quiet);
}
