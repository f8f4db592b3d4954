import { chosenMode } from './chosen.ts';
import type { DrawingData } from './data.ts';
import { fullScreen } from './full.ts';
import { lightOf } from './light.ts';
import { terminalLine } from './lines.ts';
import { FINGERTIP, nearest } from './nearest.ts';
import { playBy } from './play.ts';
import { sheetOf } from './sheet.ts';
import { stepFrom } from './steps.ts';

/** Room between what was tapped and the sheet over it, px. */
const CLEAR = 24;

const by = <E extends HTMLElement>(id: string): E => document.getElementById(id) as E;

/**
 * Makes the drawing on a page answer: a tap on a terminal opens its sheet, a core lights its net, a
 * load its live path, a key tells how the mode chosen comes about. Terminals are drawn lower than a
 * finger finds: beside one the nearest answers, and its sheet offers what else may have been meant.
 * @param readings where a terminal's row among the readings is: the address of their page, or what
 * leads there
 * @param signal once aborted nothing answers any more
 */
export function answerDrawing(
  data: DrawingData,
  readings: string | ((terminal: string) => void),
  signal?: AbortSignal,
): void {
  const listening = signal ? { signal } : {};
  const pan = document.querySelector<HTMLElement>('#diagram .pan')!;
  const line = by('drawing-line');
  const load = by<HTMLSelectElement>('drawing-load');
  const light = lightOf(pan, line);
  const openSheet = sheetOf(
    by<HTMLDialogElement>('terminal-sheet'),
    data,
    { readings, choose: answer },
    signal,
  );
  const play = playBy(by('drawing-play'), by('drawing-back'), data, light, signal);

  fullScreen(by<HTMLDialogElement>('drawing-dialog'), by('drawing-full'), { line, pan }, signal);

  const terminalOf = (target: EventTarget | null) =>
    target instanceof Element
      ? target.closest('[data-terminal]')?.getAttribute('data-terminal')
      : null;

  function lightTerminal(id: string): void {
    const { net } = data.terminals[id]!;
    const { terminals, cores } = data.nets[net]!;
    forget();
    light.on([...terminals, ...cores], terminalLine(data, id));
  }

  /** Moves what was tapped out from under the sheet. */
  function liftAbove(target: Element): void {
    const { top } = by('terminal-sheet').getBoundingClientRect();
    const over = target.getBoundingClientRect().bottom + CLEAR - top;
    if (over <= 0) return;
    if (pan.closest('dialog')) pan.scrollBy(0, over);
    else scrollBy(0, over);
  }

  /** Whatever was lit before was of another choice. */
  function forget(): void {
    play.stop();
    load.value = '';
  }

  /** Opens a terminal's sheet, which offers the others that a finger may have meant. */
  function answer(id: string, meant: readonly string[]): void {
    lightTerminal(id);
    openSheet(id, meant);
    const drawn = linksShown().find((link) => link.dataset.terminal === id);
    if (drawn) liftAbove(drawn);
  }

  /** Terminals of the layout that is shown. */
  const linksShown = () =>
    [...pan.querySelectorAll<SVGAElement>('a[data-terminal]')].filter(
      (link) => link.getClientRects().length > 0,
    );

  /** Terminals within a fingertip of a tap, the nearest first. */
  function underFinger({ clientX, clientY }: MouseEvent): string[] {
    const cells = linksShown().map((link) => {
      const { left, top, right, bottom } = link.querySelector('.cell')!.getBoundingClientRect();
      return { id: link.dataset.terminal!, left, top, right, bottom };
    });
    // A page that two fingers have enlarged is as much larger under the fingertip.
    return nearest(cells, clientX, clientY, FINGERTIP / (visualViewport?.scale ?? 1));
  }

  /** Whether what clicks next is a finger: a mouse hits what it points at, and keys have no place. */
  let isFinger = false;
  pan.addEventListener(
    'pointerdown',
    ({ pointerType }) => {
      isFinger = pointerType !== 'mouse';
    },
    listening,
  );

  pan.addEventListener(
    'click',
    (event) => {
      const hit = terminalOf(event.target);
      const core =
        event.target instanceof Element
          ? event.target.closest('[data-conductor]')?.getAttribute('data-conductor')
          : null;
      const meant = isFinger && event.detail > 0 && !core ? underFinger(event) : [];
      const id = hit ?? meant[0];
      if (id) {
        event.preventDefault();
        answer(id, meant);
        return;
      }
      forget();
      if (!core) {
        light.off();
        return;
      }
      const net = data.nets.find(({ cores }) => cores.includes(core));
      const said = data.cores[core] ?? 'A spare core, cut back at both ends: joined to nothing.';
      light.on(net ? [...net.terminals, ...net.cores] : [core], said);
    },
    listening,
  );

  pan.addEventListener(
    'focusin',
    ({ target }) => {
      const id = terminalOf(target);
      // A tap lights by itself; a key that comes to a terminal says what it is.
      if (id && target instanceof Element && target.matches(':focus-visible')) lightTerminal(id);
    },
    listening,
  );

  pan.addEventListener(
    'keydown',
    (event) => {
      const id = terminalOf(event.target);
      const next = id && stepFrom(data, id, event.key);
      if (!next) return;
      event.preventDefault();
      linksShown()
        .find((link) => link.dataset.terminal === next)
        ?.focus({ focusVisible: true } as FocusOptions);
    },
    listening,
  );

  function lightLoad(): void {
    const chosen = data.loads.find(({ id }) => id === load.value);
    play.stop();
    if (!chosen) {
      light.off();
      return;
    }
    const path = chosen.paths[chosen.byMode[chosenMode()]!];
    const [, title] = data.modes[chosenMode()]!;
    const said = path ? 'its live path is lit' : 'off in this mode';
    light.on(path ?? [chosen.id], `${chosen.name}: ${said} (${title.toLowerCase()}).`);
  }
  load.addEventListener('change', lightLoad, listening);
  document.addEventListener(
    'change',
    ({ target }) => {
      if (!(target instanceof HTMLInputElement) || target.name !== 'mode') return;
      if (load.value === '') {
        play.stop();
        light.off();
      } else lightLoad();
    },
    listening,
  );
}
