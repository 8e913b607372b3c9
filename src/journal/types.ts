import type { Capture, CaptureDeclaration, CaptureKind } from '../capture/index.ts';
import type { Conformity, Judgement } from '../compare/index.ts';
import type {
  AmplifierOutput,
  DeclaredRepeatability,
  Figure,
  Measurement,
  RepeatSummary,
} from '../figures/index.ts';
import type { LevelMatch, SessionResult } from '../listening/index.ts';
import type { LoadSheet, StageDiagram, TubeLibrary } from '../load/index.ts';
import type { Place } from '../problem/index.ts';
import type { Subtraction } from '../signal/index.ts';
import type { Analysis } from './analysis/analyse.ts';
import type { Compared } from './comparisons/comparisons.ts';
import type {
  AmplifierData,
  CaptureData,
  ClaimData,
  ComparisonData,
  DecisionData,
  JournalSettings,
  ListeningData,
  LogData,
  PageData,
  PartData,
  RepeatData,
  StatedLimits,
  UnitData,
  VersionData,
} from './schemas/index.ts';
import type { DescribedStages } from './stages/sheets.ts';
import type { Bill } from './versions/bill.ts';

/** A heading of a record's prose, for contents lists and anchors. */
export interface Heading {
  depth: number;
  slug: string;
  text: string;
}

/** A chart or summary that an author placed in the prose. */
export interface Mention {
  name: 'chart' | 'summary';
  capture: string;
  kind: string | null;
  channel: string | null;
  place: Place;
}

/** A figure that an author named in running text. */
export interface FigureMention {
  figure: string;
  of: string;
  place: Place;
}

/** A link to a place on a page. */
export interface FragmentMention {
  /** Id of the record or capture, or path of another page. */
  page: string;
  /** What stands behind the #, decoded. */
  fragment: string;
  /** The link as it is written. */
  written: string;
  place: Place;
}

/** The body of a record. `html` is null for MDX, which is compiled while the site is built. */
export interface Prose {
  format: 'md' | 'mdx';
  body: string;
  bodyLine: number;
  html: string | null;
  headings: Heading[];
  /** Where each of them is written. */
  headingPlaces: Place[];
  imagePaths: string[];
  mentions: Mention[];
  figures: FigureMention[];
  fragments: FragmentMention[];
}

/** What every record has: its id is the file's path without extension. */
interface RecordBase<Data> {
  id: string;
  /** Path relative to the journal's folder, with forward slashes. */
  file: string;
  data: Data;
  prose: Prose;
}

export interface Amplifier extends RecordBase<AmplifierData> {
  versions: Version[];
}

export interface Version extends RecordBase<VersionData> {
  amplifier: string;
  /** Computed from stages and supply; null where the record gives neither. */
  sheet: LoadSheet | null;
  /** What the plate-curve chart of each stage draws, in the order of the stages. */
  diagrams: (StageDiagram | null)[];
  /** What the sheet was computed from; null without one. */
  described: DescribedStages | null;
  bill: Bill;
}

/** A capture of a unit; of one with several channels the one that shows it. */
export interface UnitCapture {
  capture: CaptureRecord;
  channel: string | null;
}

/** One value that was read on a unit, or the lack of it, beside the limits stated for it. */
export interface UnitRow {
  /** The same for every unit of a version. */
  key: string;
  /** Name of the reading, or channel of the figure. */
  name: string;
  /** Id of the figure; null for a reading. */
  figure: string | null;
  limits: StatedLimits;
  value: number | null;
  low?: number;
  high?: number;
  unit: string;
  /** The value as it was written, or printed with its interval. */
  text: string;
  /** Where it is not that of the record. */
  date: string | null;
  done: string | null;
  capture: { id: string; title: string } | null;
  /** False for one that was read again. */
  counts: boolean;
  verdict: Conformity | 'no limit';
}

/** What the values of a unit say together. */
export type UnitOutcome = Conformity | 'no limits';

/** One built unit of a version. */
export interface Unit extends RecordBase<UnitData> {
  amplifier: string;
  /** Captures taken of it. */
  taken: UnitCapture[];
  rows: UnitRow[];
  outcome: UnitOutcome;
}

/** A thing that an amplifier is made of. */
export type Part = RecordBase<PartData>;

