import { useEffect, useRef, useState } from 'preact/hooks';
import type { Desk } from '../desk.ts';
import type { DeskState } from '../desk-state.ts';
import type { FoundParts } from '../found-parts.ts';
import { href } from './parts.tsx';

/** How a terminal is marked on the drawing. */
export type Mark = 'live' | 'dead' | 'other';

interface Props {
  readonly system: string;
  /** Of an arrangement from parts, which is drawn here: its drawing once it is there. */
  readonly drawn?: { readonly svg: string | null; readonly ask: () => void } | undefined;
  /** What is said above it once it is there. */
  readonly hint: string;
  /** How terminals are marked: `E1.SL`. */
  readonly marks?: ReadonlyMap<string, Mark>;
  /** Those that were read, not worked out. */
  readonly taken?: ReadonlyMap<string, unknown>;
  /** How a circuit leaves every part; as drawn with no supply where none is given. */
  readonly parts?: FoundParts;
  /** Item that it is moved to once it is there; the top where none is named. */
  readonly near?: string | null;
  readonly onTerminal?: (id: string) => void;
}

/** Where the open job’s drawing comes from, where it cannot be fetched. */
export const drawnBy = (desk: Desk, { sheet, drawing }: DeskState): Props['drawn'] =>
  sheet?.composed ? { svg: drawing, ask: () => desk.askDrawing() } : undefined;

/** Said of a drawing that has come: its hint stands then, as it is by now. */
const THERE = '';

/** What a part is marked with whatever the mode; the drawing’s own marks are of a sound system. */
const ALWAYS = '*';

/** Stands every part of a drawing as a circuit leaves it. */
function stand(drawing: Element, { live, between, closed, on }: FoundParts): void {
  const sets = { live: new Set(live), between: new Set(between) };
  const [isClosed, isOn] = [new Set(closed), new Set(on)];
  const PARTS = '[data-conductor],[data-element],[data-node],[data-terminal]';
  for (const part of drawing.querySelectorAll<SVGElement>(PARTS)) {
    const { conductor, element, node, terminal, toggle } = part.dataset;
    const id = conductor ?? element ?? terminal ?? node ?? '';
    const mark = (name: string, so: boolean) => {
      if (so) part.setAttribute(name, ALWAYS);
      else part.removeAttribute(name);
    };
    // The supply itself never changes.
    if (part.classList.contains('mains')) continue;
    for (const [name, ids] of Object.entries(sets)) mark(`data-${name}`, ids.has(id));
    if (element === undefined) continue;
    // A breaker passes where its switch does too.
    mark('data-closed', isClosed.has(id) && (toggle === undefined || isClosed.has(toggle)));
    mark('data-on', isOn.has(id));
  }
}

/** Moves what can be moved of a drawing so that an item's terminals stand in its middle. */
function moveTo(pan: HTMLElement, item: string): void {
  const all = [...pan.querySelectorAll(`[data-terminal^="${item}."]`)].map((terminal) =>
    terminal.getBoundingClientRect(),
  );
  const own = pan.getBoundingClientRect();
  if (all.length === 0) return;
  const middle = (from: 'left' | 'top', to: 'right' | 'bottom') =>
    (Math.min(...all.map((one) => one[from])) + Math.max(...all.map((one) => one[to]))) / 2;
  pan.scrollTop += middle('top', 'bottom') - own.top - own.height / 2;
  pan.scrollLeft += middle('left', 'right') - own.left - own.width / 2;
}

/** The connection diagram, with what is live marked on it; a tap on a terminal picks it. */
export function Drawing({
  system,
  drawn,
  hint,
  marks,
  taken,
  parts,
  near = null,
  onTerminal,
}: Props) {
  const place = useRef<HTMLElement>(null);
  const pick = useRef(onTerminal);
  pick.current = onTerminal;
  const [said, setSaid] = useState('Fetching the diagram.');
  const svg = drawn?.svg;
  const show = (text: string) => {
    const { documentElement } = new DOMParser().parseFromString(text, 'image/svg+xml');
    place.current?.replaceChildren(document.importNode(documentElement, true));
    setSaid(THERE);
  };
  useEffect(() => {
    if (!drawn) return;
    if (drawn.svg === null) drawn.ask();
    else show(drawn.svg);
  }, [system, svg]);
  useEffect(() => {
    const gone = new AbortController();
    const { signal } = gone;
    place.current?.addEventListener(
      'click',
      (event) => {
        const terminal =
          event.target instanceof Element ? event.target.closest('[data-terminal]') : null;
        const id = terminal?.getAttribute('data-terminal');
        if (!id) return;
        event.preventDefault();
        pick.current?.(id);
      },
      { signal },
    );
    if (!drawn)
      fetch(href(`/job/${system}.svg`), { signal })
        .then((response) => (response.ok ? response.text() : Promise.reject()))
        .then(show)
        .catch(() => {
          if (!signal.aborted) setSaid('The diagram could not be fetched.');
        });
    return () => gone.abort();
  }, [system]);
  useEffect(() => {
    for (const terminal of place.current?.querySelectorAll('[data-terminal]') ?? []) {
      const id = terminal.getAttribute('data-terminal') ?? '';
      const mark = marks?.get(id);
      if (mark) terminal.setAttribute('data-read', mark);
      else terminal.removeAttribute('data-read');
      terminal.toggleAttribute('data-taken', taken?.has(id) ?? false);
    }
  }, [said, marks, taken]);
  useEffect(() => {
    if (place.current && parts) stand(place.current, parts);
  }, [said, parts]);
  useEffect(() => {
    if (place.current && near !== null && said === THERE) moveTo(place.current, near);
  }, [said, near]);
  return (
    <>
      <p role="status" class="quiet">
        {said === THERE ? hint : said}
      </p>
      <section class="pan" ref={place} aria-label="Connection diagram, may be moved sideways" />
    </>
  );
}
