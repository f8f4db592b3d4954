import { chosenMode } from './chosen.ts';
import type { DrawingData } from './data.ts';
import type { Light } from './light.ts';

/** How long a step stands where things may move by themselves, ms. */
const STANDS = 2200;

/** Where the drawing stands across, and most of it in sight. */
const ACROSS = '(min-width: 64rem)';

/**
 * Lets a key tell how the mode chosen comes about, one thing after another, each brought into
 * sight. On a phone, and where less motion is wanted, nothing goes on by itself: the key leads to
 * each next step.
 */
export function playBy(key: HTMLElement, data: DrawingData, light: Light): { stop: () => void } {
  const label = key.textContent ?? '';
  let at = -1;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const isStill = () =>
    !matchMedia(`(prefers-reduced-motion: no-preference) and ${ACROSS}`).matches;
  const stop = () => {
    clearTimeout(timer);
    at = -1;
    key.textContent = label;
    key.classList.remove('playing');
  };
  const end = () => {
    stop();
    light.off();
  };
  const step = () => {
    const [mode, title] = data.modes[chosenMode()]!;
    const story = data.stories[mode] ?? [];
    at++;
    const told = story[at];
    if (!told) {
      if (story.length === 0) light.on([], `${title}: nothing moves. Choose another mode.`);
      else light.off();
      stop();
      return;
    }
    const [text, elements] = told;
    light.on(lightedBy(data, elements), `${at + 1} of ${story.length}. ${text}`);
    light.show(elements);
    key.textContent = isStill() ? 'Next step' : 'Stop';
    key.classList.add('playing');
    if (!isStill()) timer = setTimeout(step, STANDS);
  };
  key.addEventListener('click', () => {
    if (timer !== undefined && at >= 0 && !isStill()) end();
    else step();
  });
  return { stop };
}

/** The elements themselves, and of each load among them its live path. */
function lightedBy({ loads }: DrawingData, elements: readonly string[]): string[] {
  const paths = loads
    .filter(({ id }) => elements.includes(id))
    .flatMap(({ paths, byMode }) => paths[byMode[chosenMode()]!] ?? []);
  return [...elements, ...paths];
}
