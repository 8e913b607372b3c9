import { mostTrials, type Task } from '../../listening/index.ts';
import { nearestNames } from '../../problem/index.ts';
import { readArguments, UsageFault, wholeNumber } from '../arguments.ts';

/** A listening session to be written, as the command line asks for it. */
export interface NewSession {
  journal: string;
  /** Folder for the key and the trial sheet; it must not be one that the listener looks into. */
  sealed: string;
  /** The record's name, with or without its date: `two-drivers`. */
  name: string;
  task: Task;
  trials: number;
  alternatives: [string, string];
}

/** Kinds of record that can be begun by command. */
const kinds: readonly string[] = ['listening'];

const tasks: readonly Task[] = ['discrimination', 'preference'];

const word = /^[a-z0-9][a-z0-9-]*$/;

/** Reads the words after `new`. */
export function newArguments(args: string[]): NewSession {
  const { values, positionals } = readArguments(args, {
    journal: { type: 'string', default: 'content' },
    sealed: { type: 'string', default: 'sealed' },
    trials: { type: 'string', default: '16' },
    task: { type: 'string', default: 'discrimination' },
    alternatives: { type: 'string', default: 'a,b' },
  });
  return {
    ...{ journal: values.journal, sealed: values.sealed, name: nameOf(positionals) },
    task: taskOf(values.task),
    trials: wholeNumber(values.trials, 'trials', [1, mostTrials]),
    alternatives: alternativesOf(values.alternatives),
  };
}

function nameOf([kind, name, ...rest]: readonly string[]): string {
  if (kind === undefined) throw new UsageFault('new needs a kind and a name: quiescent new listening NAME');
  if (!kinds.includes(kind)) {
    const near = nearestNames(kind, kinds).length > 0 ? 'Did you mean listening?' : 'There is: listening.';
    throw new UsageFault(`new cannot begin a record of the kind "${kind}". ${near}`);
  }
  if (name === undefined) throw new UsageFault(`new ${kind} needs a name: quiescent new ${kind} NAME`);
  if (rest.length > 0) throw new UsageFault(`new ${kind} takes one name, but "${rest.join(' ')}" follows.`);
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
