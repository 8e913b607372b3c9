import {
  type Claim,
  type ClaimPair,
  exactly,
  isBorneOut,
  type Judgement,
  judgeClaim,
  marginOf,
  noData,
  suits,
  unitOf,
} from '../../compare/index.ts';
import type { Figure, Measured } from '../../figures/index.ts';
import { type Fault, type Problem, problemAt } from '../../problem/index.ts';
import type { RawRecord } from '../records.ts';
import type { ClaimData } from '../schemas/index.ts';
import type { ClaimSource, JudgedClaim } from '../types.ts';
import { claimMessages as messages } from './claim-messages.ts';
import { type FigureSource, figureOf, findSource, type NamingContext } from './figure-sources.ts';
import { termsOf } from './figure-terms.ts';
import { placeText, type SweepAxis, type SweepReader, sweepReader } from './sweep-reader.ts';

/** A list of claims in a record. */
export interface ClaimList {
  record: Pick<RawRecord<{ date: string }>, 'id' | 'data' | 'yaml'>;
  key: 'expectations' | 'evidence';
  claims: readonly ClaimData[];
}

/** What claims are held against. */
export interface ClaimContext extends Omit<NamingContext, 'record'> {
  /** Date of every log by its id. */
  dates: ReadonlyMap<string, string>;
}

type Key = 'of' | 'than' | 'against' | 'by' | 'figure' | 'at' | 'over';

/** Holds every claim of a list against the figures of the journal; what cannot be judged is a problem at its key. */
export function judgeClaims(
  { record, key, claims }: ClaimList,
  context: ClaimContext,
): { claims: JudgedClaim[]; problems: Problem[] } {
  const naming = { ...context, record: record.id };
  const judged = claims.map((data, index) => {
    const found = judge(data, naming);
    if ('fault' in found) {
      return { problems: [problemAt(record.yaml.placeOf([key, index, found.at]), found.fault)] };
    }
    const anchor = `${key === 'evidence' ? key : 'expectation'}-${data.id ?? index + 1}`;
    const date = data.date ?? record.data.date;
    const claim: JudgedClaim = { ...found, data, anchor, record: record.id, date };
    const measured = key === 'expectations' ? measuredBefore(claim, context) : null;
    const place = record.yaml.placeOf([key, index, data.date === undefined ? 'says' : 'date']);
    const problems = measured === null ? [] : [problemAt(place, messages.late(date, measured))];
    return { claim, problems };
  });
  return {
    claims: judged.flatMap(({ claim }) => claim ?? []),
    problems: judged.flatMap(({ problems }) => problems),
  };
}

/** The date on which what an expectation is about was measured, where that was before it was written. */
function measuredBefore({ date, of }: JudgedClaim, { dates }: ClaimContext): string | null {
  const measured = (of?.captures ?? []).flatMap((id) => dates.get(id.slice(0, id.lastIndexOf('/'))) ?? []);
  return measured.find((day) => day < date) ?? null;
}

type Found = Pick<JudgedClaim, 'of' | 'than' | 'judgement' | 'isBorneOut'>;
type Refused = { fault: Fault; at: Key };

function judge(data: ClaimData, naming: NamingContext): Found | Refused {
  const of = sideOf(data, 'of', naming);
  const than = sideOf(data, 'than', naming);
  if (of && 'fault' in of) return of;
  if (than && 'fault' in than) return than;
  const places = placesOf(data, of, than);
  if ('fault' in places) return places;
  const unsuited = of ? unsuitedTo(data, of.sample(places.all[0] ?? null)) : null;
  if (unsuited) return unsuited;
  const claim: Claim = { relation: data.relation, margin: marginOf(data.by) };
  const judgement = judgementOf(claim, { data, of, than, places });
  return {
    of: of?.named ?? null,
    than: than?.named ?? null,
    ...{ judgement, isBorneOut: isBorneOut(claim, judgement) },
  };
}

/** One side of a claim: a figure as it is, or one that is read from a sweep. */
interface Side {
  source: FigureSource;
  named: ClaimSource;
  reader: SweepReader | null;
  sample(place: number | null): Measured;
}

