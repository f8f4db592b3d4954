/** Keeps the ticks of cores compared in an open box, and counts them. */
import { takeOverKept } from '../../former/index.ts';

const line = document.querySelector<HTMLElement>('[data-ticks]');
if (line) keepTicks(line);

function keepTicks(line: HTMLElement): void {
  const keyOf = (wiring: string) => `proveline.ticks.${wiring}`;
  const key = keyOf(line.dataset.ticks ?? '');
  takeOverKept(key, line.dataset.formerly?.split(' ').map(keyOf) ?? []);
  const boxes = [...document.querySelectorAll<HTMLInputElement>('.core-tick input')];
  const count = () => {
    const ticked = boxes.filter(({ checked }) => checked).map(({ value }) => value);
    line.querySelector('b')!.textContent = `${ticked.length} of ${boxes.length}`;
    return ticked;
  };
  const keep = () => {
    try {
      localStorage.setItem(key, JSON.stringify(count()));
    } catch {
      // Private windows refuse storage; the ticks last as long as the page.
    }
  };
  const kept = new Set(recall(key));
  for (const box of boxes) {
    box.checked = kept.has(box.value);
    box.addEventListener('change', keep);
  }
  line.querySelector('button')!.addEventListener('click', () => {
    for (const box of boxes) box.checked = false;
    keep();
  });
  count();
  line.hidden = false;
}

function recall(key: string): string[] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(key) ?? '[]');
    return Array.isArray(kept) ? kept.filter((one) => typeof one === 'string') : [];
  } catch {
    return [];
  }
}
