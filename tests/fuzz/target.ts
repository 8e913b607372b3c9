import type { Problem } from '../../src/problem/index.ts';
import type { Chance } from './mutations.ts';

/** What a reader made of one input: its problems, the text that they stand in, and everything else that it says. */
export interface Outcome {
  problems: readonly Problem[];
  /** Null where places are not looked at. */
  text: string | null;
  result: unknown;
}

/** A reader under test. */
export interface Target {
  /** How many of a hundred thousand cases are its own; dear ones get few. */
  share: number;
  /** Makes an input by chance and answers with what reads it, the same every time it is asked. */
  read(chance: Chance): () => Outcome | Promise<Outcome>;
}
