import { expect, test } from 'vitest';
import { keptSiteResults, siteRooms } from '../../../src/cli/engine/kept-site-results.ts';
import { openStore } from '../../../src/journal/store/result-store.ts';
import { roomsOf } from '../../support/imports.ts';
import { temporaryFolder } from '../../support/journal.ts';

test('what is kept is there for the next process under its kind and parts alone, and each time is told', async () => {
  const folder = temporaryFolder();
  const told: string[] = [];
  const begun = () => keptSiteResults(openStore({ folder }), (origin) => told.push(origin));
  const first = begun();
  expect(first.get('chart', ['a', 'b'])).toBeNull();
  void first.put('chart', ['a', 'b'], { caption: 'A' });
  await first.settled();
  const next = begun();
  expect(next.get('chart', ['a', 'b'])).toEqual({ caption: 'A' });
  expect(next.get('chart', ['ab'])).toBeNull();
  expect(next.get('curves', ['a', 'b'])).toBeNull();
  expect(told).toEqual(['computed', 'kept']);
});

test('every room that charts and curves take code from counts in the version of what is kept', () => {
  const rooms = roomsOf(['src/site/shown-chart.ts', 'src/site/overlay-curves.ts', 'src/charts/draw.ts']);
  expect(rooms).toContain('signal');
  expect(rooms.filter((room) => !siteRooms.includes(room))).toEqual([]);
});
