import { type Finding, waveformMessages } from '../messages.ts';
import { fewestLevels } from '../record/quantisation.ts';
import type { Withheld } from '../types.ts';
import { combinationName, isSame, type LostCombination } from './combinations.ts';
import { linesOfPattern } from './intermodulation.ts';
import { twoToneMessages as messages } from './two-tone-messages.ts';
import type { TwoToneChannelSummary, TwoTonePattern } from './two-tone-types.ts';

const ofTones = [
  'tones',
  'noiseRms',
  'products',
  'harmonics',
  'modulation',
  'differenceFrequency',
  'clipping',
];

/** All figures of a channel withheld for one reason. */
export function withheldOf({ message }: Finding, others: readonly string[] = []): { withheld: Withheld[] } {
  return { withheld: [...others, ...ofTones].map((figure) => ({ figure, reason: message })) };
}

const needs = {
  modulation: 'a low and a high tone, wide apart, of levels 4 to 1',
  differenceFrequency: 'two tones of equal level, close together',
};

/** A fitted channel with the reasons for what it lacks, and what must be said of it. */
export function twoToneFindings(
  summary: TwoToneChannelSummary,
  lost: readonly LostCombination[],
  tones: string,
): { summary: TwoToneChannelSummary; findings: Finding[] } {
  const { tones: found, pattern, products, clipping } = summary;
  const lostFindings = lost.filter((line) => matters(line, pattern)).map(lostFinding);
  const findings: [boolean, () => Finding][] = [
    [pattern === null, () => messages.noPattern(tones, found?.levelRatio ?? 0)],
    [products.length > 0 && products.every(({ detected }) => !detected), messages.nothingAboveNoise],
    [clipping === true, waveformMessages.clipping],
  ];
  return {
    summary: { ...summary, withheld: withheldFrom(summary, lostFindings) },
    findings: [...lostFindings, ...findings.filter(([applies]) => applies).map(([, finding]) => finding())],
  };
}

/** A figure needs the line, or it lies on another one where only lines are given. */
function matters(line: LostCombination, pattern: TwoTonePattern): boolean {
  if (pattern !== null) return linesOfPattern[pattern].some((needed) => isSame(needed, line));
  return line.onto !== null && line.order <= 3 && line.first !== 0 && line.second !== 0;
}

function lostFinding(line: LostCombination): Finding {
  const why = line.onto
    ? `cannot be told from ${combinationName(line.onto)}, less than one cycle per record away`
    : 'lies at zero frequency or beyond half the sampling rate';
  return messages.linesLost(combinationName(line), why);
}

/** Sets of figures that the tones are not made for, and single figures whose lines are lost. */
function withheldFrom(summary: TwoToneChannelSummary, lost: readonly Finding[]): Withheld[] {
  const why = lost.map(({ message }) => message).join(' ');
  const sets = (['modulation', 'differenceFrequency'] as const).flatMap((set) => {
    const figures = summary[set];
    if (figures === null) return [{ figure: set, reason: messages.otherPattern(needs[set]).message }];
    return Object.entries(figures)
      .filter(([, figure]) => figure === null)
      .map(([name]) => ({ figure: `${set}.${name}`, reason: why }));
  });
  const clipping = summary.clipping === null ? [waveformMessages.fewLevels(fewestLevels)] : [];
  return [...sets, ...clipping.map(({ message }) => ({ figure: 'clipping', reason: message }))];
}
