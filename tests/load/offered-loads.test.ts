import { describe, expect, test } from 'vitest';
import {
  type Candidate,
  loadSheet,
  type OfferedLoad,
  type OutputTransformer,
  offeredLoad,
  speakersOfSweep,
} from '../../src/load/index.ts';
import { offBy, singleEnded, tubeSheet, tubes } from './support.ts';

const transformer: OutputTransformer = {
  name: 'a transformer',
  turnsRatio: 20,
  nominalOhm: 8,
  primaryOhm: 150,
  secondaryOhm: 0.5,
  primaryH: 20,
  leakageH: null,
  ratedPower: null,
  ratedDirectA: 0.05,
};
const named = { part: 'parts/one', name: 'A transformer', unknownUse: false };
const offer = offeredLoad(named, { transformer, primaryShare: 1 }, { ohm: 8, onto: null });

const candidatesWith = (offers: readonly OfferedLoad[]) =>
  tubeSheet(loadSheet([{ ...singleEnded, offers }], null, tubes).stages[0]);

const plain = (text: string | undefined) => text?.replaceAll('\u00a0', ' ');

describe('the load that a transformer makes', () => {
  test('is the loudspeaker and the secondary by the square of the turns, and the primary in series', () => {
    expect(offer.loadOhm).toBeCloseTo(20 ** 2 * 8.5 + 150, 9); // arithmetic
    expect(offer).toMatchObject({ turnsRatio: 20, speakerOhm: 8, ratedDirectA: 0.05 });
  });

  test('of a part of the turns goes with their square, the primary with the turns', () => {
    const part = offeredLoad(named, { transformer, primaryShare: 0.5 }, { ohm: 8, onto: null });
    expect(part.loadOhm).toBeCloseTo(10 ** 2 * 8.5 + 75, 9); // arithmetic
  });

  test('of a measured loudspeaker is that of its least impedance in the band and that at 1 kHz', () => {
    const sweep = {
      name: 'a loudspeaker',
      frequencyHz: [5, 100, 500, 2000],
      ohm: [2, 6, 8, 16],
      phaseDeg: null,
    };
    const [least, at, ...more] = speakersOfSweep(sweep);
    expect(more).toEqual([]);
    expect(least).toEqual({ ohm: 6, onto: 'least' });
    // Half way between 500 Hz and 2 kHz on a logarithmic scale: the geometric mean.
    expect(at?.onto).toBe('1 kHz');
    expect(offBy(at?.ohm ?? 0, Math.sqrt(8 * 16))).toBeLessThan(1e-12);
    expect(
      speakersOfSweep({ ...sweep, frequencyHz: [1500, 3000, 5000, 8000] }).map(({ onto }) => onto),
    ).toEqual(['least']);
  });
});

describe('a transformer at hand among the rules', () => {
  const { candidates, explanation } = candidatesWith([offer]);
  const found = candidates.at(-1);

  test('has its part, its load and what the stage gives there', () => {
    expect(found).toMatchObject({ part: 'parts/one', method: 'A transformer', loadOhm: offer.loadOhm });
    const there = tubeSheet(
      loadSheet([{ ...singleEnded, loadOhm: offer.loadOhm }], null, tubes).stages[0],
    ).atLoad;
    expect(offBy(found?.powerW ?? 0, there?.powerW ?? 1)).toBeLessThan(1e-6); // tolerance of the averages
    expect(offBy(found?.thdRatio ?? 0, there?.thdRatio ?? 1)).toBeLessThan(1e-6);
  });

  test('does not move with the point of rest', () => {
    expect(found?.moves).toEqual({
      voltage: { ohm: 0, relative: 0 },
      current: { ohm: 0, relative: 0 },
    });
  });

  test('says turns and loudspeaker, and that more direct current flows than it is rated for', () => {
    expect(plain(found?.basis)).toBe(
      '20.0 to 1 onto 8.00 Ω, with the windings; rated for 50.0 mA, less than flows at rest',
    );
    const rated = offeredLoad(
      named,
      { transformer: { ...transformer, ratedDirectA: 0.1 }, primaryShare: 1 },
      { ohm: 8, onto: null },
    );
    expect(candidatesWith([rated]).candidates.at(-1)?.basis).not.toContain('rated for');
  });

  test('is told where it lands, and is not counted among the rules', () => {
    const told = explanation.find((sentence) => sentence.startsWith('A transformer makes'));
    expect(plain(told)).toMatch(
      /^A transformer makes a load of 3\.55 kΩ, above that of most power: [\d.]+ W with [\d.]+ % total distortion, [\d.]+ dB less than the most\.$/,
    );
    const far = offeredLoad(
      named,
      { transformer: { ...transformer, turnsRatio: 60 }, primaryShare: 1 },
      { ohm: 8, onto: null },
    );
    const range = (offers: readonly OfferedLoad[]) =>
      candidatesWith(offers).explanation.find((sentence) => sentence.startsWith('The rules ask for loads'));
    expect(range([far])).toBe(range([]));
  });

  test('of a use that its record does not tell says so; one that makes an impossible load has none', () => {
    const of = (one: Partial<OfferedLoad>): Candidate | undefined =>
      candidatesWith([{ ...offer, ...one }]).candidates.at(-1);
    expect(of({ unknownUse: true })?.basis).toContain('does not say what use it is made for');
    expect(of({ loadOhm: Number.POSITIVE_INFINITY })).toMatchObject({
      loadOhm: null,
      powerW: null,
      basis: 'its turns and resistances make a load that no stage can have',
    });
  });
});

describe('where a load lands beside the most power', () => {
  const { candidates, sweep } = candidatesWith([]);
  const most = Math.max(...sweep.map(({ powerW }) => powerW));
  const mostOhm = sweep.find(({ powerW }) => powerW === most)?.loadOhm ?? 0;

  test('is its power in decibels and its side, half a step of an eighth of an octave counting as the same', () => {
    for (const { loadOhm, powerW, fromMostPowerDb, side } of candidates) {
      if (loadOhm === null) {
        expect([fromMostPowerDb, side]).toEqual([null, null]);
        continue;
      }
      expect(fromMostPowerDb).toBeCloseTo(10 * Math.log10((powerW ?? 0) / most), 9); // arithmetic
      const octaves = Math.log2(loadOhm / mostOhm);
      expect(side).toBe(Math.abs(octaves) <= 1 / 16 ? 'at' : octaves < 0 ? 'below' : 'above');
    }
    expect(new Set(candidates.map(({ side }) => side)).size).toBeGreaterThan(2);
  });

  test('has no side where the most power lies at the end of the range', () => {
    const sheet = tubeSheet(loadSheet([{ ...singleEnded, loadOhm: 20e3 }], null, tubes).stages[0]);
    expect(sheet.candidates.find(({ short }) => short === 'most power')?.loadOhm).toBeNull();
    expect(new Set(sheet.candidates.map(({ side }) => side))).toEqual(new Set([null]));
  });
});