export interface Log extends RecordBase<LogData> {
  captures: CaptureRecord[];
  repeats: Repeats[];
  expectations: JudgedClaim[];
  /** The figures the author chose for the top of the page, in order. */
  keyFigures: KeyFigure[];
}

/** A question with its options, and what its evidence says today. */
export interface Decision extends RecordBase<DecisionData> {
  /** The four digits its file begins with. */
  number: string;
  expectations: JudgedClaim[];
  evidence: JudgedClaim[];
  /** True for a decision in force of which some evidence is not borne out. */
  isBroken: boolean;
}

/** What was measured of one alternative in a band. */
export interface MeasuredBand {
  /** Id of the alternative, and of its capture. */
  of: string;
  capture: string;
  /** Energy mean of total distortion over the band, a plain ratio. */
  thd: number;
}

/** What was heard in one band beside what was measured there. */
export interface HeardBand {
  bandHz: [number, number];
  notes: ListeningData['notes'];
  /** Nominal middles of the octaves that the means are taken over; empty where all alternatives share none. */
  octavesHz: number[];
  measured: MeasuredBand[];
}

/** Two alternatives that were listened to, and what that can and cannot show. */
export interface ListeningSession extends RecordBase<ListeningData> {
  result: SessionResult;
  /** Null where it is not on record. */
  levels: LevelMatch | null;
  /** Whether the order was sealed beforehand: not, still so, or verified against the unsealed key file. */
  sealing: 'not sealed' | 'sealed' | 'verified';
  /** From the lowest band to the highest. */
  heard: HeardBand[];
}

/** Alternatives side by side, and what their captures say about them. */
export interface Comparison extends RecordBase<ComparisonData> {
  compared: Compared;
}

/** A page of the maker's own. */
export type Page = RecordBase<PageData>;

/** What a claim names: where it is shown, and the captures that it rests on by id. */
export interface ClaimSource {
  title: string;
  page: string;
  anchor: string;
  captures: string[];
}

/** A claim held against the figures of the journal. */
export interface JudgedClaim {
  data: ClaimData;
  /** Id of the record that makes it, and its place on that page. */
  record: string;
  anchor: string;
  date: string;
  of: ClaimSource | null;
  than: ClaimSource | null;
  judgement: Judgement;
  /** True where it holds; of equality, as long as no difference shows. */
  isBorneOut: boolean;
}

/** A figure at the top of a log, and where it is shown in full. */
export interface KeyFigure {
  figure: Figure;
  /** Title of the capture, or of the repeats. */
  title: string;
  /** Id of the record whose page it is on, and the place on that page. */
  page: string;
  anchor: string;
}

/** Captures of one thing, taken anew each time, and what they say together. */
export interface Repeats extends RepeatSummary {
  data: RepeatData;
  captures: CaptureRecord[];
  /** Place on the log's page. */
  anchor: string;
}

/** One capture of a log, read and analysed once for every page that shows it. */
export interface CaptureRecord {
  /** `<log id>/<name>`. */
  id: string;
  name: string;
  /** Path of the CSV file relative to the journal's folder. */
  file: string;
  sha256: string;
  bytes: number;
  data: CaptureData;
  declaration: CaptureDeclaration;
  kind: CaptureKind;
  capture: Capture;
  analysis: Analysis;
  figures: Figure[];
  /** The instrument and what it took; null where the log names none. */
  measurement: Measurement | null;
  /** How far its figures scatter when set up anew, as its log declares. */
  repeatability: readonly DeclaredRepeatability[];
  /** What the figures say together, in full sentences. */
  findings: string[];
  /** What was added between stimulus and response, where a sweep of the gain between them is named. */
  subtraction: Subtraction | null;
  /** What an amplifier's output does, where this capture shows it. */
  output: AmplifierOutput | null;
  /** Warnings about this capture, in full sentences. */
  warnings: string[];
  log: string;
  version: string | null;
}

/** A whole journal, resolved: every reference points at something that exists. */
export interface Journal {
  folder: string;
  settings: JournalSettings;
  amplifiers: Amplifier[];
  versions: Version[];
  units: Unit[];
  parts: Part[];
  /** By number. */
  decisions: Decision[];
  /** Newest first. */
  listening: ListeningSession[];
  /** Newest first. */
  comparisons: Comparison[];
  /** Newest first. */
  logs: Log[];
  /** In the order in which they are listed. */
  pages: Page[];
  tubes: TubeLibrary;
  /** Every file of the folder, relative to it. */
  files: string[];
}
