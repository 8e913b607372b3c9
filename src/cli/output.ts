/** Where a command writes: results to standard output, progress and problems to standard error. */
export interface Output {
  result(text: string): void;
  notice(text: string): void;
}

/** Writes to the process's own streams, one line at a time. */
export const processOutput: Output = {
  result: (text) => process.stdout.write(`${text}\n`),
  notice: (text) => process.stderr.write(`${text}\n`),
};
