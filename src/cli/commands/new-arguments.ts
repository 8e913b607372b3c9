import { mostTrials, type Task } from '../../listening/index.ts';
import { nearestNames } from '../../problem/index.ts';
import { readArguments, UsageFault, wholeNumber } from '../arguments.ts';

/** A listening session to be written, as the command line asks for it. */
export interface NewSession {
  kind: 'listening';
  journal: string;
  /** Folder for the key and the trial sheet; it must not be one that the listener looks into. */
  sealed: string;
  /** The record's name, with or without its date: `two-drivers`. */
  name: string;
  task: Task;
  trials: number;
  alternatives: [string, string];
}

/** A log to be written, as the command line asks for it. */
export interface NewLog {
  kind: 'log';
  journal: string;
  title: string;
  /** Capture files to be copied beside it, as written. */
  captures: string[];
}

/** A page of the maker's own to be written, as the command line asks for it. */
export interface NewPage {
  kind: 'page';
  journal: string;
  title: string;
}

/** Kinds of record that can be begun by command, with the options that each takes. */
const optionsOf: Readonly<Record<string, readonly string[]>> = {
  listening: ['journal', 'sealed', 'trials', 'task', 'alternatives'],
  log: ['journal', 'captures'],
  page: ['journal'],
};

const kinds = Object.keys(optionsOf);

const tasks: readonly Task[] = ['discrimination', 'preference'];

const word = /^[a-z0-9][a-z0-9-]*$/;

/** Reads the words after `new`. */
export function newArguments(args: string[]): NewSession | NewLog | NewPage {
  const { values, positionals } = readArguments(args, {
    journal: { type: 'string' },
    sealed: { type: 'string' },
    trials: { type: 'string' },
    task: { type: 'string' },
    alternatives: { type: 'string' },
    captures: { type: 'string', multiple: true },
  });
  const [kind, ...words] = positionals;
  const known = kindOf(kind);
  const strange = Object.keys(values).find((option) => !optionsOf[known]?.includes(option));
  if (strange !== undefined) throw new UsageFault(`new ${known} takes no option "--${strange}".`);
  const { journal = 'content', captures } = values;
  if (known === 'log') return { kind: 'log', journal, ...titleAndCaptures(words, captures) };
  if (known === 'page') return { kind: 'page', journal, title: titleOf(words, known) };
  const { sealed = 'sealed', trials = '16', task = 'discrimination', alternatives = 'a,b' } = values;
  return {
    ...{ kind: 'listening', journal, sealed, name: nameOf(words) },
    task: taskOf(task),
    trials: wholeNumber(trials, 'trials', [1, mostTrials]),
    alternatives: alternativesOf(alternatives),
  };
}

function kindOf(kind: string | undefined): string {
  if (kind === undefined)
    throw new UsageFault(
      'new needs a kind and a name: quiescent new log "Title", or new page "Title", or new listening NAME',
    );
  if (kinds.includes(kind)) return kind;
  const [near] = nearestNames(kind, kinds);
  const hint = near === undefined ? `There are: ${kinds.join(', ')}.` : `Did you mean ${near}?`;
  throw new UsageFault(`new cannot begin a record of the kind "${kind}". ${hint}`);
}

/** A shell makes several words of `--captures *.csv`: the words behind the title are captures too. */
function titleAndCaptures([title = '', ...more]: readonly string[], captures: readonly string[] = []) {
  const words = captures.length > 0 ? [title] : [title, ...more];
  return { title: titleOf(words, 'log'), captures: captures.length > 0 ? [...captures, ...more] : [] };
}

function titleOf([title = '', ...more]: readonly string[], kind: 'log' | 'page'): string {
  const example = `quiescent new ${kind} "Title"${kind === 'log' ? ' --captures FILE …' : ''}`;
  if (title.trim() === '') throw new UsageFault(`new ${kind} needs a title: ${example}`);
  if (more.length === 0) return title.trim();
  throw new UsageFault(`new ${kind} takes one title in quotes, but "${more.join(' ')}" follows.`);
}

function nameOf([name, ...rest]: readonly string[]): string {
  if (name === undefined) throw new UsageFault('new listening needs a name: quiescent new listening NAME');
  if (rest.length > 0) throw new UsageFault(`new listening takes one name, but "${rest.join(' ')}" follows.`);
  if (word.test(name)) return name;
  throw new UsageFault(
    `A name has small letters, digits and hyphens, such as two-drivers, unlike "${name}".`,
  );
}

function taskOf(text: string): Task {
  const task = tasks.find((one) => one === text);
  if (task) return task;
  throw new UsageFault(`--task takes one of ${tasks.join(', ')}, not "${text}".`);
}

function alternativesOf(text: string): [string, string] {
  const [first = '', second = '', ...rest] = text.split(',').map((part) => part.trim());
  if (rest.length === 0 && word.test(first) && word.test(second) && first !== second) return [first, second];
  throw new UsageFault(`--alternatives takes two different short names, such as old,new, not "${text}".`);
}
