import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { type SiteInBrowser, siteInBrowser } from '../support/visit.ts';

const sine = 'logs/2026-02-28-a-driver-that-cancels/heron-v2-1khz-1w/';
const rateHz = 48_000;
const volume = 10 ** (-54 / 20);

let site: SiteInBrowser;
beforeAll(async () => {
  site = await siteInBrowser(inject('site'));
});
afterAll(() => site.close());

/** The page's own player writes two seconds into memory in the place of a loudspeaker. */
const intoMemory = `
  window.contexts = [];
  window.AudioContext = class extends OfflineAudioContext {
    constructor() {
      super(1, ${2 * rateHz}, ${rateHz});
      window.contexts.push(this);
    }
    resume() { return Promise.resolve(); }
  };`;

/** Peak of each stated line over the second second, by projection through a Hann window, and the rms of all of it. */
const levelsOf = (frequencies: readonly number[]) => `(async () => {
  const buffer = await window.contexts[0].startRendering();
  const rate = ${rateHz};
  const heard = buffer.getChannelData(0).subarray(rate);
  const peak = (hertz) => {
    let [re, im] = [0, 0];
    heard.forEach((sample, n) => {
      const value = sample * (1 - Math.cos((2 * Math.PI * n) / heard.length));
      const angle = (2 * Math.PI * hertz * n) / rate;
      re += value * Math.cos(angle);
      im += value * Math.sin(angle);
    });
    return (2 * Math.hypot(re, im)) / heard.length;
  };
  return { peaks: ${JSON.stringify(frequencies)}.map(peak), rms: Math.hypot(...heard) / Math.sqrt(heard.length) };
})()`;

interface Levels {
  peaks: number[];
  rms: number;
}

async function pressed(button: string) {
  const { page, complaints } = await site.open(`/${sine}`, { before: intoMemory });
  await page.getByRole('button', { name: button, exact: true }).click();
  await page.waitForFunction('window.contexts.length > 0');
  await page.getByText(`Playing: ${button}.`).waitFor();
  const written = await page.getByRole('button', { name: button, exact: true }).getAttribute('data-partials');
  const partials = JSON.parse(written ?? '[]') as [number, number, number][];
  const levels = (await page.evaluate(levelsOf(partials.map(([hertz]) => hertz)))) as Levels;
  expect(complaints).toEqual([]);
  await page.context().close();
  return { partials, levels };
}

test('both sounds have the levels that the page states, at one rms level, very quiet', async () => {
  const pure = await pressed('the pure sine');
  const distorted = await pressed('the sine with its harmonics');
  expect(pure.partials).toHaveLength(1);
  expect(distorted.partials.length).toBeGreaterThan(2);
  for (const { partials, levels } of [pure, distorted]) {
    partials.forEach(([hertz, amplitude], i) => {
      const decibels = 20 * Math.log10((levels.peaks[i] ?? 0) / (amplitude * volume));
      // Lines a kilohertz apart leak nothing through the window; single precision and the table of the wave err by
      // 1e-5 of the sine, which is 0.1 dB of the smallest harmonic, at 1e-3.
      expect(Math.abs(decibels), `${hertz} Hz`).toBeLessThan(0.1);
    });
    // Parseval: partials of the power of one sine of peak 1, at the volume.
    expect(Math.abs(20 * Math.log10(levels.rms / (volume / Math.SQRT2)))).toBeLessThan(0.01);
  }
});

test('nothing is fetched or plays before a press, and the keyboard stops and turns it down', async () => {
  const { page, complaints } = await site.open(`/${sine}`, { before: intoMemory });
  const scripts: string[] = [];
  page.on('request', (request) => scripts.push(request.url()));
  await page.getByRole('heading', { name: 'Hear the distortion' }).scrollIntoViewIfNeeded();
  expect(await page.evaluate('window.contexts.length')).toBe(0);
  expect(scripts).toEqual([]);
  const button = page.getByRole('button', { name: 'the sine with its harmonics' });
  await button.focus();
  await page.keyboard.press('Enter');
  await page.getByRole('status').getByText('Playing: the sine with its harmonics.').waitFor();
  expect(scripts.some((url) => /main-/.test(url))).toBe(true);
  expect(await button.getAttribute('aria-pressed')).toBe('true');
  const slider = page.getByRole('slider');
  expect(await slider.inputValue()).toBe('-54');
  await slider.focus();
  await page.keyboard.press('ArrowLeft');
  expect(await slider.getAttribute('aria-valuetext')).toBe('−55\u00a0dB re full scale');
  await page.keyboard.press('Escape');
  await page.getByText('Stopped.').waitFor();
  expect(await button.getAttribute('aria-pressed')).toBe('false');
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('turning the volume first fetches the player without a sound', async () => {
  const { page } = await site.open(`/${sine}`, { before: intoMemory });
  await page.getByRole('slider').fill('-40');
  await page.getByText('−40\u00a0dB').waitFor();
  const { rms } = (await page.evaluate(levelsOf([1000]))) as Levels;
  expect(rms).toBe(0);
  await page.context().close();
});

test('two tones are offered with what they make together', async () => {
  const { page } = await site.open('/logs/2026-08-01-two-tones-at-once/slate-40ma-19-20khz/');
  await expect(
    page.getByRole('button', { name: 'the tones with what they make together' }).count(),
  ).resolves.toBe(1);
  await page.context().close();
});

test('without scripts the section is not shown', async () => {
  const { page } = await site.open(`/${sine}`, { javaScriptEnabled: false });
  expect(await page.getByRole('heading', { name: 'Summary' }).isVisible()).toBe(true);
  expect(await page.getByRole('heading', { name: 'Hear the distortion' }).isVisible()).toBe(false);
  await page.context().close();
});
