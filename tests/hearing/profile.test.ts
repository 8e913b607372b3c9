import { describe, expect, it } from 'vitest';
import { harmonicProfile, type Profile, profileText, twoToneProfile } from '../../src/hearing/index.ts';
import type { Harmonic, TwoToneChannelSummary } from '../../src/signal/index.ts';
import { gentle, figuresOf as twoToneFigures, twoTones } from '../signal/two-tones.ts';

const harmonic = (order: number, ratio: number, more: globalThis.Partial<Harmonic> = {}): Harmonic => ({
  ...{ order, frequencyHz: 1000 * order, ratio, uncertainty: 1e-6, low: ratio, high: ratio },
  ...{ relativePhaseDeg: 0, detected: true },
  ...more,
});

const fundamental = (frequencyHz: number) => ({
  ...{ frequencyHz, frequencyUncertaintyHz: 0, rms: 2.8, rmsUncertainty: 0 },
  ...{ coverageFactor: 2, freedom: 100, phaseDeg: 33 },
});

function heard(profile: ReturnType<typeof harmonicProfile>): Profile {
  if ('absent' in profile) throw new Error(profile.absent);
  return profile;
}

const power = (partials: Profile['pure']) => partials.reduce((sum, { amplitude }) => sum + amplitude ** 2, 0);
const ofSine = (frequencyHz: number, harmonics: Harmonic[]) =>
  heard(harmonicProfile({ fundamental: fundamental(frequencyHz), harmonics }));

describe('harmonicProfile(channel)', () => {
  it('has the levels and phases of the harmonics over the fundamental', () => {
    const { distorted } = ofSine(1000, [
      harmonic(2, 0.1, { relativePhaseDeg: 90 }),
      harmonic(3, 0.05, { relativePhaseDeg: -45 }),
    ]);
    const [first, second, third] = distorted;
    expect(distorted.map(({ frequencyHz }) => frequencyHz)).toEqual([1000, 2000, 3000]);
    // Ratios and angles as given, but for one division and one multiplication: 1e-15.
    expect((second?.amplitude ?? 0) / (first?.amplitude ?? 1)).toBeCloseTo(0.1, 14);
    expect((third?.amplitude ?? 0) / (first?.amplitude ?? 1)).toBeCloseTo(0.05, 14);
    expect([first?.phase, second?.phase, third?.phase]).toEqual([0, Math.PI / 2, -Math.PI / 4]);
  });

  it('brings both sounds to the power of one sine', () => {
    const { pure, distorted } = ofSine(1000, [harmonic(2, 0.3), harmonic(3, 0.2)]);
    // Parseval: half the sum of squared peaks is the mean square.
    expect(power(pure)).toBeCloseTo(1, 14);
    expect(power(distorted)).toBeCloseTo(1, 14);
    expect(distorted[0]?.amplitude).toBeCloseTo(1 / Math.sqrt(1.13), 14);
  });

  it('leaves out, by name, what noise could have given, what folding may have spoilt and what lies too high', () => {
    const profile = ofSine(6000, [
      harmonic(2, 0.1),
      harmonic(3, 0.01, { foldedOrders: [29] }),
      harmonic(4, 0.02),
      harmonic(5, 0.001, { detected: false }),
    ]);
    expect(profile.distorted.map(({ frequencyHz }) => frequencyHz)).toEqual([6000, 12_000]);
    expect(profile).toMatchObject({ played: ['2'], undetected: ['5'], spoilt: ['3'], tooHigh: ['4'] });
    const text = profileText(profile).join(' ');
    expect(text).toContain('A sine of 6\u00a0kHz. Beside it: the same with harmonic 2,');
    expect(text).toContain('Left out, as noise alone could have given them: harmonic 5.');
    expect(text).toContain('Left out, as sampling may have folded other lines onto them: harmonic 3.');
    expect(text).toContain('Left out, as they would lie above 20\u00a0kHz: harmonic 4.');
  });

  it.each([39.9, 8001, 15_000])('plays a sine of %d Hz at 1 kHz, and says so', (hertz) => {
    const profile = ofSine(hertz, [harmonic(2, 0.1), harmonic(3, 0.05)]);
    expect(profile.distorted.map(({ frequencyHz }) => Math.round(frequencyHz))).toEqual([1000, 2000, 3000]);
    expect(profileText(profile)[0]).toContain('A sine of 1\u00a0kHz in the place of');
  });

  it.each([40, 997, 8000])('plays a sine of %d Hz as it is', (hertz) => {
    expect(ofSine(hertz, [harmonic(2, 0.1)]).playedHz).toEqual([hertz]);
  });

  it('says why there is nothing: no tone, or no harmonic that is told from noise', () => {
    expect(harmonicProfile({ fundamental: null, harmonics: [] })).toEqual({ absent: 'no tone' });
    const quiet = { fundamental: fundamental(1000), harmonics: [harmonic(2, 1e-6, { detected: false })] };
    expect(harmonicProfile(quiet)).toEqual({ absent: 'no line' });
  });

  it('names runs of harmonics in few words', () => {
    const orders = [2, 3, 5, 6, 7, 9];
    const profile = ofSine(100, [
      ...orders.map((order) => harmonic(order, 0.01)),
      ...[10, 11, 12].map((order) => harmonic(order, 1e-6, { detected: false })),
    ]);
    const text = profileText(profile).join(' ');
    expect(text).toContain('the same with harmonics 2, 3, 5 to 7 and 9,');
    expect(text).toContain('harmonics 10 to 12.');
  });
});

