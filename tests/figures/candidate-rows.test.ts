import { describe, expect, test } from 'vitest';
import { candidateRow, missingMoves, moveRows } from '../../src/figures/stages.ts';
import type { Candidate } from '../../src/load/index.ts';

const rule: Candidate = {
  ...{ method: 'a rule', short: 'rule', basis: 'what it assumes', source: 'algebra', status: 'derived' },
  ...{ part: null, loadOhm: 2640, powerW: 3.66, fromMostPowerDb: -0.448, side: 'above' },
  ...{ secondRatio: 0.0388, thirdRatio: 0.0118, thdRatio: 0.0406 },
  moves: { voltage: { relative: 0.154, ohm: 407 }, current: { relative: -0.0001, ohm: -0.26 } },
};
const plain = (value: object) => JSON.parse(JSON.stringify(value).replaceAll('\u00a0', ' '));

describe('a row of the loads', () => {
  test('prints load, power, where that lands, and distortion', () => {
    expect(plain(candidateRow(rule))).toEqual({
      ...{ method: 'a rule', part: null, basis: 'what it assumes', status: 'derived' },
      ...{ load: '2.64 kΩ', power: '3.66 W', besideMost: '−0.45 dB, above' },
      ...{ thd: '4.1 %', second: '3.9 %', third: '1.2 %' },
    });
  });

  test('of a rule without a load has no figures', () => {
    const none = { loadOhm: null, powerW: null, fromMostPowerDb: null, side: null } as const;
    const ratios = { secondRatio: null, thirdRatio: null, thdRatio: null };
    expect(candidateRow({ ...rule, ...none, ...ratios })).toMatchObject({
      ...{ load: 'none', power: '', besideMost: '', thd: '', second: '', third: '' },
    });
  });
});

describe('the rows of the moves', () => {
  test('print per cent and ohms, and what rounds to nothing as staying', () => {
    expect(plain(moveRows([rule]))).toEqual([
      { method: 'a rule', load: '2.64 kΩ', voltage: '+15 %, +410 Ω', current: 'stays' },
    ]);
  });

  test('say what is not found once, with its reason', () => {
    const moves = { voltage: null, current: null, absent: 'There is no point of rest.' };
    const lost = { ...rule, moves };
    expect(moveRows([lost])).toMatchObject([{ voltage: 'not found', current: 'not found' }]);
    expect(missingMoves([lost, lost])).toEqual(['There is no point of rest.']);
  });

  test('leave out transformers and rules without a load', () => {
    expect(
      moveRows([
        { ...rule, part: 'parts/one' },
        { ...rule, loadOhm: null },
      ]),
    ).toEqual([]);
  });
});
