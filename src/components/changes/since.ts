import { readList, tellCount } from '../scripts/kept.ts';
import { type Looked, readLooked, writeLooked, writeUnread } from './looked.ts';
import {
  afterwards,
  type Group,
  groupsOf,
  type News,
  readKey,
  type Waiting,
  waitingFor,
} from './waiting.ts';

/**
 * Fills “Since you last looked”: what is dangerous with a button each, until it is read, and the
 * rest until it was looked at. Nothing on a phone that met its first release just now.
 * @param looksNow whether opening this page is looking
 */
export async function showSince(looksNow: boolean): Promise<void> {
  const section = document.querySelector<HTMLElement>('.since[data-latest]');
  const latest = section?.dataset.latest;
  const kept = readLooked();
  if (!section || !latest || !kept) return;
  if (kept.looked === latest && kept.from === latest) return;
  const base = document.body.dataset.base ?? '/';
  const news = await newsFrom(base);
  // Not to be had: no room is kept for it.
  if (!news) return tellCount('unread', 0);
  const update = (change: (before: Looked) => Looked) => {
    writeLooked(afterwards(news, change(readLooked() ?? kept)));
  };
  const draw = (state: Looked) => {
    const waiting = waitingFor(news, state);
    tellCount('unread', waiting.danger.length);
    writeUnread(waiting.danger.map(readKey));
    section.hidden = waiting.danger.length + waiting.rest.length === 0;
    const look = () => {
      update((before) => ({ ...before, looked: latest }));
      draw({ ...(readLooked() ?? state), looked: latest });
      headingOf(section)?.focus();
    };
    const read = (line: Waiting) => {
      const id = readKey(line);
      update((before) => ({ ...before, read: [...before.read, id] }));
      // As it stands on the page: looking advances what is kept, not what is still shown.
      draw({ ...state, read: [...state.read, id] });
      (section.querySelector<HTMLElement>('button') ?? headingOf(section))?.focus();
    };
    fill(section, waiting, { base, since: state.looked, looksNow, look, read });
  };
  draw(kept);
  if (looksNow) update((before) => ({ ...before, looked: latest }));
}

const headingOf = (section: HTMLElement) => section.querySelector<HTMLElement>('h2');

/** What the releases changed, from the site or from what is saved of it. */
async function newsFrom(base: string): Promise<News[] | undefined> {
  try {
    const answer = await fetch(`${base}changes/since.json`);
    return answer.ok ? ((await answer.json()) as { releases: News[] }).releases : undefined;
  } catch {
    return undefined;
  }
}

/** Dangerous changes that stand on the home page; the page of changes holds them all. */
const MOST_AT_HOME = 2;

interface Acts {
  readonly base: string;
  readonly since: string;
  readonly looksNow: boolean;
  readonly look: () => void;
  readonly read: (line: Waiting) => void;
}

function fill(
  section: HTMLElement,
  { danger, rest }: ReturnType<typeof waitingFor>,
  acts: Acts,
): void {
  const mine = ownSystems();
  const parts: HTMLElement[] = [];
  if (danger.length > 0) {
    parts.push(element('p', 'Dangerous if missed; each stays here until you have read it.'));
    const shown = acts.looksNow ? danger.length : MOST_AT_HOME;
    const ordered = groupsOf(danger, mine).flatMap(({ lines }) => lines);
    for (const group of groupsOf(ordered.slice(0, shown), mine))
      parts.push(
        ...groupOf(group, acts, (line) => [button('I have read this', () => acts.read(line))]),
      );
    if (ordered.length > shown) parts.push(moreOf(ordered.length - shown, acts));
  }
  if (rest.length > 0) {
    const details = element('details');
    details.open = acts.looksNow;
    const what = rest.length === 1 ? '1 other change' : `${rest.length} other changes`;
    const summary = element('summary');
    summary.append(element('b', `${what} since ${acts.since}`));
    details.append(summary);
    for (const group of groupsOf(rest, mine)) details.append(...groupOf(group, acts));
    if (!acts.looksNow) details.append(button('I have looked at these', acts.look));
    parts.push(details);
  }
  section.querySelector('.since-list')?.replaceChildren(...parts);
}

/** Changes under their heading; what a heading says is not said again at each of them. */
function groupOf(
  { title, lines }: Group<Waiting>,
  { base }: Acts,
  after: (line: Waiting) => HTMLElement[] = () => [],
): HTMLElement[] {
  const heading = element('h3');
  const own = lines.find((line) => line.title === title);
  heading.append(own ? linkTo(own, base) : title);
  const list = element('ul');
  list.className = 'change-lines';
  list.append(
    ...lines.map((line) => {
      const item = element('li');
      item.dataset.rank = line.rank;
      const said = element('p');
      if (line.title === title) said.append(line.words);
      else said.append(linkTo(line, base), `: ${line.words}`);
      const where = line.systems.length > 1 ? `In ${line.systems.length} systems. ` : '';
      const more = element('p', `${where}Release ${line.release}.`);
      more.className = 'quiet';
      const why = line.reason === null ? [] : [element('p', `Why: ${line.reason}`)];
      item.append(said, ...why, more, ...after(line));
      return item;
    }),
  );
  return [heading, list];
}

/** A change's entry by its title; plain where it has no page. */
function linkTo({ title, path }: Waiting, base: string): HTMLElement {
  if (path === null) return element('b', title);
  const link = element('a', title);
  link.href = `${base}${path}`;
  return link;
}

/** The way to what is dangerous and does not stand on the home page. */
function moreOf(count: number, { base }: Acts): HTMLElement {
  const line = element('p');
  const link = element('a', `${count} more that ${count === 1 ? 'is' : 'are'} dangerous if missed`);
  link.href = `${base}changes/`;
  link.className = 'more-changes';
  line.append(link);
  return line;
}

/** Systems pinned on this phone, then those opened of late, by entry id. */
const ownSystems = (): string[] => [
  ...new Set(
    [...readList('pins'), ...readList('recents')].flatMap(
      ({ path }) => /\/systems\/([^/]+)\//.exec(path)?.[1] ?? [],
    ),
  ),
];

function element<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  text = '',
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  made.textContent = text;
  return made;
}

function button(label: string, onClick: () => void): HTMLButtonElement {
  const made = element('button', label);
  made.type = 'button';
  made.addEventListener('click', onClick);
  return made;
}
