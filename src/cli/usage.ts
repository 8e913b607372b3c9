import {
  addressPrefix,
  noPositionals,
  onlyFile,
  onlyFolder,
  readArguments,
  siteAddress,
  UsageFault,
  wholeNumber,
} from './arguments.ts';
import type { Output } from './output.ts';
import { alignRows } from './rows.ts';

/** One command: how it is written, what it does, and the function that runs it and answers with an exit code. */
export interface Command {
  usage: string;
  summary: string;
  run(args: string[], output: Output): Promise<number>;
}

const journal = { type: 'string', default: 'content' } as const;
const out = { type: 'string', default: 'dist' } as const;
const base = { type: 'string', default: '/' } as const;
const portOf = (text: string) => wholeNumber(text, 'port', [1, 65_535]);
const flag = { type: 'boolean', default: false } as const;
const json = flag;

export const commands: Readonly<Record<string, Command>> = {
  build: {
    usage: 'build [--journal DIR] [--out DIR] [--base /path/] [--site URL] [--timings]',
    summary: 'check and compute a journal and write its site',
    async run(args, output) {
      const { values, positionals } = readArguments(args, {
        ...{ journal, out, base, timings: flag },
        site: { type: 'string' },
      });
      noPositionals(positionals, 'build');
      const { build } = await import('./commands/build.ts');
      const site = values.site === undefined ? null : siteAddress(values.site);
      return build({ ...values, base: addressPrefix(values.base), site }, output);
    },
  },
  check: {
    usage: 'check [--journal DIR] [--json | --sarif] [--timings]',
    summary: 'everything that build would refuse, without writing a site',
    async run(args, output) {
      const { values, positionals } = readArguments(args, { journal, json, sarif: flag, timings: flag });
      noPositionals(positionals, 'check');
      if (values.json && values.sarif) throw new UsageFault('check prints --json or --sarif, not both.');
      const form = values.json ? 'json' : values.sarif ? 'sarif' : 'text';
      const { check } = await import('./commands/check.ts');
      return check({ journal: values.journal, form, timings: values.timings }, output);
    },
  },
  dev: {
    usage: 'dev [--journal DIR] [--port N]',
    summary: 'a live site that follows the files as they are edited',
    async run(args, output) {
      const { values, positionals } = readArguments(args, {
        journal,
        port: { type: 'string', default: '4321' },
      });
      noPositionals(positionals, 'dev');
      const { dev } = await import('./commands/dev.ts');
      return dev({ journal: values.journal, port: portOf(values.port) }, output);
    },
  },
  preview: {
    usage: 'preview [--out DIR] [--base /path/] [--port N]',
    summary: 'a look at the built site',
    async run(args, output) {
      const { values, positionals } = readArguments(args, {
        out,
        base,
        port: { type: 'string', default: '4321' },
      });
      noPositionals(positionals, 'preview');
      const { preview } = await import('./commands/preview.ts');
      const address = { base: addressPrefix(values.base), port: portOf(values.port) };
      return preview({ ...values, ...address }, output);
    },
  },
  inspect: {
    usage:
      'inspect FILE … [--json] [--kind K] [--map NAME=COLUMN …] [--harmonics N] [--load OHM] [--mains HZ] [--declare]',
    summary: 'how captures are read, and their summaries; of a folder all of them, and "-" is standard input',
    async run(args, output) {
      const { inspectArguments } = await import('./commands/inspect-arguments.ts');
      const { inspect } = await import('./commands/inspect.ts');
      return inspect(inspectArguments(args), output);
    },
  },
  load: {
    usage: 'load FILE [--json]',
    summary: 'the load sheet of a version record or of a stand-alone description',
    async run(args, output) {
      const { values, positionals } = readArguments(args, { json });
      const { load } = await import('./commands/load.ts');
      return load({ file: onlyFile(positionals, 'load'), json: values.json }, output);
    },
  },
  init: {
    usage: 'init DIR',
    summary: 'a new journal, with one commented example of each record',
    async run(args, output) {
      const { positionals } = readArguments(args, {});
      const folder = onlyFolder(positionals, 'init');
      const { init } = await import('./commands/init.ts');
      return init(folder, output);
    },
  },
  new: {
    usage:
      'new log "TITLE" [--journal DIR] [--captures FILE …] | new listening NAME [--journal DIR] [--sealed DIR] [--trials N] [--task T] [--alternatives A,B] | new page "TITLE" [--journal DIR]',
    summary:
      'a log with its captures copied and declared; a listening session: its record, a sealed order of trials and the sheet for the helper; or a page of your own',
    async run(args, output) {
      const { newArguments } = await import('./commands/new-arguments.ts');
      const asked = newArguments(args);
      if (asked.kind === 'log') {
        const { beginLog } = await import('./commands/new-log.ts');
        return beginLog(asked, output);
      }
      if (asked.kind === 'page') {
        const { beginPage } = await import('./commands/new-page.ts');
        return beginPage(asked, output);
      }
      const { beginSession } = await import('./commands/new.ts');
      return beginSession(asked, output);
    },
  },
};

/** How one command is used. */
export const commandText = ({ usage, summary }: Command) => `Usage: quiescent ${usage}\n\n  ${summary}`;

/** The list of commands. */
export function usageText(): string {
  const rows = Object.values(commands).flatMap(({ usage, summary }) => [[usage], [`    ${summary}`]]);
  return ['Usage: quiescent COMMAND', '', ...alignRows(rows, 2)].join('\n');
}
