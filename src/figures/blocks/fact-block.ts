import type { MethodId } from '../methods/methods.ts';

/** One printed value with its name. */
export interface Fact {
  name: string;
  value: string;
}

/** Values of a stage that belong together, under a heading that leads to their method. */
export interface FactBlock {
  title: string;
  method: MethodId;
  facts: Fact[];
}
