import { KIND_TITLES } from './names.ts';
import type { Result } from './result.ts';

/** A line of a list for each result: kind, title, what it belongs to, the text that matches. */
export function resultItems(results: readonly Result[], base: string): HTMLLIElement[] {
  return results.map(({ title, kind, url, of, excerpt }) => {
    const link = element('a', 'result');
    link.href = base + url;
    const name = element('strong');
    name.textContent = title;
    const what = element('span', 'result-kind');
    what.textContent = of ? `${KIND_TITLES[kind]} · ${of}` : KIND_TITLES[kind];
    const text = element('span', 'result-text');
    for (const { text: piece, marked } of excerpt) {
      if (!marked) {
        text.append(piece);
        continue;
      }
      const mark = element('mark');
      mark.textContent = piece;
      text.append(mark);
    }
    link.append(name, ' ', what, ' ', text);
    return item(link);
  });
}

/** What is shown when nothing answers: the nearest complaints, and the way to find it by looking. */
export const itemsInstead = (nearest: readonly Result[], base: string): HTMLLIElement[] => [
  ...resultItems(nearest, base),
  linkItem('Find it by looking: what is in front of you?', `${base}#recognise`),
];

/** A line that leads somewhere else. */
export function linkItem(label: string, address: string): HTMLLIElement {
  const link = element('a', 'result');
  link.href = address;
  link.textContent = label;
  return item(link);
}

/** An element with a class. */
export function element<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  className = '',
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  if (className) made.className = className;
  return made;
}

function item(link: HTMLAnchorElement): HTMLLIElement {
  const made = element('li');
  made.append(link);
  return made;
}

/**
 * Lets the arrow keys move through a list of links, from and back to the field they belong to.
 * Where the list is drawn from the bottom up, the keys go the way the eye does.
 */
export function moveByArrows(field: HTMLInputElement, list: HTMLElement): (key: string) => boolean {
  return (key) => {
    const links = [...list.querySelectorAll<HTMLAnchorElement>('a')];
    if (links.length === 0 || (key !== 'ArrowDown' && key !== 'ArrowUp')) return false;
    const upwards = getComputedStyle(list).flexDirection === 'column-reverse';
    const step = (key === 'ArrowDown') === upwards ? -1 : 1;
    const at = links.indexOf(document.activeElement as HTMLAnchorElement);
    const next = at + step;
    if (at < 0 && step < 0) return false;
    if (next < 0) field.focus();
    else links[Math.min(next, links.length - 1)]!.focus();
    return true;
  };
}
