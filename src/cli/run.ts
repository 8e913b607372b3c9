import { nearestNames } from '../problem/index.ts';
import { UsageFault } from './arguments.ts';
import { type Output, processOutput } from './output.ts';
import { WriteFault } from './place/write-fault.ts';
import { type Command, commands, commandText, usageText } from './usage.ts';

/** Runs one command line and answers with its exit code: 0 done, 1 problems in what was read, 2 usage. */
export async function run(args: readonly string[], output: Output = processOutput): Promise<number> {
  const [name, ...rest] = args;
  if (name === undefined)
    return refuse(`Give a command: ${Object.keys(commands).join(', ')}, or help.`, output);
  if (helpWords.includes(name)) return explain(usageText(), output);
  const command = Object.hasOwn(commands, name) ? commands[name] : undefined;
  if (!command) return refuse(unknownCommand(name), output);
  if (rest.some((word) => word === '--help' || word === '-h')) return explain(commandText(command), output);
  return runCommand(command, rest, output);
}

const helpWords: readonly string[] = ['help', '--help', '-h'];

function explain(text: string, output: Output): number {
  output.result(text);
  return 0;
}

async function runCommand(command: Command, args: string[], output: Output): Promise<number> {
  try {
    return await command.run(args, output);
  } catch (error) {
    if (error instanceof UsageFault) return refuse(error.message, output);
    if (!(error instanceof WriteFault)) throw error;
    output.notice(`quiescent: ${error.message}`);
    return 1;
  }
}

function refuse(message: string, output: Output): number {
  output.notice(`quiescent: ${message}`);
  return 2;
}

function unknownCommand(name: string): string {
  const near = nearestNames(name, Object.keys(commands));
  const hint =
    near.length > 0 ? `Did you mean ${near.join(' or ')}?` : `Commands: ${Object.keys(commands).join(', ')}.`;
  return `There is no command "${name}". ${hint}`;
}
