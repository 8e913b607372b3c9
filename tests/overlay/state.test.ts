import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  normOf,
  type OverlayState,
  readState,
  referenceOf,
  type TraceEntry,
  viewOf,
  viewQuery,
  viewsOf,
  writeState,
} from '../../src/overlay/index.ts';

const entryOf = (id: string, views: string[]): TraceEntry => ({
  ...{
    id,
    title: id,
    capture: `logs/${id}`,
    views,
    amplifier: null,
    version: null,
    parts: [],
    alternatives: [],
  },
});

const everyView = ['response', 'thd-frequency', 'thd-power', 'harmonic-3-power', 'spectrum', 'impedance'];
const entries = [
  entryOf('2026-01-01-a/first:load', everyView),
  entryOf('2026-01-01-a/second:into 8 Ω & more', everyView),
  entryOf('2026-01-01-a/sampled:out=1', ['spectrum']),
];

const states = fc
  .record({
    viewId: fc.constantFrom(...everyView),
    chosen: fc.subarray(entries.slice(0, 2).map(({ id }) => id)),
    norm: fc.nat(4),
    wanted: fc.constantFrom(...entries.map(({ id }) => id)),
    cursor: fc.option(fc.integer({ min: 1, max: 999999 }).map((milli) => milli / 1000)),
  })
  .map(({ viewId, chosen, norm, wanted, cursor }): OverlayState => {
    const view = viewOf(viewId);
    if (view === null) throw new Error(`No view ${viewId}`);
    const chosenNorm = normOf(view, view.norms[norm % view.norms.length]?.id ?? null);
    const reference = referenceOf(chosen, chosenNorm.id === 'difference' ? wanted : null);
    return { view, traces: chosen, norm: chosenNorm, reference, cursor };
  });

describe('the address', () => {
  test('says every state so that it reads back as it was, without a fault', () => {
    fc.assert(
      fc.property(states, (state) => {
        expect(readState(writeState(state), entries)).toEqual({ state, faults: [] });
      }),
    );
  });

  test('of two traces is short and readable', () => {
    expect(viewQuery('thd-power', ['log/one:load', 'log/two:load'])).toBe(
      '?view=thd-power&trace=log/one:load&trace=log/two:load',
    );
  });

  test('without a view shows the first view that its traces have', () => {
    expect(readState('?trace=2026-01-01-a/sampled:out%3D1', entries).state.view.id).toBe('spectrum');
    expect(readState('', entries).state.view.id).toBe('response');
  });

  test('names each thing that does not exist, and shows the rest', () => {
    const query =
      '?view=thd-frequency&trace=gone:x&trace=2026-01-01-a/first:load&trace=2026-01-01-a/sampled:out%3D1&norm=carrier';
    const { state, faults } = readState(query, entries);
    expect(state.traces).toEqual(['2026-01-01-a/first:load']);
    expect(faults).toEqual([
      'The address names “gone:x”, which this journal does not have.',
      '2026-01-01-a/sampled:out=1 has no curve of this kind: THD against frequency.',
      'The address asks for the normalisation “carrier”, which is not there for this kind of curve: THD against frequency.',
    ]);
    expect(readState('?view=colour', entries).faults).toEqual([
      'The address asks for the view “colour”, which does not exist.',
    ]);
  });

  test.each(['at=x', 'at=-3', 'at=0', 'at=1e999', 'at='])('with the cursor %s has none', (cursor) => {
    expect(readState(`?${cursor}`, entries).state.cursor).toBeNull();
  });

  test('of any text gives a state that can be said again', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const { state } = readState(`?${text}`, entries);
        expect(readState(writeState(state), entries).state).toEqual(state);
      }),
    );
  });
});

describe('views', () => {
  test('stand in reading order, harmonics by their order', () => {
    const views = [
      'impedance',
      'harmonic-10-frequency',
      'harmonic-2-frequency',
      'spectrum',
      'thd-power',
      'response',
    ];
    expect(viewsOf([{ views }]).map(({ name }) => name)).toEqual([
      'Response',
      'THD against output power',
      'Second harmonic against frequency',
      'Tenth harmonic against frequency',
      'Spectrum',
      'Impedance',
    ]);
  });

  test('of distortion against power cannot be normalised to a frequency', () => {
    expect(viewOf('thd-power')?.norms.map(({ id }) => id)).toEqual(['none', 'difference']);
  });
});
