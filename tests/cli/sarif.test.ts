import { join } from 'node:path';
import { expect, test } from 'vitest';
import { sarifLog } from '../../src/cli/sarif.ts';
import { log, smallJournal, writeFiles } from '../support/journal.ts';
import { ran } from '../support/output.ts';

/** What the standard requires: OASIS, SARIF 2.1.0, 3.13.2, 3.14.6, 3.18.1, 3.27.5, 3.27.10, 3.28.3, 3.30.5. */
interface SarifLog {
  version: string;
  runs: {
    tool: { driver: { name: string; rules: { id: string }[] } };
    results: {
      ruleId: string;
      ruleIndex: number;
      level: string;
      message: { text: string };
      locations: {
        physicalLocation: {
          artifactLocation: { uri: string };
          region: { startLine: number; startColumn: number };
        };
      }[];
    }[];
  }[];
}

test('check --sarif prints one result for each problem, at its place, and exits like check', async () => {
  const folder = writeFiles({ ...smallJournal, 'logs/first/index.md': log('tags: hum\n'), 'notes.md': 'x' });
  const { code, result, notice } = await ran('check', '--journal', folder, '--sarif');
  expect({ code, notice }).toEqual({ code: 1, notice: '' });
  const { version, runs } = JSON.parse(result) as SarifLog;
  expect(version).toBe('2.1.0');
  expect(runs).toHaveLength(1);
  const { results = [], tool } = runs[0] ?? {};
  expect(tool?.driver.name).toBe('Quiescent');
  expect(
    results.map(({ level, locations: [at] }) => ({
      level,
      uri: at?.physicalLocation.artifactLocation.uri,
      ...at?.physicalLocation.region,
    })),
  ).toEqual([
    { level: 'error', uri: `file://${join(folder, 'logs/first/index.md')}`, startLine: 6, startColumn: 7 },
    { level: 'warning', uri: `file://${join(folder, 'notes.md')}`, startLine: 1, startColumn: 1 },
  ]);
  for (const { ruleId, ruleIndex, message } of results) {
    expect(tool?.driver.rules[ruleIndex]?.id).toBe(ruleId);
    expect(message.text).toMatch(/\.$/);
  }
});

test('a file below the folder of the command is named relative to it, as a URI reference', () => {
  const problem = { rule: 'odd', severity: 'error', line: 1, column: 1, message: 'Odd.' } as const;
  const { runs } = sarifLog([{ ...problem, file: 'logs/a b/ü.md' }], 'content') as SarifLog;
  const uri = runs[0]?.results[0]?.locations[0]?.physicalLocation.artifactLocation.uri;
  // RFC 3986, 2.1: octets outside the unreserved set are percent-encoded.
  expect(uri).toBe('content/logs/a%20b/%C3%BC.md');
});
