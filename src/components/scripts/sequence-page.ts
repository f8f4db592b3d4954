const tree = document.getElementById('all-steps')!;
const said = document.getElementById('walk-said');
/** As it stands at first: what a reader without scripts reads is text to a browser with them. */
const folded = [...tree.childNodes];
let unfolded: readonly Node[] | undefined;
let isRead = false;

/** Address that begins a visit here, or names one that was begun. */
const OF_VISIT = /^#(?:new|[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})$/;

/** Every step and end, in its order. */
function whole(): readonly Node[] {
  unfolded ??= folded.flatMap((node) =>
    node instanceof Element && node.localName === 'noscript'
      ? [...new DOMParser().parseFromString(node.textContent, 'text/html').body.childNodes]
      : [node],
  );
  return unfolded;
}

/** Shows what the address asks for: a visit in the panel, or a place of the tree. */
function follow(): void {
  const { hash } = location;
  if (OF_VISIT.test(hash)) void walk();
  else if (hash !== '' && !isRead) read(hash.slice(1));
  else if (isRead) {
    const place = document.getElementById(hash.slice(1));
    if (place?.closest('.one')) turnTo(place);
  }
}

/** Opens the part of the tree that a place lies in, and folds the one before it to its heading. */
function turnTo(place: Element): void {
  for (const one of tree.querySelectorAll('.one.at')) one.classList.remove('at');
  place.closest('.one')?.classList.add('at');
  place.scrollIntoView();
}

/** Unfolds the tree where the address names a place of it. */
function read(id: string): void {
  if (id !== tree.id && !whole().some((node) => node instanceof Element && node.id === id)) return;
  isRead = true;
  tree.replaceChildren(...whole());
  tree.classList.add('folded');
  const place = document.getElementById(id)!;
  turnTo(place === tree ? (tree.querySelector('.one') ?? tree) : place);
  const heading = place.querySelector<HTMLElement>('h2');
  heading?.setAttribute('tabindex', '-1');
  heading?.focus({ preventScroll: true });
}

/** The panel of a job, loaded once it is wanted: from then on it follows the address itself. */
async function walk(): Promise<void> {
  const before = said?.textContent ?? '';
  const say = (text: string) => said?.replaceChildren(text);
  try {
    say('Opening the job.');
    await import('../../job/ui/walk.tsx');
    say(before);
  } catch {
    say(
      'It could not be loaded: no signal, and this phone has not saved it. Read the steps below.',
    );
    location.hash = `#${tree.id}`;
  }
}

addEventListener('hashchange', follow);
// Paper has every line and all ends, whatever stands on the screen.
addEventListener('beforeprint', () => tree.replaceChildren(...whole()));
addEventListener('afterprint', () => {
  if (!isRead) tree.replaceChildren(...folded);
});
follow();
