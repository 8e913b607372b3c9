/** The choice among kinds of record: one radio button for each, and one without a value for all. */
export class KindChoice {
  readonly #frame: HTMLFieldSetElement;

  constructor(frame: HTMLFieldSetElement) {
    this.#frame = frame;
  }

  /** The kind chosen; empty for all. */
  get chosen(): string {
    return this.#buttons.find(({ checked }) => checked)?.value ?? '';
  }

  /** Name of the kind chosen; null for all. */
  get name(): string | null {
    return this.#buttons.find(({ checked, value }) => checked && value !== '')?.dataset['name'] ?? null;
  }

  /** Chooses a kind; one that is not offered chooses all. */
  choose(kind: string): void {
    const wanted = this.#buttons.find(({ value }) => value === kind) ?? this.#buttons[0];
    if (wanted) wanted.checked = true;
  }

  /** Shows how many there are of each kind; a kind without any is offered only while it is chosen. */
  show(counts: Readonly<Record<string, number>>, all: number): void {
    this.#frame.hidden = all === 0;
    for (const button of this.#buttons) {
      const count = button.value === '' ? all : (counts[button.value] ?? 0);
      const row = button.closest('li');
      const place = row?.querySelector('.count');
      if (place) place.textContent = String(count);
      if (row) row.hidden = count === 0 && !button.checked;
    }
  }

  get #buttons(): HTMLInputElement[] {
    return [...this.#frame.querySelectorAll('input')];
  }
}
