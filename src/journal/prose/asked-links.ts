import type { LinkContext } from './links.ts';

type SetName = 'files' | 'ids' | 'captures';

/** What the rendering of a text asked about the rest of the journal. */
export interface Questions {
  names: readonly (readonly [SetName, string])[];
  /** True where it looked through whole lists, as for the nearest names. */
  looksThrough: boolean;
}

/** A context that notes what it is asked. */
export interface Asked {
  context: LinkContext;
  /** What was asked since the last call. */
  taken(): Questions;
}

/** Notes what steps ask of a context, so that a text need be rendered again only where an answer changes. */
export function asked(context: LinkContext): Asked {
  let names: [SetName, string][] = [];
  let looksThrough = false;
  const noting = (name: SetName) =>
    new NotingSet(context[name], {
      onHas: (value) => names.push([name, value]),
      onLook: () => {
        looksThrough = true;
      },
    });
  return {
    context: { ...context, files: noting('files'), ids: noting('ids'), captures: noting('captures') },
    taken() {
      const questions = { names, looksThrough };
      names = [];
      looksThrough = false;
      return questions;
    },
  };
}

/** The answers of a context to questions, as one text. */
export function answersTo({ names, looksThrough }: Questions, context: LinkContext): string {
  const answers = names.map(([name, value]) => (context[name].has(value) ? '1' : '0'));
  const all = looksThrough ? [context.files, context.ids, context.captures].map((set) => [...set]) : [];
  return JSON.stringify([answers.join(''), all]);
}

interface Noting {
  onHas(value: string): void;
  onLook(): void;
}

class NotingSet extends Set<string> {
  readonly #noting: Noting;

  constructor(values: ReadonlySet<string>, noting: Noting) {
    super(values);
    this.#noting = noting;
  }

  override has(value: string): boolean {
    this.#noting.onHas(value);
    return super.has(value);
  }

  override [Symbol.iterator](): SetIterator<string> {
    this.#noting.onLook();
    return super[Symbol.iterator]();
  }
}
