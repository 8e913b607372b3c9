/** How much a problem weighs: an error stops a build, a warning is printed and the build goes on. */
export type Severity = 'error' | 'warning';

/** A position in a text file; line and column count from 1. */
export interface Place {
  file: string;
  line: number;
  column: number;
}

/**
 * The one fault type of the project. Readers and checkers return problems; nothing throws for what a
 * person wrote. `rule` is permanent and searchable, `message` is one or two full sentences without a
 * position, `hint` says how to mend it.
 */
export interface Problem extends Place {
  rule: string;
  severity: Severity;
  message: string;
  hint?: string;
}

/** A problem before its place in a file is known. */
export type Fault = Pick<Problem, 'rule' | 'message' | 'hint'> & { severity?: Severity };

/** Puts a fault at a place; a fault without a severity is an error. */
export function problemAt(place: Place, fault: Fault): Problem {
  const { file, line, column } = place;
  const { rule, message, hint, severity = 'error' } = fault;
  return hint === undefined
    ? { rule, severity, file, line, column, message }
    : { rule, severity, file, line, column, message, hint };
}

/** True when at least one problem stops the build. */
export function hasErrors(problems: readonly Problem[]): boolean {
  return problems.some((problem) => problem.severity === 'error');
}

/** Orders problems by file, line and column, so that output never depends on the order of reading. */
export function byPlace(a: Place, b: Place): number {
  if (a.file !== b.file) return a.file < b.file ? -1 : 1;
  return a.line - b.line || a.column - b.column;
}
