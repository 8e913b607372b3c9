import { run } from '../../src/cli/run.ts';

/** What a command printed and its exit code. */
export interface Ran {
  code: number;
  /** Standard output. */
  result: string;
  /** Standard error. */
  notice: string;
}

/** What a build says of its progress where it takes long, which depends on the machine. */
const progress = /^(?:Captures \d+ of \d+|Charts so far)/;

/** Runs a command line in this process and collects what it prints, but for its progress. */
export async function ran(...args: string[]): Promise<Ran> {
  const results: string[] = [];
  const notices: string[] = [];
  const output = {
    result: (text: string) => void results.push(text),
    notice: (text: string) => void (progress.test(text) || notices.push(text)),
  };
  const code = await run(args, output);
  return { code, result: results.join('\n'), notice: notices.join('\n') };
}
