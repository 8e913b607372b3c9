/**
 * What was made while a journal was opened, kept for its next opening. A thing is made anew only where one of the
 * things it was made from is another, so that after an edit the unchanged rest is not only equal but the same.
 */
export interface Memory {
  /** The thing of a name: as it was made before where its inputs are the same ones, or else made now. */
  remember<T>(name: string, inputs: readonly unknown[], make: () => T): T;
  /** Ends an opening: what it did not ask for is let go. */
  sweep(): void;
}

interface Kept {
  inputs: readonly unknown[];
  value: unknown;
}

/** An empty memory; `onMake` is told the name of each thing that is made. */
export function emptyMemory(onMake: (name: string) => void = () => undefined): Memory {
  const kept = new Map<string, Kept>();
  const asked = new Set<string>();
  return {
    remember<T>(name: string, inputs: readonly unknown[], make: () => T): T {
      asked.add(name);
      const known = kept.get(name);
      if (known && areSame(known.inputs, inputs)) return known.value as T;
      onMake(name);
      const value = make();
      kept.set(name, { inputs, value });
      if (value instanceof Promise) value.catch(() => kept.delete(name));
      return value;
    },
    sweep() {
      for (const name of kept.keys()) if (!asked.has(name)) kept.delete(name);
      asked.clear();
    },
  };
}

const areSame = (before: readonly unknown[], now: readonly unknown[]): boolean =>
  before.length === now.length && before.every((input, index) => Object.is(input, now[index]));
