import { type CurveSource, exploredIn } from '../../overlay/explored/index.ts';
import { readOnce } from '../overlay/read-curves.ts';
import { Explorer } from './explorer.ts';

/** The buttons under the charts: each puts its chart's own curves in the place of the drawing, and takes them away. */
function attend(part: HTMLElement, button: HTMLButtonElement, figure: HTMLElement): void {
  const name = button.getAttribute('aria-label')?.replace(/^\w+: /, '') ?? '';
  const status = part.querySelector('[role="status"]');
  let explorer: Explorer | null = null;

  const label = (word: string) => {
    button.textContent = word;
    button.setAttribute('aria-label', `${word}: ${name}`);
  };
  const close = () => {
    explorer?.close();
    explorer?.controls.root.remove();
    explorer = null;
    figure.classList.remove('is-explored');
    label('Explore');
    button.focus({ preventScroll: true });
  };
  const open = async () => {
    const source = JSON.parse(button.dataset['curves'] ?? '{}') as CurveSource;
    const chart = exploredIn(await readOnce<unknown>(source.file), source);
    if (chart === null || explorer) return;
    explorer = new Explorer(chart, name);
    part.before(explorer.controls.root);
    figure.classList.add('is-explored');
    label('Close');
    explorer.controls.cursor.focus({ preventScroll: true });
  };

  button.addEventListener('click', () => {
    if (explorer) return close();
    if (status) status.textContent = '';
    open().catch(() => {
      if (status) status.textContent = 'The curves of this chart cannot be loaded.';
    });
  });
  figure.addEventListener('keydown', ({ key }) => {
    if (key === 'Escape' && explorer) close();
  });
}

for (const part of document.querySelectorAll<HTMLElement>('.explore')) {
  const button = part.querySelector('button');
  const figure = part.closest('figure');
  if (button && figure) attend(part, button, figure);
}
