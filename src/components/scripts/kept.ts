/** A page the reader comes back to. */
interface Kept {
  readonly path: string;
  readonly title: string;
  readonly kind: string;
}
type ListName = 'recents' | 'pins';

const MOST_RECENT = 6;
const keyOf = (name: ListName) => `proveline.${name}`;

/** Pages of a list, newest first; none when storage is closed to us or holds something else. */
function readList(name: ListName): Kept[] {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(keyOf(name)) ?? '[]');
    return Array.isArray(found) ? found.filter(isKept) : [];
  } catch {
    return [];
  }
}

function isKept(value: unknown): value is Kept {
  if (typeof value !== 'object' || value === null) return false;
  const { path, title } = value as Record<string, unknown>;
  return typeof path === 'string' && path.startsWith('/') && typeof title === 'string';
}

function writeList(name: ListName, list: readonly Kept[]): void {
  try {
    localStorage.setItem(keyOf(name), JSON.stringify(list));
  } catch {
    // Private windows refuse storage; the page works without it.
  }
}

function thisPage(): Kept | null {
  const { kind, title } = document.body.dataset;
  return kind && title ? { path: location.pathname, title, kind } : null;
}

/** Puts this page at the head of the recent ones. */
export function keepRecent(): void {
  const page = thisPage();
  if (!page || page.kind === 'term') return;
  const others = readList('recents').filter(({ path }) => path !== page.path);
  writeList('recents', [page, ...others].slice(0, MOST_RECENT));
}

/** Shows the button that pins this page to the home page, or takes it off again. */
export function offerPin(): void {
  const page = thisPage();
  const button = document.querySelector<HTMLButtonElement>('[data-act="pin"]');
  if (!page || !button) return;
  const pinned = () => readList('pins').some(({ path }) => path === page.path);
  const show = () => button.setAttribute('aria-pressed', String(pinned()));
  button.hidden = false;
  show();
  button.addEventListener('click', () => {
    const others = readList('pins').filter(({ path }) => path !== page.path);
    writeList('pins', pinned() ? others : [page, ...others]);
    show();
  });
}

/** Fills the home page's lists of pinned and recent pages. */
export function showKept(): void {
  for (const list of document.querySelectorAll<HTMLElement>('[data-list]')) {
    const kept = readList(list.dataset.list === 'pins' ? 'pins' : 'recents');
    if (kept.length > 0) list.replaceChildren(...kept.map(entryOf));
  }
}

function entryOf({ path, title, kind }: Kept): HTMLLIElement {
  const item = document.createElement('li');
  const link = document.createElement('a');
  const name = document.createElement('strong');
  const what = document.createElement('span');
  link.href = path;
  name.textContent = title;
  what.textContent = kind;
  link.append(name, what);
  item.append(link);
  return item;
}
