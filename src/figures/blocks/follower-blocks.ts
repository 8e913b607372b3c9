import type {
  FollowerLoadRow,
  FollowerSheet,
  FollowerState,
  Temperatures,
  ThermalSheet,
} from '../../load/index.ts';
import { quantityText } from '../../quantity/index.ts';
import type { Fact, FactBlock } from './fact-block.ts';

const watts = (value: number) => quantityText(value, 'W');
const percent = (ratio: number) => quantityText(100 * ratio, '%');

/** What a transistor stage is, in a few words: "complementary follower pair, 2 in parallel, split supply". */
export function followerHeadline({ topology, count, supplyKind }: FollowerSheet): string {
  const kind = topology === 'follower' ? 'single follower, class A' : 'complementary pair of followers';
  const many = count === 1 ? '' : `, ${count} in parallel`;
  return `${kind}${many}, ${supplyKind} supply`;
}

/** Rest, largest and worst output, temperatures and other loads of a transistor stage. */
export function followerBlocks(sheet: FollowerSheet): FactBlock[] {
  const { rest, largest, worst, stated, thermal, loads } = sheet;
  if (!rest || !largest || !worst) return [];
  const ofOutput = (title: string, facts: Fact[]): FactBlock => ({
    title,
    method: 'transistor-output',
    facts,
  });
  return [
    ofOutput('At rest', restFacts(sheet, rest)),
    ofOutput('Largest sine', [...outputFacts(largest), ...cornerFacts(sheet)]),
    ...(stated ? [ofOutput('At the stated power', outputFacts(stated))] : []),
    ofOutput('Where a transistor is hottest', outputFacts(worst)),
    ofOutput('With other loads, at the worst output', loads.map(loadFact)),
    ...(thermal
      ? [{ title: 'Temperatures', method: 'thermal-path' as const, facts: thermalFacts(thermal) }]
      : []),
  ];
}

function restFacts({ biasA, biasReadingV, classAW, supplyKind }: FollowerSheet, rest: FollowerState): Fact[] {
  const rail = supplyKind === 'split' ? 'Each rail' : 'Half the supply';
  return [
    { name: rail, value: quantityText(rest.railV, 'V') },
    ...(biasA === null
      ? []
      : [{ name: 'Each transistor', value: `${quantityText(biasA, 'A')}, ${watts(rest.deviceW)}` }]),
    ...(biasReadingV === null
      ? []
      : [{ name: 'Across emitter resistors', value: quantityText(biasReadingV, 'V') }]),
    ...(classAW === null ? [] : [{ name: 'Class A up to', value: watts(classAW) }]),
  ];
}

function outputFacts(state: FollowerState): Fact[] {
  return [
    { name: 'Output', value: `${watts(state.outputW)}, ${quantityText(state.outputPeakV, 'V')} peak` },
    { name: 'Efficiency', value: `${percent(state.efficiency)} of ${watts(state.balance.supplyW)}` },
    { name: 'Each transistor, average', value: watts(state.deviceW) },
    {
      name: 'Each transistor, peak',
      value: `${watts(state.peakDeviceW)}, ${quantityText(state.peakDeviceA, 'A')}`,
    },
  ];
}

function cornerFacts({ lowCornerHz }: FollowerSheet): Fact[] {
  return lowCornerHz === null
    ? []
    : [{ name: '−3 dB of the output capacitor', value: quantityText(lowCornerHz, 'Hz') }];
}

function loadFact({ ohm, angleDeg, largestW, worstDeviceW, junctionC }: FollowerLoadRow): Fact {
  const angle = angleDeg === 0 ? '' : ` at ${angleDeg}°`;
  const junction = junctionC === null ? '' : `, junction ${degrees(junctionC)}`;
  const most = angleDeg === 0 ? `up to ${watts(largestW)}; ` : '';
  return {
    name: `${quantityText(ohm, 'Ω')}${angle}`,
    value: `${most}each ${watts(worstDeviceW)}${junction}`,
  };
}

function thermalFacts(thermal: ThermalSheet): Fact[] {
  const { rest, worst, largest, junctionToCase, junctionToCaseBasis, maxJunctionC, mostDeviceW } = thermal;
  const both = (part: keyof Temperatures) =>
    `${degrees(rest[part])} at rest, ${degrees(worst[part])} at worst`;
  const basis = junctionToCaseBasis === 'stated' ? '' : ', from the rated power';
  const sink = thermal.requiredSink === null ? 'none can' : quantityText(thermal.requiredSink, 'K/W');
  return [
    { name: 'Sink', value: both('sinkC') },
    { name: 'Case', value: both('caseC') },
    { name: 'Junction', value: both('junctionC') },
    { name: 'Junction, largest sine', value: degrees(largest.junctionC) },
    { name: 'Junction to case', value: `${quantityText(junctionToCase, 'K/W')}${basis}` },
    { name: `Each transistor for ${degrees(maxJunctionC)}`, value: watts(mostDeviceW) },
    { name: `Sink for ${degrees(maxJunctionC)}`, value: `${sink}, at the worst output` },
  ];
}

/** Whole degrees. */
function degrees(value: number): string {
  const round = Math.round(value);
  return quantityText(round, '°C', Math.max(1, `${Math.abs(round)}`.length));
}
