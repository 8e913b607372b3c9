import type { DescribedSheet } from '../chain/chain-link.ts';
import type {
  CurrentDrawn,
  HumRow,
  LoadFault,
  SagRow,
  StageContext,
  SupplyDescription,
  SupplySheet,
  TubeLibrary,
} from '../types.ts';
import { drawnRows } from './drawn.ts';
import { heaterSheets, heaterWarnings } from './heaters.ts';
import { humOf } from './hum.ts';
import { sectionsOf } from './ripple.ts';
import { type Feed, isPowerStage, saggedStage } from './sag.ts';
import * as messages from './supply-messages.ts';
import { explainStages } from './supply-stages-explanation.ts';

/** By how much the current drawn may miss the stated one before a warning. */
const currentTolerance = 0.25;

interface Fed {
  supply: SupplyDescription;
  stages: readonly DescribedSheet[];
  tubes: TubeLibrary;
}

/** Adds to a supply's sheet what its stages and heaters draw from it, and what its ripple does to them. */
export function supplyWithStages(
  sheet: SupplySheet,
  fed: Fed,
): { sheet: SupplySheet; problems: LoadFault[] } {
  const heaters = heaterSheets(fed.supply.heaters ?? [], fed.tubes);
  const { drawn, lost } = currentDrawn(fed);
  const hum = humRows(sheet, fed);
  const found = { ...sheet, heaters, drawn, hum };
  const absent = {
    ...sheet.absent,
    ...(drawn ? {} : { drawn: messages.noDrawn() }),
    ...(drawn && (drawn.restV === null || drawn.fullV === null)
      ? { 'drawn.fullV': messages.noSagVoltage() }
      : {}),
    ...(lost.length > 0 ? { 'drawn.sag': messages.noSag(lost.join(', ')) } : {}),
    ...(hum.length > 0 ? {} : { hum: sheet.ripple ? messages.noOutputStage() : messages.noHum() }),
    ...Object.fromEntries(hum.flatMap(({ stage, absent: why }) => (why ? [[`hum of ${stage}`, why]] : []))),
  };
  return {
    sheet: { ...found, explanation: [...sheet.explanation, ...explainStages(found)], absent },
    problems: [...currentWarnings(drawn), ...unknownFeeds(fed), ...heaterWarnings(heaters)],
  };
}

function currentDrawn(fed: Fed): { drawn: CurrentDrawn | null; lost: string[] } {
  const { rows, unknown } = drawnRows(fed.supply, fed.stages);
  if (rows.every(({ stage }) => stage === null)) return { drawn: null, lost: [] };
  const restA = rows.reduce((total, row) => total + row.restA, 0);
  const fullA = rows.reduce<number | null>(
    (total, row) => (total === null || row.fullA === null ? null : total + row.fullA),
    0,
  );
  const { currentA: statedA } = fed.supply;
  const { sag, lost } = sagRows(fed, { rows, restA, fullA });
  const drawn = {
    ...{ rows, restA, fullA, statedA, unknown },
    differenceRatio: statedA === null || statedA === 0 ? null : (restA - statedA) / statedA,
    ...voltages(fed, { restA, fullA }),
    sag,
  };
  return { drawn, lost };
}

/** The supply at the place that feeds the output stage, re its stated voltage at its stated current. */
function voltages({ supply, stages }: Fed, { restA, fullA }: Pick<CurrentDrawn, 'restA' | 'fullA'>) {
  const { plateV, currentA } = supply;
  const output = stages.find(({ description }) => isPowerStage(description));
  const ohm = output ? feedOhm(supply, output.sheet.id) : supply.sourceResistanceOhm;
  if (plateV === null || currentA === null || ohm === null) return { restV: null, fullV: null };
  const at = (drawnA: number) => plateV + (currentA - drawnA) * ohm;
  const above = (value: number) => (value > 0 ? value : null);
  return { restV: above(at(restA)), fullV: fullA === null ? null : above(at(fullA)) };
}

/** From the rectifier to a stage; null without source resistance. */
function feedOhm(supply: SupplyDescription, stage: string): number | null {
  const { sourceResistanceOhm } = supply;
  if (sourceResistanceOhm === null) return null;
  const sections = sectionsOf(supply).slice(0, feedingPoint(supply, stage));
  return sections.reduce((total, { capacitor }) => total + (capacitor.seriesOhm ?? 0), sourceResistanceOhm);
}

/** How many filter sections lie before a stage: all where nothing is said. */
function feedingPoint(supply: SupplyDescription, stage: string): number {
  const sections = sectionsOf(supply);
  const named = sections.findIndex(({ capacitor }) => capacitor.feeds?.includes(stage));
  if (named >= 0) return named + 1;
  return supply.capacitors.some(({ feeds }) => feeds?.includes(stage)) ? 0 : sections.length;
}

function sagRows(
  { supply, stages, tubes }: Fed,
  { rows, restA, fullA }: Pick<CurrentDrawn, 'rows' | 'restA' | 'fullA'>,
): { sag: SagRow[]; lost: string[] } {
  const sag: SagRow[] = [];
  const lost: string[] = [];
  for (const stage of stages) {
    const { id } = stage.sheet;
    const ohm = feedOhm(supply, id);
    const own = rows.find((row) => row.stage === id)?.fullA ?? null;
    if (!isPowerStage(stage.description) || ohm === null || own === null || fullA === null) continue;
    const feed: Feed = { restA, othersA: fullA - own, channels: supply.channels ?? 1, ohm };
    const found = saggedStage(stage, { supply, tubes }, feed);
    if (found) sag.push(found);
    else lost.push(id);
  }
  return { sag, lost };
}

function humRows({ ripple }: SupplySheet, { supply, stages, tubes }: Fed): HumRow[] {
  if (!ripple) return [];
  const context: StageContext = { supply, tubes };
  return stages.flatMap((stage) => {
    const at = ripple.points[feedingPoint(supply, stage.sheet.id)] ?? ripple.points.at(-1);
    const row = at ? humOf(stage, context, at.rippleVrms) : null;
    return row ? [row] : [];
  });
}

function currentWarnings(drawn: CurrentDrawn | null): LoadFault[] {
  if (!drawn || drawn.differenceRatio === null || drawn.statedA === null) return [];
  const known = drawn.unknown.length === 0 || drawn.differenceRatio > 0;
  return known && Math.abs(drawn.differenceRatio) > currentTolerance
    ? [messages.currentDiffers(drawn.statedA, drawn.restA)]
    : [];
}

function unknownFeeds({ supply, stages }: Fed): LoadFault[] {
  const known = stages.map(({ sheet }) => sheet.id);
  return supply.capacitors.flatMap(({ feeds = [] }, index) =>
    feeds.flatMap((id, place) =>
      known.includes(id) ? [] : [messages.unknownFed(['capacitors', index, 'feeds', place], id, known)],
    ),
  );
}
