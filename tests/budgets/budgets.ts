/** What is counted of a page; weights are in kB of 1000 bytes. */
export type Counted = 'firstView' | 'script' | 'codeUnasked' | 'codeAsked' | 'shift' | 'paintMs';

export interface Budget {
  /** A name of `pageKinds`. */
  page: string;
  counted: Counted;
  /** The most that is allowed, in the unit of what is counted. */
  most: number;
  /** Why it is this number and no other. */
  reason: string;
}

const onPhone = 'in 0.75 s over the 1.6 Mbit/s of a slow phone connection';
const readable = 'a page is read without script: it only remembers colours and waits for a press';
const unasked = 'the code of charts comes when a reader presses for it';
const still = 'nothing that a reader looks at moves when fonts arrive';
const atOnce =
  'text within a second of the request, on a phone four times slower than the machine that measures';

/** Every budget of the site. A number is changed here, with its reason. */
export const budgets: readonly Budget[] = [
  { page: 'log with maths', counted: 'firstView', most: 150, reason: `six charts and formulas ${onPhone}` },
  { page: 'log with maths', counted: 'script', most: 20, reason: readable },
  { page: 'log with maths', counted: 'codeUnasked', most: 0, reason: unasked },
  { page: 'log with maths', counted: 'shift', most: 0, reason: still },
  { page: 'log with maths', counted: 'paintMs', most: 1000, reason: atOnce },
  {
    page: 'home',
    counted: 'firstView',
    most: 100,
    reason: 'a list and the fonts, in 0.5 s over the same connection',
  },
  { page: 'home', counted: 'shift', most: 0, reason: still },
  { page: 'log', counted: 'firstView', most: 150, reason: `the heaviest log ${onPhone}` },
  { page: 'log', counted: 'script', most: 20, reason: readable },
  {
    page: 'log',
    counted: 'codeAsked',
    most: 20,
    reason: 'a cursor on curves that are drawn already is no drawing library',
  },
  {
    page: 'capture',
    counted: 'firstView',
    most: 150,
    reason: `every chart and table of one capture ${onPhone}`,
  },
  { page: 'capture', counted: 'script', most: 20, reason: readable },
  { page: 'capture', counted: 'shift', most: 0, reason: still },
  { page: 'version', counted: 'firstView', most: 150, reason: `load sheets of all stages ${onPhone}` },
  { page: 'version', counted: 'script', most: 20, reason: readable },
  { page: 'version', counted: 'shift', most: 0, reason: still },
  { page: 'comparison', counted: 'firstView', most: 150, reason: `all pairs of curves ${onPhone}` },
  { page: 'comparison', counted: 'script', most: 20, reason: readable },
  {
    page: 'methods',
    counted: 'firstView',
    most: 150,
    reason: `all methods with all formulas ${onPhone}`,
  },
  {
    page: 'overlay',
    counted: 'script',
    most: 170,
    reason: 'as much as a drawing library with charts compiled ahead would take',
  },
  {
    page: 'search',
    counted: 'script',
    most: 20,
    reason: 'the reader of the index; what it reads comes with the first word that is looked for',
  },
];
