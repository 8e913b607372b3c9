/* Fetches the player at the first press of a button or the first turn of the volume, and hands that on to it. */
for (const section of document.querySelectorAll('[data-player]')) {
  const begin = async (event) => {
    section.removeEventListener('click', begin);
    section.removeEventListener('input', begin);
    const { type, target } = event;
    try {
      await import(/* @vite-ignore */ new URL(section.dataset.player, document.baseURI).href);
      target.dispatchEvent(new Event(type, { bubbles: true }));
    } catch {
      section.querySelector('[role="status"]').textContent = 'The player cannot be loaded.';
    }
  };
  section.addEventListener('click', begin);
  section.addEventListener('input', begin);
}
