import { describe, expect, it } from 'vitest';
import { type ChartResult, dissipationAgainstLoad, dissipationAgainstPower } from '../../src/charts/index.ts';
import { heatOverLoads, heatOverWatts } from './samples.ts';
import { chartOf } from './support.ts';

const textOf = (result: ChartResult) => {
  const { title, description } = chartOf(result).text;
  return { title: title.replaceAll('\u00a0', ' '), description: description.replaceAll('\u00a0', ' ') };
};

describe('dissipation against power', () => {
  it('says where a transistor is hottest and how far efficiency gets', () => {
    // 0.7 + 1.6√P − 0.25 P is largest at √P = 3.2, 3.26 W; of the readings 10.1 W is the nearest. 0.19·√14 = 0.711.
    expect(textOf(dissipationAgainstPower(heatOverWatts)).title).toBe(
      'A transistor dissipates most, 3.3 W, at 10 W of output; efficiency reaches 71 %',
    );
  });

  it('says so where a stage is hottest without a signal', () => {
    const cooling = heatOverWatts.powerW;
    const deviceW = Array.from(cooling, (watt) => 20 - (watt ?? 0));
    expect(textOf(dissipationAgainstPower({ ...heatOverWatts, deviceW })).title).toMatch(
      /20 W, without a signal/,
    );
  });

  it('counts readings without a value in the description, and has them in the table as absent', () => {
    const deviceW = Array.from(heatOverWatts.deviceW, (watt, i) => (i === 3 ? null : watt));
    const chart = chartOf(dissipationAgainstPower({ ...heatOverWatts, deviceW }));
    expect(chart.text.description).toContain('Dissipation: 1 reading has no value');
    expect(chart.table.rows[3]?.[1]).toBe('–');
  });

  it('is absent with one reading', () => {
    const one = { powerW: [1], deviceW: [2], efficiency: [0.1] };
    expect(dissipationAgainstPower(one)).toHaveProperty('absent');
  });
});

describe('dissipation against load', () => {
  it('compares a resistor with a load at 45° at the stated load', () => {
    // 0.6 + 26/8 and 0.6 + 37/8
    expect(textOf(dissipationAgainstLoad(heatOverLoads)).title).toBe(
      'At 8 Ω a transistor dissipates up to 3.9 W with a resistor and 5.2 W at 45°',
    );
  });

  it('has a title of its range where no load is stated', () => {
    expect(textOf(dissipationAgainstLoad({ ...heatOverLoads, chosenOhm: null })).title).toBe(
      'Dissipation of each transistor from 2 Ω to 32 Ω',
    );
  });

  it('is absent without readings', () => {
    const none = { loadOhm: [], resistiveW: [], reactiveW: [], chosenOhm: null };
    expect(dissipationAgainstLoad(none)).toHaveProperty('absent');
  });
});
