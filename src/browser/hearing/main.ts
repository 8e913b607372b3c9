import type { Partial } from '../../hearing/partial.ts';
import { volumeText } from '../../hearing/volume.ts';
import { quantityText } from '../../quantity/print.ts';
import { Player } from './player.ts';

/** The buttons and the volume of a page's section; nothing sounds but by a press. */
function attend(section: HTMLElement, volume: HTMLInputElement, say: (text: string) => void): void {
  const player = new Player(Number(volume.value));
  const buttons = [...section.querySelectorAll<HTMLButtonElement>('button[data-partials]')];
  const press = (pressed: EventTarget | null) => {
    for (const button of buttons) button.setAttribute('aria-pressed', String(button === pressed));
  };
  const silence = () => {
    player.stop();
    press(null);
    say('Stopped.');
  };
  section.addEventListener('click', ({ target }) => {
    if (!(target instanceof HTMLButtonElement)) return;
    if (!buttons.includes(target)) return silence();
    const lost = player.play(partialsOf(target));
    press(target);
    say(playingText(target, lost, player.highestHz));
  });
  section.addEventListener('keydown', ({ key }) => {
    if (key === 'Escape') silence();
  });
  volume.addEventListener('input', () => {
    const decibels = Number(volume.value);
    player.turnTo(decibels);
    showVolume(section, volume, volumeText(decibels));
  });
  window.addEventListener('pagehide', silence);
}

function showVolume(section: HTMLElement, volume: HTMLInputElement, text: string): void {
  volume.setAttribute('aria-valuetext', `${text} re full scale`);
  const shown = section.querySelector('.volume');
  if (shown) shown.textContent = text;
}

/** What a button plays, as the page states it: frequency, amplitude and phase of each partial. */
function partialsOf({ dataset }: HTMLButtonElement): Partial[] {
  const written: unknown = JSON.parse(dataset['partials'] ?? '[]');
  if (!Array.isArray(written)) return [];
  return written.map(([frequencyHz = 0, amplitude = 0, phase = 0]: number[]) => ({
    frequencyHz,
    amplitude,
    phase,
  }));
}

function playingText({ textContent }: HTMLButtonElement, lost: number, highestHz: number): string {
  const what = `Playing: ${textContent?.trim()}.`;
  if (lost === 0) return what;
  return `${what} ${lost} of its lines are left out, as this device plays nothing above ${quantityText(highestHz, 'Hz')}.`;
}

for (const section of document.querySelectorAll<HTMLElement>('.hearing')) {
  const volume = section.querySelector<HTMLInputElement>('input[type="range"]');
  const status = section.querySelector('[role="status"]');
  if (volume && status) {
    attend(section, volume, (text) => {
      status.textContent = text;
    });
  }
}
