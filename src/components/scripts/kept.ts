/** A page the reader comes back to. */
export interface KeptPage {
  /** Path on this site. */
  readonly path: string;
  readonly title: string;
  readonly kind: string;
}
type ListName = 'recents' | 'pins' | 'van';

const MOST_RECENT = 6;
/** Pinned pages that stand in sight; of more, the last one pinned does, and the rest is folded. */
const MOST_IN_SIGHT = 2;
/** A name stands for one shape for good: another shape is kept under another name. */
const keyOf = (name: ListName) => `proveline.${name}`;

/** Pages of a list, newest first; none when storage is closed to us or holds something else. */
export function readList(name: ListName): KeptPage[] {
  try {
    return partsOf(localStorage.getItem(keyOf(name))).flatMap(pageIn);
  } catch {
    return [];
  }
}

function pageIn(value: unknown): KeptPage[] {
  if (typeof value !== 'object' || value === null) return [];
  const { path, title, kind } = value as Record<string, unknown>;
  // Two slashes would lead to another site.
  if (typeof path !== 'string' || !/^\/(?!\/)/.test(path) || typeof title !== 'string') return [];
  return [{ path, title, kind: typeof kind === 'string' ? kind : '' }];
}

/** What a list holds; nothing where it is no list. */
function partsOf(text: string | null): unknown[] {
  try {
    const found: unknown = JSON.parse(text ?? '[]');
    return Array.isArray(found) ? found : [];
  } catch {
    return [];
  }
}

/**
 * Keeps a list. What stood there and cannot be read is first set aside under another name: it
 * may be what a reader pinned.
 */
export function writeList(name: ListName, list: readonly KeptPage[]): void {
  try {
    const before = localStorage.getItem(keyOf(name));
    const parts = partsOf(before);
    if (
      before !== null &&
      before !== '[]' &&
      parts.flatMap(pageIn).length < Math.max(1, parts.length)
    )
      localStorage.setItem(`${keyOf(name)}.unread`, before);
    localStorage.setItem(keyOf(name), JSON.stringify(list));
  } catch {
    // Private windows refuse storage; the page works without it.
  }
}

/** Has this page stand in the lists where it stands under an address that it had before. */
export function renameKept(): void {
  const page = thisPage();
  const former = document.body.dataset.formerly?.split(' ');
  if (!page || !former) return;
  for (const name of ['recents', 'pins', 'van'] as const) {
    const list = readList(name);
    if (!list.some(({ path }) => former.includes(path))) continue;
    const named = list.map((one) => (former.includes(one.path) ? page : one));
    writeList(name, [...new Map(named.map((one) => [one.path, one])).values()]);
  }
}

function thisPage(): KeptPage | null {
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

/** Buttons that keep this page in a list, or take it off again. */
const KEEPS: readonly (readonly [act: string, list: ListName])[] = [
  ['pin', 'pins'],
  ['van', 'van'],
];

/** Shows the buttons that pin this page to the home page, or say that its device is in the van. */
export function offerKeeping(): void {
  const page = thisPage();
  for (const [act, list] of KEEPS) {
    const button = document.querySelector<HTMLButtonElement>(`[data-act="${act}"]`);
    if (!page || !button) continue;
    const isKept = () => readList(list).some(({ path }) => path === page.path);
    const show = () => button.setAttribute('aria-pressed', String(isKept()));
    button.hidden = false;
    show();
    button.addEventListener('click', () => {
      const others = readList(list).filter(({ path }) => path !== page.path);
      writeList(list, isKept() ? others : [page, ...others]);
      show();
    });
  }
}

/** Moves what is in the van to the head of every list of devices that it stands in, and says so. */
export function showVan(): void {
  const van = new Set(readList('van').map(({ path }) => path));
  for (const one of [...document.querySelectorAll<HTMLElement>('[data-device]')].reverse()) {
    if (!van.has(one.dataset.device ?? '')) continue;
    one.querySelector<HTMLElement>('.carried')?.removeAttribute('hidden');
    one.parentElement?.prepend(one);
  }
}

/** Fills the home page's lists of pinned and recent pages; one that is empty is not shown. */
export function showKept(): void {
  for (const list of document.querySelectorAll<HTMLElement>('[data-list]')) {
    const name = list.dataset.list === 'pins' ? 'pins' : 'recents';
    const kept = readList(name);
    const rest = document.querySelector(`[data-rest-of="${name}"]`);
    const first = rest && kept.length > MOST_IN_SIGHT ? 1 : kept.length;
    list.replaceChildren(...kept.slice(0, first).map(entryOf));
    rest?.replaceChildren(...kept.slice(first).map(entryOf));
    const more = document.querySelector(`[data-more-of="${name}"]`);
    if (more) more.textContent = `${kept.length - first} more pinned`;
    tellCount(name, kept.length);
  }
}

/** Says at the root how many a list holds, as the page's early script does: styles show it by that. */
export function tellCount(name: string, count: number): void {
  const { dataset } = document.documentElement;
  if (count > 0) dataset[name] = String(Math.min(count, 6));
  else delete dataset[name];
}

function entryOf({ path, title, kind }: KeptPage): HTMLLIElement {
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
