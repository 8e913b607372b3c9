#!/usr/bin/env node
import { enableCompileCache } from 'node:module';

// What Node compiles is kept in a folder of its own among the system's temporary files, for the next command.
enableCompileCache();
// A reader of the output that has seen enough, such as head, ends the command quietly.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit();
});
// The bundler gives back what it no longer needs at once; by itself it waits for its next work, which a build has none of.
process.env['MIMALLOC_PURGE_DELAY'] ??= '0';
const { run } = await import('./run.ts');

process.exitCode = await run(process.argv.slice(2));
