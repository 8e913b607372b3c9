import type { Fault } from '../../problem/index.ts';

export const curvesMissing = (file: string): Fault => ({
  rule: 'curves-missing',
  message: `The file of traced curves "${file}" cannot be found from this record.`,
  hint: 'Put it beside the record and name it by its path from there.',
});

export const curvesTooLarge = (megabytes: number): Fault => ({
  rule: 'too-large',
  message: `The file of traced curves is larger than ${megabytes} MB.`,
  hint: 'Export fewer points on each curve.',
});

export const curvesColumn = (wanted: string, names: readonly string[]): Fault => ({
  rule: 'curves-column',
  message:
    names.length === 0
      ? `The traced curves have no column of the ${wanted}.`
      : `More than one column of the traced curves may be the ${wanted}: ${names.join(', ')}.`,
  hint: 'Name the columns by electrode and unit, for example: plate voltage (V), grid voltage (V), plate current (mA).',
});

export const curvesNotRead = (names: readonly string[]): Fault => ({
  rule: 'curves-column',
  message: `Not used of the traced curves: ${names.join(', ')}.`,
  hint: 'Plate voltage, grid voltage, plate current and screen current are used.',
  severity: 'warning',
});
