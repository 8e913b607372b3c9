import { spawnSync } from 'node:child_process';

/** Environment of a command as a person's shell would give it, without what the test runner sets. */
export function plainEnvironment(): NodeJS.ProcessEnv {
  const {
    NODE_ENV: _mode,
    VITEST: _runner,
    BASE_URL: _base,
    MODE: _kind,
    DEV: _dev,
    PROD: _prod,
    SSR: _ssr,
    ...env
  } = process.env;
  return env;
}

/** Runs one command line of the project in a process of its own. */
export function quiescent(...args: string[]): { status: number | null; stdout: string; stderr: string } {
  return spawnSync(process.execPath, ['src/cli/main.ts', ...args], {
    encoding: 'utf8',
    env: plainEnvironment(),
  });
}
