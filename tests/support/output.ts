import { run } from '../../src/cli/run.ts';

/** What a command printed and its exit code. */
export interface Ran {
  code: number;
  /** Standard output. */
  result: string;
  /** Standard error. */
  notice: string;
}

/** Runs a command line in this process and collects what it prints. */
export async function ran(...args: string[]): Promise<Ran> {
  const results: string[] = [];
  const notices: string[] = [];
  const output = {
    result: (text: string) => void results.push(text),
    notice: (text: string) => void notices.push(text),
  };
  const code = await run(args, output);
  return { code, result: results.join('\n'), notice: notices.join('\n') };
}
