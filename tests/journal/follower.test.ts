import { describe, expect, test } from 'vitest';
import { openLoadFile } from '../../src/journal/index.ts';
import { problemText, writeFiles } from '../support/journal.ts';

const pair = 'id: output, topology: follower-pair, load: 8 Ω, biasCurrent: 40 mA, lossVoltage: 2 V';
const single = 'id: output, topology: follower, load: 8 Ω, lossVoltage: 2 V';

/** Opens a description of one stage; problems as text, with plain spaces. */
async function opened(stage: string, more = '') {
  const { sheet, problems } = await openLoadFile(
    writeFiles({ 'stage.yaml': `stages:\n  - { ${stage} }\n${more}` }),
    'stage.yaml',
  );
  const [first] = sheet?.stages ?? [];
  return {
    stage: first?.topology === 'follower' || first?.topology === 'follower-pair' ? first : null,
    problems: problems.map(problemText).join('\n').replaceAll('\u00a0', ' '),
  };
}

describe('a transistor stage', () => {
  test('takes its rails from the supply, or states its own', async () => {
    const supplied = await opened(pair, 'supply: { rails: 18 V }\n');
    const own = await opened(`${pair}, rails: 18 V`);
    expect(supplied.problems).toBe('');
    expect(own.stage?.largest).toEqual(supplied.stage?.largest);
  });

  test('takes a single supply with its output capacitor', async () => {
    const { stage } = await opened(`${pair}, rail: 36 V, outputCapacitor: 2200 µF`);
    expect(stage?.rest?.railV).toBe(18);
    expect(stage?.supplyKind).toBe('single');
  });

  test('takes thermal resistances in K/W and temperatures in °C', async () => {
    const thermal =
      'thermal: { junctionToCase: 1.2 K/W, caseToSink: 0.5 K/W, sinkToAmbient: 2.2 K/W, ambient: 40 °C, maxJunction: 150 °C, otherHeat: 3 W }';
    const { stage } = await opened(`${pair}, rails: 18 V, ${thermal}`);
    // 40 °C and 2.2 K/W for two transistors of 18 V times 40 mA and 3 W besides.
    expect(stage?.thermal?.rest.sinkC).toBeCloseTo(40 + 2.2 * (2 * 0.72 + 3), 9);
  });
});

describe('a fault of a transistor stage stands at its key', () => {
  test.each([
    ['both rail and rails', `${pair}, rails: 18 V, rail: 36 V`, 'either rails: or rail:, not both'],
    ['a single supply without a capacitor', `${pair}, rail: 36 V`, 'needs an output capacitor'],
    [
      'a capacitor on split rails',
      `${pair}, rails: 18 V, outputCapacitor: 2200 µF`,
      'A stage on a split supply has no output capacitor',
    ],
    ['a pair with a sink resistor', `${pair}, rails: 18 V, sinkResistor: 12 Ω`, 'has no sink resistor'],
    ['a pair without a current', pair.replace(', biasCurrent: 40 mA', ''), 'current at rest of the pair'],
    ['a follower without a current', `${single}, rails: 18 V`, 'exactly one of biasCurrent and sinkResistor'],
    [
      'a follower with two',
      `${single}, rails: 18 V, biasCurrent: 1 A, sinkResistor: 12 Ω`,
      'exactly one of biasCurrent and sinkResistor',
    ],
    [
      'a sink in ohms',
      `${pair}, rails: 18 V, thermal: { sinkToAmbient: 2 Ω }`,
      'a thermal resistance is expected',
    ],
    ['no rail at all', pair, 'Neither the rail of the stage nor the voltage of the supply'],
    [
      'a loss of the whole rail',
      pair.replace('2 V', '20 V').concat(', rails: 18 V'),
      'nothing is left for a signal',
    ],
    ['ratings without their source', `${pair}, rails: 18 V, ratings: { power: 60 W }`, 'source'],
  ])('%s', async (_, stage, message) => {
    const { problems } = await opened(stage);
    expect(problems).toContain(message);
    expect(problems).toMatch(/^stage\.yaml:2:\d+ /m);
  });

  test('a warning stands at the rating that is passed', async () => {
    const stage = `${pair}, rails: 18 V, ratings: { power: 2 W, source: invented }`;
    const { problems } = await opened(stage);
    const column = `  - { ${stage}`.indexOf('2 W, source') + 1;
    expect(problems).toContain('above the stated 2.00 W');
    expect(problems).toContain(`stage.yaml:2:${column}`);
  });
});