/** A side; null where it is not stated, or could not be read, which is told elsewhere. */
function sideOf(data: ClaimData, key: 'of' | 'than', naming: NamingContext): Side | Refused | null {
  const written = data[key];
  if (written === undefined) return null;
  const found = findSource(written, naming);
  if (found === null) return null;
  if ('fault' in found) return { fault: found.fault, at: key };
  const { source, part } = found;
  const named = {
    ...{ title: source.title, page: source.page, captures: source.captures },
    anchor: source.anchor ?? part ?? 'content',
  };
  const axis = axisOf(data);
  const reader = axis && sweepReader(source, part, data.figure, axis);
  if (reader && 'fault' in reader) return { fault: reader.fault, at: reader.at === 'of' ? key : 'figure' };
  const { over, take } = data;
  if (reader && over && take) return { source, named, reader, sample: () => reader.mean(over) };
  if (reader) return { source, named, reader, sample: (place) => reader.at(place ?? 0) };
  const figure = figureOf(source, part, data.figure);
  if ('fault' in figure) return { fault: figure.fault, at: figure.at === 'of' ? key : 'figure' };
  return { source, named, reader: null, sample: () => figure.measured };
}

function axisOf({ at, over }: ClaimData): SweepAxis | null {
  if (over) return 'frequency';
  return at ? ('frequency' in at ? 'frequency' : 'power') : null;
}

interface Places {
  axis: SweepAxis | null;
  all: number[];
}

/** Where sweeps are read; a place is refused where neither side is a sweep. */
function placesOf(data: ClaimData, of: Side | null, than: Side | null): Places | Refused {
  const axis = axisOf(data);
  const reader = of?.reader ?? than?.reader ?? null;
  if (axis === null || (!of && !than)) return { axis, all: [] };
  if (!reader) {
    const fault = messages.noSweep((of ?? than)?.source.id ?? '', axis);
    return { fault, at: data.over ? 'over' : 'at' };
  }
  if (data.over) return { axis, all: data.take ? [] : reader.within(data.over) };
  return { axis, all: data.at ? Object.values(data.at) : [] };
}

/** What is wrong with the values of a claim for this figure. */
function unsuitedTo({ against, by }: ClaimData, { figure }: Measured): Refused | null {
  const wanted = unitOf(figure);
  if (against && against.unit !== wanted && !(against.unit === '1' && wanted === '')) {
    return { fault: messages.unit(against.unit, wanted), at: 'against' };
  }
  const margin = marginOf(by);
  return margin && !suits(margin, figure) ? { fault: messages.margin(), at: 'by' } : null;
}

interface Question {
  data: ClaimData;
  of: Side | null;
  than: Side | null;
  places: Places;
}

function judgementOf(claim: Claim, { data, of, than, places }: Question): Judgement {
  if (!of) return noData(data.of === undefined ? 'It is not measured yet.' : notRead(data.of));
  if (!than && data.than !== undefined) return noData(notRead(data.than));
  const stops: (number | null)[] = places.all.length > 0 ? places.all : [null];
  const pairs = stops.map((place): ClaimPair => {
    const measured = of.sample(place);
    const reference = than ? than.sample(place) : statedAs(measured.figure, data.against?.value ?? null);
    const at = place === null || places.axis === null ? null : placeText(place, places.axis);
    return { at, ...meanOf(data), of: measured, reference };
  });
  return onOneTerm(of, than, pairs) ?? judgeClaim(claim, pairs);
}

/** The band of a mean, as it is printed. */
const meanOf = ({ over, take }: ClaimData): { mean?: string } =>
  over && take ? { mean: over.map((hertz) => placeText(hertz, 'frequency')).join(' to ') } : {};

const notRead = (name: string) => `"${name}" could not be read.`;

/** A stated value as a figure of the same kind as the one it is compared with. */
function statedAs({ id, unit, provenance }: Figure, value: number | null): Measured {
  return exactly({
    id,
    value,
    unit,
    conditions: {},
    provenance: { ...provenance, lines: null, sha256: null },
  });
}

/** The judgement that there are no data where figures of one name are two quantities; null where they are one. */
function onOneTerm(of: Side, than: Side | null, pairs: readonly ClaimPair[]): Judgement | null {
  const [pair] = pairs;
  if (!pair || !than?.source.capture || !of.source.capture) return null;
  const one = termsOf(pair.of.figure, of.source.capture);
  const other = termsOf(pair.reference.figure, than.source.capture);
  return one === other ? null : noData(`They are taken on different terms: ${one}, and ${other}.`);
}
