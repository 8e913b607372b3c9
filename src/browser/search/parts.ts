/** What the search page is made of. */
export interface SearchParts {
  form: HTMLFormElement;
  field: HTMLInputElement;
  kinds: HTMLFieldSetElement;
  status: HTMLElement;
  results: HTMLElement;
  more: HTMLButtonElement;
}

/** Finds the parts of the search page. */
export function searchParts(): SearchParts {
  return {
    form: element('search', HTMLFormElement),
    field: element('search-text', HTMLInputElement),
    kinds: element('search-kinds', HTMLFieldSetElement),
    status: element('search-status', HTMLElement),
    results: element('search-results', HTMLElement),
    more: element('search-more', HTMLButtonElement),
  };
}

function element<Kind extends HTMLElement>(id: string, kind: new () => Kind): Kind {
  const found = document.getElementById(id);
  if (!(found instanceof kind)) throw new Error(`The page has no ${id}.`);
  return found;
}
