/** What is asked, as it stands in the address of the page, so that a search can be linked. */
export interface Question {
  text: string;
  /** Empty for all kinds. */
  kind: string;
}

export function readQuestion(search: string): Question {
  const asked = new URLSearchParams(search);
  return { text: asked.get('q') ?? '', kind: asked.get('kind') ?? '' };
}

/** The query of an address, with its question mark; empty where nothing is asked. */
export function questionQuery({ text, kind }: Question): string {
  if (text === '') return '';
  return `?${new URLSearchParams({ q: text, ...(kind === '' ? {} : { kind }) })}`;
}
