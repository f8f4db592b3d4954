import { useEffect, useRef, useState } from 'preact/hooks';
import { href } from './parts.tsx';

/** How a terminal is marked on the drawing. */
export type Mark = 'live' | 'dead' | 'other';

interface Props {
  readonly system: string;
  /** What is said above it once it is there. */
  readonly hint: string;
  /** How terminals are marked: `E1.SL`. */
  readonly marks?: ReadonlyMap<string, Mark>;
  /** Those that were read, not worked out. */
  readonly taken?: ReadonlyMap<string, unknown>;
  readonly onTerminal?: (id: string) => void;
}

/** The connection diagram, with what is live marked on it; a tap on a terminal picks it. */
export function Drawing({ system, hint, marks, taken, onTerminal }: Props) {
  const place = useRef<HTMLElement>(null);
  const pick = useRef(onTerminal);
  pick.current = onTerminal;
  const [said, setSaid] = useState('Fetching the diagram.');
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
    fetch(href(`/job/${system}.svg`), { signal })
      .then((response) => (response.ok ? response.text() : Promise.reject()))
      .then((text) => {
        const { documentElement } = new DOMParser().parseFromString(text, 'image/svg+xml');
        place.current?.replaceChildren(document.importNode(documentElement, true));
        setSaid(hint);
      })
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
  return (
    <>
      <p role="status" class="quiet">
        {said}
      </p>
      <section class="pan" ref={place} aria-label="Connection diagram, may be moved sideways" />
    </>
  );
}
