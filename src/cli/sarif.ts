import path from 'node:path';
import type { Problem } from '../problem/index.ts';

/**
 * Problems as a log file of the Static Analysis Results Interchange Format, one run with one result for each.
 * @param folder what the problems' paths are relative to; results name files as seen from where the command was called,
 * which is how an editor or a build server finds them
 * @source OASIS, SARIF 2.1.0 with errata 01 (2023): log file 3.13, run 3.14, result 3.27, region 3.30
 */
export function sarifLog(problems: readonly Problem[], folder: string): object {
  const rules = [...new Set(problems.map(({ rule }) => rule))].sort();
  return {
    $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { name: 'Quiescent', rules: rules.map((id) => ({ id })) } },
        columnKind: 'utf16CodeUnits',
        results: problems.map((problem) => result(problem, rules, folder)),
      },
    ],
  };
}

function result(problem: Problem, rules: readonly string[], folder: string): object {
  const { rule, severity, message, hint, file, line, column } = problem;
  return {
    ruleId: rule,
    ruleIndex: rules.indexOf(rule),
    level: severity,
    message: { text: hint === undefined ? message : `${message} ${hint}` },
    locations: [
      {
        physicalLocation: {
          artifactLocation: { uri: addressOf(path.join(folder, file)) },
          region: { startLine: line, startColumn: column },
        },
      },
    ],
  };
}

/** A path as a URI reference: relative where it lies below the caller's folder. */
function addressOf(file: string): string {
  const parts = file.split(path.sep).map(encodeURIComponent).join('/');
  return path.isAbsolute(file) ? `file://${parts.startsWith('/') ? '' : '/'}${parts}` : parts;
}
