import { chosenMode } from './chosen.ts';
import type { DrawingData } from './data.ts';
import type { Light } from './light.ts';

/** How long a step stands where things may move by themselves, ms. */
const STANDS = 2200;

/** Where the drawing stands across, and most of it in sight. */
const ACROSS = '(min-width: 64rem)';

/**
 * Lets a key tell how the mode chosen comes about, one thing after another, each brought into
 * sight, and another key lead a step back. On a phone, where less motion is wanted, and once a
 * step was taken back, nothing goes on by itself: the key leads to each next step.
 */
export function playBy(
  key: HTMLElement,
  back: HTMLElement,
  data: DrawingData,
  light: Light,
  signal?: AbortSignal,
): { stop: () => void } {
  const label = key.textContent ?? '';
  let at = -1;
  let byHand = false;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const isStill = () =>
    byHand || !matchMedia(`(prefers-reduced-motion: no-preference) and ${ACROSS}`).matches;
  const stop = () => {
    clearTimeout(timer);
    // Who came here by the key that goes is left at the one that stays.
    if (document.activeElement === back) key.focus();
    at = -1;
    byHand = false;
    key.textContent = label;
    key.parentElement!.classList.remove('playing');
    back.hidden = true;
  };
  const end = () => {
    stop();
    light.off();
  };
  const stepTo = (next: number) => {
    clearTimeout(timer);
    const [mode, title] = data.modes[chosenMode()]!;
    const { from, steps } = data.stories[mode]!;
    const told = steps[next];
    if (!told) {
      if (steps.length === 0) light.on([], `${title}: nothing moves. Choose another mode.`);
      else light.off();
      stop();
      return;
    }
    at = next;
    const [text, elements] = told;
    const begins = at === 0 && from !== '' ? `Beginning with “${from}”. ` : '';
    light.on(lightedBy(data, elements), `${at + 1} of ${steps.length}. ${begins}${text}`);
    light.show(elements);
    key.textContent = isStill() ? 'Next step' : 'Stop';
    key.parentElement!.classList.add('playing');
    if (at === 0 && document.activeElement === back) key.focus();
    back.hidden = at === 0;
    if (!isStill()) timer = setTimeout(() => stepTo(at + 1), STANDS);
  };
  const listening = signal ? { signal } : {};
  const onKey = () => {
    if (at >= 0 && !isStill()) end();
    else stepTo(at + 1);
  };
  const onBack = () => {
    byHand = true;
    stepTo(at - 1);
  };
  key.addEventListener('click', onKey, listening);
  back.addEventListener('click', onBack, listening);
  signal?.addEventListener('abort', stop);
  return { stop };
}

/** The elements themselves, and of each load among them its live path. */
function lightedBy({ loads }: DrawingData, elements: readonly string[]): string[] {
  const paths = loads
    .filter(({ id }) => elements.includes(id))
    .flatMap(({ paths, byMode }) => paths[byMode[chosenMode()]!] ?? []);
  return [...elements, ...paths];
}
