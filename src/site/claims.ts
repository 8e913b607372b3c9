import { askedText, marginOf } from '../compare/index.ts';
import { definitionOf, figureText } from '../figures/index.ts';
import type { ClaimSource, Decision, Journal, JudgedClaim } from '../journal/types.ts';
import { quantityText } from '../quantity/index.ts';

/** A claim with the title of the record that makes it, and the amplifier that this is about. */
interface TitledClaim {
  claim: JudgedClaim;
  title: string;
  amplifier: string;
}

type Claiming = Pick<Journal, 'logs' | 'decisions'>;

/** Every expectation of the journal, the oldest first. */
function allExpectations({ logs, decisions }: Claiming): TitledClaim[] {
  return [...logs, ...decisions]
    .flatMap(({ data, expectations }) => titled(expectations, data))
    .sort((a, b) => (a.claim.date < b.claim.date ? -1 : 1));
}

const titled = (
  claims: readonly JudgedClaim[],
  { title, amplifier }: { title: string; amplifier: string },
): TitledClaim[] => claims.map((claim) => ({ claim, title, amplifier }));

/** Expectations that put one rule to the test across the journal, and what came of it each time. */
export interface Rule {
  claims: TitledClaim[];
  /** The amplifiers that it was tested on, by id. */
  amplifiers: string[];
  held: number;
  failed: number;
}

/** The expectations by rule, those met most often first; one that names no rule stands alone. */
export function rulesOf(journal: Claiming): Rule[] {
  const groups = new Map<string, TitledClaim[]>();
  for (const one of allExpectations(journal)) {
    const { data, record, anchor } = one.claim;
    const key = data.rule ?? `${record}#${anchor}`;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()].map(ruleOf).sort((a, b) => b.claims.length - a.claims.length);
}

const ruleOf = (claims: TitledClaim[]): Rule => ({
  claims,
  amplifiers: [...new Set(claims.map(({ amplifier }) => amplifier))],
  held: claims.filter(({ claim }) => claim.isBorneOut).length,
  failed: claims.filter(({ claim }) => claim.judgement.outcome === 'does not hold').length,
});

/** "held 2 of 3, failed 1"; what is left over was not decided. */
export function recordText({ claims, held, failed }: Omit<Rule, 'amplifiers'>): string {
  const undecided = claims.length - held - failed;
  const parts = [`held ${held} of ${claims.length}`, `failed ${failed}`];
  return [...parts, ...(undecided > 0 ? [`not decided ${undecided}`] : [])].join(', ');
}

/** The expectations and evidence that rest on a capture. */
export const claimsAbout = (capture: string, journal: Claiming): TitledClaim[] =>
  claimsWhere(journal, ({ captures }) => captures.includes(capture));

/** The expectations and evidence that rest on the load sheet of a version. */
export const claimsOfSheet = (version: string, journal: Claiming): TitledClaim[] =>
  claimsWhere(journal, ({ page }) => page === version);

function claimsWhere(journal: Claiming, isMeant: (source: ClaimSource) => boolean): TitledClaim[] {
  const evidence = journal.decisions.flatMap((decision) => titled(decision.evidence, decision.data));
  return [...allExpectations(journal), ...evidence].filter(({ claim }) => restsOn(claim, isMeant));
}

const restsOn = ({ of, than }: JudgedClaim, isMeant: (source: ClaimSource) => boolean): boolean =>
  [of, than].some((source) => source !== null && isMeant(source));

/** Decisions that have claims about captures of a log. */
export const decisionsOn = (log: string, { decisions }: Pick<Journal, 'decisions'>): Decision[] =>
  decisions.filter(({ expectations, evidence }) =>
    [...expectations, ...evidence].some((claim) =>
      restsOn(claim, ({ captures }) => captures.some((id) => id.startsWith(`${log}/`))),
    ),
  );

/** What a claim asks, in words that its reference follows: "Second harmonic at 1.00 kHz at least 10 dB lower than". */
export function claimText({ data: { figure, at, over, take, relation, by } }: JudgedClaim): string {
  const name = definitionOf(figure)?.name ?? figure;
  const place = at
    ? 'frequency' in at
      ? quantityText(at.frequency, 'Hz')
      : quantityText(at.power, 'W')
    : '';
  const band = over ? over.map((hertz) => quantityText(hertz, 'Hz')).join(' to ') : '';
  if (take) return `${name}, mean from ${band}, ${askedText({ relation, margin: marginOf(by) })}`;
  const where = place !== '' ? ` at ${place}` : band !== '' ? ` from ${band}` : '';
  return `${name}${where} ${askedText({ relation, margin: marginOf(by) })}`;
}

/** The value that a claim compares with, as it is printed; null for one that names another figure. */
export function statedText({ data: { figure, against } }: JudgedClaim): string | null {
  if (!against) return null;
  const provenance = { file: '', sha256: null, lines: null, method: '', settings: {} };
  return figureText({ id: figure, value: against.value, unit: against.unit, conditions: {}, provenance });
}

/** Which way a decision was taken, for lists: its state, and what is wrong with its evidence. */
export function stateText({ data, isBroken }: Pick<Decision, 'data' | 'isBroken'>): string {
  if (data.dangerous) return 'withdrawn as dangerous';
  return isBroken ? `${data.state}, but its evidence is not borne out` : data.state;
}
