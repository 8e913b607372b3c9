import { setFlagsFromString } from 'node:v8';

/** By so much a heap may grow over what was alive in it before V8 looks for what is not. */
const growingPercent = 30;

/**
 * Lets V8 collect sooner, in every thread of the process and from its next collection on. Left to itself it lets a heap
 * grow to several times what is alive in it: a site's pages and charts leave much behind that is soon of no use.
 */
export function collectSooner(): void {
  setFlagsFromString(`--heap-growing-percent=${growingPercent}`);
}
