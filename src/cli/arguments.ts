import { parseArgs, type ParseArgsOptionsConfig } from 'node:util';

/** A command line that cannot be understood; its message is the one line that is printed. */
export class UsageFault extends Error {}

/** Reads options and positionals strictly; anything unknown is a usage fault. */
export function readArguments<T extends ParseArgsOptionsConfig>(args: string[], options: T) {
  try {
    return parseArgs({ args, options, allowPositionals: true, strict: true });
  } catch (error) {
    throw new UsageFault(error instanceof Error ? firstSentence(error.message) : String(error));
  }
}

/** The one file that a command takes. */
export function onlyFile(positionals: readonly string[], command: string): string {
  const [file, ...rest] = positionals;
  if (file === undefined) throw new UsageFault(`${command} needs a file: quiescent ${command} FILE`);
  if (rest.length > 0) throw new UsageFault(`${command} takes one file, but "${rest.join(' ')}" follows.`);
  return file;
}

/** Refuses words that a command has no use for. */
export function noPositionals(positionals: readonly string[], command: string): void {
  if (positionals.length > 0) throw new UsageFault(`${command} takes options only, but was given "${positionals[0]}".`);
}

/** A whole number within bounds. */
export function wholeNumber(text: string, name: string, [low, high]: [number, number]): number {
  const value = Number(text);
  if (!Number.isInteger(value) || value < low || value > high) {
    throw new UsageFault(`--${name} takes a whole number from ${low} to ${high}, not "${text}".`);
  }
  return value;
}

const firstSentence = (text: string) => text.split('\n')[0]?.split('. ')[0]?.replace(/\.?$/, '.') ?? text;
