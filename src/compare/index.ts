export * from './claim.ts';
export * from './claim-text.ts';
export { marginOf, suits } from './margin.ts';
export * from './sweep-reading.ts';
