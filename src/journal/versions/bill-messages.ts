import { type Fault, nearestNames } from '../../problem/index.ts';

const orElse = (near: readonly string[], otherwise: string) =>
  near.length > 0 ? `Did you mean ${near.join(' or ')}?` : otherwise;

/** Every sentence that the journal room says about lists of parts. */
export const billMessages = {
  missing: (file: string, near: readonly string[]): Fault => ({
    rule: 'parts-file-missing',
    message: `The parts file "${file}" is not beside the version.`,
    hint: orElse(near, 'Put the CSV file into the folder of the amplifier.'),
  }),
  notCsv: (file: string): Fault => ({
    rule: 'parts-file-missing',
    message: `"${file}" is not the name of a CSV file.`,
    hint: 'Save the list as comma-separated text, with a name that ends in .csv.',
  }),
  empty: (): Fault => ({
    rule: 'parts-file',
    message: 'The parts file has no line.',
    hint: 'Begin with a line of column names: part,value,quantity,price,supplier.',
  }),
  noPartColumn: (known: readonly string[]): Fault => ({
    rule: 'parts-file',
    message: 'The first line of a parts file names its columns, and one of them is "part".',
    hint: `Columns are ${known.join(', ')}.`,
  }),
  unknownColumn: (name: string, known: readonly string[]): Fault => ({
    rule: 'parts-file',
    message: `The column "${name}" is not known in a parts file.`,
    hint: orElse(nearestNames(name, known), `Columns are ${known.join(', ')}.`),
  }),
  columnTwice: (name: string): Fault => ({
    rule: 'parts-file',
    message: `Two columns are called "${name}".`,
    hint: 'Remove or rename one of them.',
  }),
  cells: (found: number, wanted: number): Fault => ({
    rule: 'parts-file',
    message: `This line has ${found} cells, but the first line names ${wanted} columns.`,
    hint: 'Put quotes around a cell that has the delimiter in it, and leave empty what is not known.',
  }),
  quotes: (): Fault => ({
    rule: 'parts-file',
    message: 'A quote in this line is not closed.',
    hint: 'Close it on the same line, or double a quote that belongs to the text.',
  }),
  noPart: (): Fault => ({
    rule: 'parts-file',
    message: 'This line does not say which part it is.',
    hint: 'Fill the cell, or remove the line.',
  }),
  quantity: (text: string): Fault => ({
    rule: 'parts-file',
    message: `A number above 0 is expected as quantity, but this is "${text}".`,
    hint: 'Write for example 2, or leave it empty for one.',
  }),
  price: (text: string): Fault => ({
    rule: 'price',
    severity: 'warning',
    message: `"${text}" is not an amount with a currency, so it is shown as it is and added to no total.`,
    hint: 'Write for example 85.00 EUR, or leave the price out.',
  }),
} as const;
