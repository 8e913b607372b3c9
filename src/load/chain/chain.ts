import { turnsRatio } from '../output/transformer.ts';
import { faultsOf } from '../stage/check-description.ts';
import type { ChainDescription, ChainLink, ChainSheet, LoadFault } from '../types.ts';
import { explainChain } from './chain-explanation.ts';
import { type DescribedSheet, type StageTransfer, stageTransfer } from './chain-link.ts';
import {
  chainWithoutStages,
  feedbackRange,
  noSpeaker,
  speakerMissing,
  stageWithoutGain,
} from './chain-messages.ts';

type NamedTransfer = StageTransfer & { id: string };

/** What becomes of the last stage's output on its way to the speaker. */
type OutputPath = Pick<ChainSheet, 'turnsRatio' | 'speakerVrms' | 'speakerOhm'>;

/**
 * The chain from the source to the speaker at full output of the last stage; paths of its problems lead from the
 * chain. Each stage's input is the output of the one before it: what a stage gives into its load is its own figure.
 * @source voltage divider at the input, product of gains; feedback in dB is the ratio of gain without and with it
 */
export function chainSheet(
  chain: ChainDescription,
  stages: readonly DescribedSheet[],
): { sheet: ChainSheet | null; problems: LoadFault[] } {
  const transfers = stages.map((stage) => ({ id: stage.sheet.id, transfer: stageTransfer(stage) }));
  const usable = transfers.flatMap(({ id, transfer }) => (transfer ? [{ id, ...transfer }] : []));
  const lacking = transfers.filter(({ transfer }) => transfer === null);
  const last = usable.at(-1);
  const problems = [
    ...checkChain(chain),
    ...lacking.map(({ id }) => stageWithoutGain(id)),
    ...(stages.length === 0 ? [chainWithoutStages()] : []),
    ...(last && needsSpeaker(last, chain) ? [speakerMissing(last.id)] : []),
  ];
  return last && problems.length === 0
    ? { sheet: sheetOf(chain, usable, last), problems }
    : { sheet: null, problems };
}

const needsSpeaker = ({ primaryOhm, transformer }: StageTransfer, { speakerOhm }: ChainDescription) =>
  primaryOhm !== null && speakerOhm === null && transformer === null;

function checkChain(chain: ChainDescription): LoadFault[] {
  const { sourceV, sourceOhm, inputOhm, feedbackDb, speakerOhm } = chain;
  const faults = faultsOf([
    { path: ['source', 'level'], value: sourceV, unit: 'V', range: [1e-6, 1000] },
    { path: ['source', 'impedance'], value: sourceOhm, unit: 'Ω', range: [0, 1e9] },
    { path: ['inputResistance'], value: inputOhm, unit: 'Ω' },
    { path: ['speaker'], value: speakerOhm, unit: 'Ω' },
  ]);
  return feedbackDb >= 0 && feedbackDb <= 60 ? faults : [...faults, feedbackRange()];
}

function sheetOf(chain: ChainDescription, stages: readonly NamedTransfer[], last: NamedTransfer): ChainSheet {
  const { sourceV, sourceOhm, inputOhm, feedbackDb } = chain;
  const links = linksOf(stages);
  const path = outputPath(chain, last);
  const { speakerVrms, speakerOhm } = path;
  const atInput = inputOhm === null ? 1 : inputOhm / (inputOhm + sourceOhm);
  const less = 10 ** (feedbackDb / 20);
  const sensitivityWithoutFeedbackVrms = (links[0]?.inputVrms ?? 0) / atInput;
  const sensitivityVrms = sensitivityWithoutFeedbackVrms * less;
  const open = stages.reduce(
    (product, { gain }) => product * gain,
    (atInput * speakerVrms) / last.largestVrms,
  );
  const figures = {
    links,
    sourceV,
    inputVrms: sensitivityVrms * atInput,
    feedbackDb,
    sensitivityVrms,
    sensitivityWithoutFeedbackVrms,
    marginDb: decibels(sourceV / sensitivityVrms),
    ...path,
    speakerVrms,
    speakerOhm,
    powerW: speakerOhm === null ? null : speakerVrms ** 2 / speakerOhm,
    gainDb: decibels(open / less),
    firstToRunOut: firstOf(links).stage,
  };
  const absent = speakerOhm === null ? { powerW: noSpeaker() } : {};
  return { ...figures, explanation: explainChain(figures), absent };
}

/** A stage's own transformer decides; otherwise an ideal one, of the stated turns ratio or of the one that the load needs. */
function outputPath(
  chain: ChainDescription,
  { primaryOhm, largestVrms, transformer }: StageTransfer,
): OutputPath {
  if (transformer) return transformer;
  const { speakerOhm, turnsRatio: stated } = chain;
  const needed = primaryOhm === null || speakerOhm === null ? null : turnsRatio(primaryOhm, speakerOhm);
  const ratio = stated ?? needed;
  return { turnsRatio: ratio, speakerVrms: largestVrms / (ratio ?? 1), speakerOhm };
}

/** From the last stage, at its largest output, back to the first. */
function linksOf(stages: readonly NamedTransfer[]): ChainLink[] {
  const links: ChainLink[] = [];
  let wantedVrms: number | null = null;
  for (const stage of [...stages].reverse()) {
    const link = linkOf(stage, wantedVrms);
    links.unshift(link);
    wantedVrms = link.inputVrms;
  }
  return links;
}

/** The last stage, for which nothing is wanted, gives all it can. */
function linkOf(stage: NamedTransfer, wantedVrms: number | null): ChainLink {
  const { id, gain, largestVrms, driveVrms, limitedBy } = stage;
  const own = wantedVrms === null;
  const outputVrms = wantedVrms ?? largestVrms;
  return {
    stage: id,
    gain,
    inputVrms: own ? driveVrms : outputVrms / gain,
    outputVrms,
    largestVrms,
    limitedBy,
    headroomDb: own ? 0 : decibels(largestVrms / outputVrms),
  };
}

const firstOf = (links: readonly ChainLink[]): ChainLink =>
  links.reduce((least, link) => (link.headroomDb <= least.headroomDb ? link : least));

const decibels = (ratio: number) => 20 * Math.log10(ratio);

/**
 * Level change in dB that makes an alternative as loud as another from the same source: the other's gain less its own.
 * @source equal voltage at the speaker
 */
export function trimDb(own: Pick<ChainSheet, 'gainDb'>, other: Pick<ChainSheet, 'gainDb'>): number {
  return other.gainDb - own.gainDb;
}
