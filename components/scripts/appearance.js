/*
 * Reads the reader's choice of light or dark before the page is painted, and follows the control that changes it.
 * A plain script, loaded in the head: a module would run after the first paint.
 */
(() => {
  const key = 'quiescent-appearance';
  const root = document.documentElement;
  const control = () => document.querySelector('[data-sets="appearance"]');

  const remembered = () => {
    try {
      return localStorage.getItem(key);
    } catch {
      return null;
    }
  };

  const remember = (choice) => {
    try {
      localStorage.setItem(key, choice);
    } catch {
      // Where nothing may be stored, the choice holds for this page.
    }
  };

  const show = (choice) => {
    root.dataset.appearance = choice === 'light' || choice === 'dark' ? choice : 'system';
    const shown = control();
    if (shown) shown.value = root.dataset.appearance;
  };

  show(remembered());
  document.addEventListener('DOMContentLoaded', () => show(root.dataset.appearance));
  window.addEventListener('pageshow', () => show(root.dataset.appearance));
  window.addEventListener('storage', ({ key: changed, newValue }) => {
    if (changed === key) show(newValue);
  });
  document.addEventListener('change', ({ target }) => {
    if (target !== control()) return;
    remember(target.value);
    show(target.value);
  });
})();
