import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { launchFirefox } from '../support/firefox.ts';
import { fullestOfEachKind } from '../support/kinds.ts';
import { serve } from '../support/serve.ts';

const folder = inject('site');
let firefox: Awaited<ReturnType<typeof launchFirefox>>;
let server: Awaited<ReturnType<typeof serve>>;
beforeAll(async () => {
  [firefox, server] = await Promise.all([launchFirefox(), serve(folder)]);
});
afterAll(async () => {
  await firefox.close();
  server.close();
});

/** What a page of any kind has to show on a phone. */
const seen = `{
  heading: document.querySelector('h1').textContent.trim().length > 1,
  notice: document.querySelector('.safety-notice').checkVisibility(),
  colours: document.documentElement.dataset.appearance,
  fonts: document.fonts.size > 0,
  isTooWide: document.documentElement.scrollWidth > innerWidth,
}`;

test.each(fullestOfEachKind(folder))(
  '%s loads in Firefox on a phone, with its notice and without a complaint',
  async (path) => {
    const { read, complaints } = await firefox.look(server.address + path, 390, `(${seen})`);
    expect(JSON.parse(read)).toEqual({
      heading: true,
      notice: true,
      colours: 'system',
      fonts: true,
      isTooWide: false,
    });
    expect(complaints).toEqual([]);
  },
);

test('Firefox refuses inline code by the policy of the page, and that is noticed', async () => {
  const adding = `(() => {
    const script = document.createElement('script');
    script.textContent = 'window.ran = true';
    document.body.append(script);
    return new Promise((resolve) => setTimeout(() => resolve(window.ran === true), 100));
  })()`;
  const { read, complaints } = await firefox.look(`${server.address}/`, 390, adding);
  expect(read).toBe('false');
  expect(complaints.join()).toMatch(/script-src/);
});
