import { useEffect, useRef } from 'preact/hooks';
import { answerDrawing } from '../../components/diagram/answer.ts';
import { terminalAnchor } from '../../diagram/anchor.ts';
import { href } from '../../job/ui/parts.tsx';
import type { Worked } from '../desk.ts';
import { NotAsItShould } from './readings.tsx';

interface Props {
  readonly drawings: Worked['drawings'];
  readonly told: Worked['told'];
  /** Id and title of the mode chosen. */
  readonly mode: { readonly id: string; readonly title: string };
  readonly isWrong: boolean;
  /** Leads to the readings of a terminal, by its anchor. */
  readonly onTerminal: (anchor: string) => void;
}

/** What of a drawing changes with the mode. */
const CHANGING = ['live', 'between', 'closed', 'on'] as const;
/** What a part is marked with whatever the mode: the rules that the page brings know no mode. */
const ALWAYS = '*';

/** The wiring drawn, with the mode chosen shown in it: upright on a phone, across on a desk. */
export function Drawing({ drawings, told, mode, isWrong, onTerminal }: Props) {
  const place = useRef<HTMLElement>(null);
  useEffect(() => {
    const parsed = [drawings.narrow, drawings.landscape].flatMap((svg) =>
      svg === undefined ? [] : [new DOMParser().parseFromString(svg, 'image/svg+xml')],
    );
    const drawn = parsed.map(({ documentElement }) => document.importNode(documentElement, true));
    for (const drawing of drawn) keepModes(drawing);
    place.current?.replaceChildren(...drawn);
    // It is moved by the arrow keys.
    if (place.current) place.current.tabIndex = 0;
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
    if (!told || drawings.narrow === undefined) return;
    const gone = new AbortController();
    answerDrawing(told, (id) => pick.current(terminalAnchor(id)), gone.signal);
    return () => gone.abort();
  }, [told, drawings]);
  const isTwo = drawings.landscape !== undefined;
  return (
    <section id="diagram" aria-labelledby="diagram-title">
      <h2 id="diagram-title">Connection diagram</h2>
      {isWrong && <NotAsItShould />}
      <p class="legend">
        In mode <b>{mode.title}</b>. Thick and ticked, filled screw: live. Dashed, half screw: part
        volts. Thin: no volts. <a href={href('/about/#signs')}>All signs</a>
      </p>
      <Tools told={told} />
      {drawings.narrow === undefined && <p role="status">Drawing it.</p>}
      <section
        class={isTwo ? 'pan two-ways' : 'pan'}
        ref={place}
        aria-label="Connection diagram, may be moved sideways"
      />
      <p class="drawing-line off-paper" id="drawing-line" role="status">
        Tap a core: all that it joins lights up. Tap a terminal: what it reads.
      </p>
    </section>
  );
}

/** Keys over the drawing and what they open, as on a system's own page. */
const Tools = ({ told }: Pick<Props, 'told'>) => (
  <>
    <div class="drawing-tools off-paper">
      <div class="drawing-keys">
        <button type="button" id="drawing-full">
          Full screen
        </button>
        <div class="drawing-playing">
          <button type="button" id="drawing-back" hidden>
            Step back
          </button>
          <button type="button" id="drawing-play">
            Play
          </button>
        </div>
        <select id="drawing-load" class="drawing-load" aria-label="Live path of a load">
          <option value="">Live path</option>
          {told?.loads.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      </div>
    </div>
    <dialog class="drawing-full" id="drawing-dialog" aria-label="Connection diagram, full screen">
      <div class="drawing-top">
        <button type="button" id="drawing-smaller" aria-label="Smaller">
          −
        </button>
        <button type="button" id="drawing-larger" aria-label="Larger">
          +
        </button>
        <button type="button" id="drawing-fit">
          Fit
        </button>
        <button type="button" id="drawing-close">
          Close
        </button>
      </div>
    </dialog>
    <dialog class="terminal-sheet" id="terminal-sheet" aria-labelledby="terminal-name" />
  </>
);

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
