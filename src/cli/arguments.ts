import { type ParseArgsOptionsConfig, parseArgs } from 'node:util';
import { siteAddressFault } from '../journal/publishing/site-address.ts';
import { nearestNames } from '../problem/index.ts';

/** A command line that cannot be understood; its message is the one line that is printed. */
export class UsageFault extends Error {}

/** Reads options and positionals strictly; anything unknown is a usage fault. */
export function readArguments<T extends ParseArgsOptionsConfig>(args: string[], options: T) {
  try {
    return parseArgs({ args, options, allowPositionals: true, strict: true });
  } catch (error) {
    throw new UsageFault(faultText(error, Object.keys(options)));
  }
}

/** The one file that a command takes. */
export const onlyFile = (positionals: readonly string[], command: string) =>
  onlyOne(positionals, command, ['file', 'FILE']);

/** The one folder that a command takes. */
export const onlyFolder = (positionals: readonly string[], command: string) =>
  onlyOne(positionals, command, ['folder', 'DIR']);

function onlyOne(
  [first, ...rest]: readonly string[],
  command: string,
  [what, word]: [string, string],
): string {
  if (first === undefined) throw new UsageFault(`${command} needs a ${what}: quiescent ${command} ${word}`);
  if (rest.length > 0) throw new UsageFault(`${command} takes one ${what}, but "${rest.join(' ')}" follows.`);
  return first;
}

/** Refuses words that a command has no use for. */
export function noPositionals(positionals: readonly string[], command: string): void {
  if (positionals.length > 0)
    throw new UsageFault(`${command} takes options only, but was given "${positionals[0]}".`);
}

/** An address prefix with a slash at both ends. */
export function addressPrefix(text: string): string {
  if (!/^[\w.~/-]*$/.test(text)) throw new UsageFault(`--base takes a path such as /notes/, not "${text}".`);
  return `/${text}/`.replaceAll(/\/+/g, '/');
}

/** The full address of a site. */
export function siteAddress(text: string): string {
  if (siteAddressFault(text) === null) return text;
  throw new UsageFault(
    `--site takes an address without a path, such as https://example.org, not "${text}"; --base takes the path.`,
  );
}

/** A whole number within bounds. */
export function wholeNumber(text: string, name: string, [low, high]: [number, number]): number {
  const value = Number(text);
  if (!Number.isInteger(value) || value < low || value > high) {
    throw new UsageFault(`--${name} takes a whole number from ${low} to ${high}, not "${text}".`);
  }
  return value;
}

/** What is wrong with the options, in one line; an unknown one with its nearest neighbours. */
function faultText(error: unknown, known: readonly string[]): string {
  const { code, message } = error as { code?: string; message: string };
  const [, dashes = '', name] = /^Unknown option '(-*)([^']*)'/.exec(message) ?? [];
  if (code !== 'ERR_PARSE_ARGS_UNKNOWN_OPTION' || name === undefined) return firstSentence(message);
  const near = nearestNames(name, known);
  const dashed = (names: readonly string[]) => names.map((option) => `--${option}`);
  const hint =
    near.length > 0 ? `Did you mean ${dashed(near).join(' or ')}?` : `Options: ${dashed(known).join(', ')}.`;
  return `There is no option "${dashes}${name}" here. ${hint}`;
}

const firstSentence = (text: string) => text.split('\n')[0]?.split('. ')[0]?.replace(/\.?$/, '.') ?? text;