describe('twoToneProfile(channel)', () => {
  const pair = (lower: number, upper: number) =>
    twoToneFigures(
      twoTones(
        { length: 16_384, frequencies: [lower / 192_000, upper / 192_000], amplitudes: [0.8, 0.2] },
        (x) => gentle(x) - 0.02 * x ** 2,
      ),
    );
  const played = (channel: TwoToneChannelSummary) => heard(twoToneProfile(channel));

  it('keeps the ratio of the tones, and gives each combination its level and phase', () => {
    const { pure, distorted, tonesHz } = played(pair(60, 7000));
    expect(tonesHz.map(Math.round)).toEqual([60, 7000]);
    // 0.8 over 0.2; the cubic term bends it by less than a thousandth.
    expect((pure[0]?.amplitude ?? 0) / (pure[1]?.amplitude ?? 1)).toBeCloseTo(4, 2);
    expect(power(pure)).toBeCloseTo(1, 14);
    expect(power(distorted)).toBeCloseTo(1, 14);
    const difference = distorted.find(({ frequencyHz }) => Math.round(frequencyHz) === 6940);
    // x − 0.01 x² makes f2 − f1 of |k2|·A1·A2 in opposite phase: 0.01 · 0.8 over 1, re the upper tone.
    expect((difference?.amplitude ?? 0) / (distorted[1]?.amplitude ?? 1)).toBeCloseTo(0.008, 4);
    expect(Math.abs(difference?.phase ?? 0)).toBeCloseTo(Math.PI, 6);
  });

  it('moves tones that are too high down together', () => {
    const profile = played(pair(19_000, 20_000));
    expect(profile.playedHz.map(Math.round)).toEqual([3800, 4000]);
    expect(profile.distorted.some(({ frequencyHz }) => Math.round(frequencyHz) === 200)).toBe(true);
    expect(profileText(profile)[0]).toMatch(
      /^Two tones of 3\.8\u00a0kHz and 4\u00a0kHz in the place of 19\u00a0kHz and 20\u00a0kHz/,
    );
  });

  it('plays nothing of tones that no pitch brings into range together', () => {
    expect(twoToneProfile(pair(60, 20_000))).toEqual({ absent: 'tones too far apart' });
  });
});
