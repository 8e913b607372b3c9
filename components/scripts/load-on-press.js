/* Fetches the code of a part of the page at the first press of a button or turn of a control in it, and hands that on. */
for (const part of document.querySelectorAll('[data-module]')) {
  const begin = async (event) => {
    if (!event.target.closest('button, input')) return;
    event.stopImmediatePropagation();
    for (const type of ['click', 'input']) part.removeEventListener(type, begin, true);
    const { type, target } = event;
    try {
      await import(/* @vite-ignore */ new URL(part.dataset.module, document.baseURI).href);
      target.dispatchEvent(new Event(type, { bubbles: true }));
    } catch {
      part.querySelector('[role="status"]').textContent = 'The code for this cannot be loaded.';
    }
  };
  for (const type of ['click', 'input']) part.addEventListener(type, begin, true);
}
