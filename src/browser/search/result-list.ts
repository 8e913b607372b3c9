import type { Found } from './index-reader.ts';
import { resultItem } from './result-item.ts';

/** Results loaded at a time. */
const atOnce = 10;

/** The list of what was found, loaded a part at a time. */
export class ResultList {
  readonly #list: HTMLElement;
  readonly #more: HTMLButtonElement;
  #waiting: Found['results'] = [];

  constructor(list: HTMLElement, more: HTMLButtonElement) {
    this.#list = list;
    this.#more = more;
  }

  /** Puts results in the place of those before, once the first of them are loaded and if still wanted then. */
  async show(results: Found['results'], isWanted: () => boolean): Promise<void> {
    const items = await itemsOf(results.slice(0, atOnce));
    if (!isWanted()) return;
    this.#list.replaceChildren(...items);
    this.#keep(results.slice(atOnce));
  }

  /** Adds the next results and goes to the first of them. */
  async showMore(): Promise<void> {
    const results = this.#waiting;
    const items = await itemsOf(results.slice(0, atOnce));
    if (results !== this.#waiting) return;
    this.#list.append(...items);
    this.#keep(results.slice(atOnce));
    items[0]?.querySelector('a')?.focus();
  }

  #keep(waiting: Found['results']): void {
    this.#waiting = waiting;
    this.#more.hidden = waiting.length === 0;
  }
}

const itemsOf = async (results: Found['results']) =>
  (await Promise.all(results.map((one) => one.data()))).map(resultItem);
