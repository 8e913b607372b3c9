import type { Fault } from '../problem/index.ts';
import { messages } from './messages.ts';
import { mostTrials, type Task } from './plan.ts';

/** The order in which two alternatives are played, drawn before a session and sealed by the hash of its file. */
export interface SessionKey {
  /** Id of the record: `listening/2026-03-21-two-drivers`. */
  session: string;
  task: Task;
  /** One alternative a trial: the unknown one, or in a preference test the one that is played first. */
  order: readonly string[];
  /** Random characters that keep the order from being found by trying every one against the hash. */
  salt: string;
}

const firstLine = 'order of a listening session';

/** The key file as it is hashed: a line each of title, session, task and salt, then one line a trial. */
export function keyText({ session, task, order, salt }: SessionKey): string {
  const head = [firstLine, `session ${session}`, `task ${task}`, `salt ${salt}`];
  return `${[...head, ...order.map((played, index) => `${index + 1} ${played}`)].join('\n')}\n`;
}

const lineForms = [
  new RegExp(`^(${firstLine})$`),
  /^session (\S+)$/,
  /^task (discrimination|preference)$/,
  /^salt ([0-9a-f]{32,})$/,
];

/** Reads a key file; a fault with the line that does not fit, counted from 1. */
export function readKey(text: string): { key: SessionKey } | { fault: Fault; line: number } {
  const lines = text.replace(/\n$/, '').split('\n');
  const head = lineForms.map((form, index) => form.exec(lines[index] ?? '')?.[1]);
  const wrong = head.indexOf(undefined);
  if (wrong >= 0) return { fault: messages.keyLine(), line: wrong + 1 };
  const [, session = '', task, salt = ''] = head;
  const order = lines.slice(lineForms.length).map((line, index) => playedIn(line, index + 1));
  const strange = order.indexOf(null);
  if (strange >= 0) return { fault: messages.keyLine(), line: lineForms.length + strange + 1 };
  if (order.length === 0 || order.length > mostTrials)
    return { fault: messages.keyLength(mostTrials), line: 1 };
  const played = order.flatMap((one) => one ?? []);
  return { key: { session, task: task === 'preference' ? task : 'discrimination', order: played, salt } };
}

const playedIn = (line: string, trial: number) =>
  new RegExp(`^${trial} ([a-z0-9][a-z0-9-]*)$`).exec(line)?.[1] ?? null;
