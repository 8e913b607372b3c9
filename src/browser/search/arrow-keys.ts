/** Lets the arrow keys go from the field down the results and back up into it. */
export function followArrows(field: HTMLElement, results: HTMLElement): void {
  const step = (event: KeyboardEvent) => {
    const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    const here = document.activeElement;
    if (by === undefined || !(here instanceof HTMLElement)) return;
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const stops = [field, ...results.querySelectorAll<HTMLElement>('h2 a')];
    const next = stops[stops.indexOf(here) + by];
    if (!next) return;
    event.preventDefault();
    next.focus();
  };
  field.addEventListener('keydown', step);
  results.addEventListener('keydown', step);
}
