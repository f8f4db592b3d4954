import { useEffect, useRef } from 'preact/hooks';
import type { Worked } from '../desk.ts';
import { NotAsItShould } from './readings.tsx';

interface Props {
  readonly drawings: Worked['drawings'];
  /** Id and title of the mode chosen. */
  readonly mode: { readonly id: string; readonly title: string };
  readonly isWrong: boolean;
  /** A tap on a terminal, by its anchor. */
  readonly onTerminal: (anchor: string) => void;
}

/** What of a drawing changes with the mode. */
const CHANGING = ['live', 'between', 'closed', 'on'] as const;
/** What a part is marked with whatever the mode: the rules that the page brings know no mode. */
const ALWAYS = '*';

/** The wiring drawn, with the mode chosen shown in it: upright on a phone, across on a desk. */
export function Drawing({ drawings, mode, isWrong, onTerminal }: Props) {
  const place = useRef<HTMLElement>(null);
  useEffect(() => {
    const parsed = [drawings.narrow, drawings.landscape].flatMap((svg) =>
      svg === undefined ? [] : [new DOMParser().parseFromString(svg, 'image/svg+xml')],
    );
    const drawn = parsed.map(({ documentElement }) => document.importNode(documentElement, true));
    for (const drawing of drawn) keepModes(drawing);
    place.current?.replaceChildren(...drawn);
  }, [drawings]);
  useEffect(() => {
    for (const part of place.current?.querySelectorAll<SVGElement>('[data-modes]') ?? []) {
      const states = JSON.parse(part.dataset.modes ?? '{}') as Record<string, string>;
      for (const [state, modes] of Object.entries(states)) {
        const isSo = modes.split(' ').some((one) => one === mode.id || one === ALWAYS);
        if (isSo) part.setAttribute(`data-${state}`, ALWAYS);
        else part.removeAttribute(`data-${state}`);
      }
    }
  }, [drawings, mode.id]);
  const pick = useRef(onTerminal);
  pick.current = onTerminal;
  useEffect(() => {
    const gone = new AbortController();
    place.current?.addEventListener(
      'click',
      (event) => {
        const link = event.target instanceof Element ? event.target.closest('a') : null;
        const anchor = link?.getAttribute('href')?.split('#')[1];
        if (!anchor) return;
        event.preventDefault();
        pick.current(anchor);
      },
      { signal: gone.signal },
    );
    return () => gone.abort();
  }, []);
  const isTwo = drawings.landscape !== undefined;
  return (
    <section id="diagram" aria-labelledby="diagram-title">
      <h2 id="diagram-title">Connection diagram</h2>
      {isWrong && <NotAsItShould />}
      <p class="legend">
        In mode <b>{mode.title}</b>. Thick and ticked, filled screw: live. Dashed, half screw: part
        volts. Thin: no volts. A terminal leads to its readings.
      </p>
      {drawings.narrow === undefined && <p role="status">Drawing it.</p>}
      <section
        class={isTwo ? 'pan two-ways' : 'pan'}
        ref={place}
        aria-label="Connection diagram, may be moved sideways"
      />
    </section>
  );
}

/** Keeps in which modes each part is in which state, before one of them is shown. */
function keepModes(drawing: Element): void {
  for (const part of drawing.querySelectorAll<SVGElement>('*')) {
    const states = CHANGING.flatMap((state): [string, string][] => {
      const modes = part.dataset[state];
      return modes === undefined ? [] : [[state, modes]];
    });
    if (states.length > 0) part.dataset.modes = JSON.stringify(Object.fromEntries(states));
  }
}
