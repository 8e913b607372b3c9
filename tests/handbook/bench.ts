import { type ChildProcess, spawn } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, realpathSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { plainEnvironment } from '../support/command.ts';
import { temporaryFolder } from '../support/journal.ts';

/** The day that the handbook calls today. */
export const day = '2026-03-01';

/** A folder in which the commands of one page are typed, one after the other. */
export interface Bench {
  /** Where the next command is typed. */
  folder(): string;
  /** Runs a command to its end; what it said on both streams. */
  run(command: string): Promise<string>;
  /** Runs a command that goes on until it is stopped, up to the line that its answer ends with. */
  runUntil(command: string, line: string): Promise<string>;
}

/** A bench on which `npx quiescent` is the checkout's, and `npm install` was done. */
export function newBench(): Bench {
  const root = temporaryFolder();
  const tools = join(root, 'tools');
  const where = join(root, 'where');
  const desk = join(root, 'desk');
  mkdirSync(tools);
  mkdirSync(desk);
  writeFileSync(where, desk);
  writeTool(join(tools, 'npx'), `[ "$1" = quiescent ] && shift && exec "${process.execPath}" "${main}" "$@"`);
  writeTool(join(tools, 'npm'), '[ "$1" = install ]');
  const { INIT_CWD: _caller, ...env } = plainEnvironment();
  const folder = () => realpathSync(readFileSync(where, 'utf8').trim());
  const start = (command: string) =>
    spawn('bash', ['-ec', `exec 2>&1\n${command}`], {
      cwd: folder(),
      env: { ...env, NO_COLOR: '1', PATH: `${tools}:${process.env['PATH'] ?? ''}` },
    });
  return {
    folder,
    run: (command) => said(start(`${command}\npwd > "${where}"`)),
    runUntil: async (command, line) => stopped(start(`exec ${command} --port ${await freePort()}`), line),
  };
}

const main = join(import.meta.dirname, '../../src/cli/main.ts');

function writeTool(file: string, script: string): void {
  writeFileSync(file, `#!/bin/sh\n${script}\n`);
  chmodSync(file, 0o755);
}

function heard(child: ChildProcess): { text(): string } {
  const pieces: string[] = [];
  child.stdout?.on('data', (piece) => pieces.push(String(piece)));
  return { text: () => pieces.join('') };
}

async function said(child: ChildProcess): Promise<string> {
  const listener = heard(child);
  await new Promise((resolve) => child.once('close', resolve));
  return listener.text();
}

/** A command that has not said its line by then is ended, and what it said is held against the page. */
const patienceMs = 120_000;

/** Waits until a line was said, then presses ctrl-C. */
async function stopped(child: ChildProcess, line: string): Promise<string> {
  const listener = heard(child);
  const end = new Promise((resolve) => child.once('close', resolve));
  const giveUp = setTimeout(() => child.kill('SIGKILL'), patienceMs);
  child.stdout?.on('data', () => {
    if (withPort(listener.text()).includes(line)) child.kill('SIGINT');
  });
  await end;
  clearTimeout(giveUp);
  return withPort(listener.text());
}

/** Addresses with the port that the handbook shows. */
const withPort = (text: string) => text.replaceAll(/127\.0\.0\.1:\d+/g, '127.0.0.1:4321');

async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  await new Promise((resolve) => server.close(resolve));
  return typeof address === 'object' && address ? address.port : 0;
}
