export { splitCells } from './cells.ts';
export { maxBytes, maxColumns, maxRows } from './limits.ts';
export { tooLarge } from './messages.ts';
export { readCapture } from './read.ts';
export * from './types.ts';
export { electrodeOf } from './words.ts';
