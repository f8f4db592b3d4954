import { terminalAnchor } from '../../diagram/anchor.ts';
import { readVisits } from '../../job/kept-visits.ts';
import { capital, terminalMark } from '../../words/index.ts';
import { chosenInstrument, chosenMode } from './chosen.ts';
import type { DrawingData } from './data.ts';
import { LEFT_ON_WORDS, readingOrder, UNREAD_WORDS } from './reach-words.ts';

/** Where a sheet leads. */
interface Ways {
  readonly readings: string | ((id: string) => void);
  /** Takes another of the terminals that a finger may have meant. */
  readonly choose: (id: string, meant: readonly string[]) => void;
}

/**
 * Opens a sheet over the drawing that says what a terminal is and what it reads, and leads to the
 * others that a finger may have meant.
 */
export function sheetOf(
  dialog: HTMLDialogElement,
  data: DrawingData,
  { readings, choose }: Ways,
  signal?: AbortSignal,
): (id: string, meant: readonly string[]) => void {
  dialog.addEventListener(
    'click',
    (event) => {
      // Outside its edges a tap lands on the dialog itself.
      if (event.target === dialog) dialog.close();
    },
    signal ? { signal } : {},
  );
  const goTo =
    typeof readings === 'string'
      ? readings
      : (id: string) => {
          dialog.close();
          readings(id);
        };
  const show = (id: string, meant: readonly string[] = []) => {
    dialog.replaceChildren(...contentOf(data, id, goTo, show));
    const others = meant.filter((other) => other !== id);
    if (others.length > 0)
      dialog.firstElementChild!.after(besideIt(data, id, others, (other) => choose(other, meant)));
    const close = dialog.querySelector<HTMLElement>('[data-close]')!;
    close.addEventListener('click', () => dialog.close());
    if (!dialog.open) dialog.showModal();
    // The key that brought this is gone, and would leave a keyboard nowhere.
    close.focus();
    dialog.scrollTop = 0;
  };
  return show;
}

/** Keys to the terminals beside the one that a finger found. */
function besideIt(
  data: DrawingData,
  id: string,
  others: readonly string[],
  choose: (id: string) => void,
): HTMLElement {
  const [item] = id.split('.', 1);
  const keys = others.map((other) => {
    const { name } = data.terminals[other]!;
    const isOwn = other.startsWith(`${item}.`);
    const key = make('button', '', isOwn ? terminalMark(other.slice(item!.length + 1)) : name);
    key.setAttribute('type', 'button');
    key.setAttribute('aria-label', name);
    key.dataset.beside = other;
    key.addEventListener('click', () => choose(other));
    return key;
  });
  const group = make('div', 'sheet-beside', make('span', 'quiet', 'Beside it:'), ...keys);
  group.setAttribute('role', 'group');
  group.setAttribute('aria-label', 'Terminals beside it');
  return group;
}

type Child = Node | string;

function make(tag: string, className: string, ...children: readonly Child[]): HTMLElement {
  const element = document.createElement(tag);
  if (className !== '') element.className = className;
  element.append(...children);
  return element;
}

function contentOf(
  data: DrawingData,
  id: string,
  readings: string | ((id: string) => void),
  show: (id: string) => void,
): HTMLElement[] {
  const { name, serves, place, reach, caution, against, instead, opens, leftOn } =
    data.terminals[id]!;
  const heading = make('h2', '', capital(name));
  heading.id = 'terminal-name';
  const close = make('button', '', 'Close');
  close.setAttribute('type', 'button');
  close.dataset.close = '';
  const head = make('div', 'sheet-head', heading, close);
  const parts = [head, make('p', 'quiet', serves ? `${capital(serves)}. ${place}.` : `${place}.`)];
  if (leftOn)
    parts.push(
      make(
        'p',
        'sheet-always',
        make('b', '', leftOn === 'live' ? 'Always live' : 'Never isolated'),
        ` ${LEFT_ON_WORDS[leftOn]}`,
      ),
    );
  const isRead = data.modes[chosenMode()]![2];
  for (const words of [isRead ? '' : UNREAD_WORDS, caution])
    if (words !== '') parts.push(make('p', 'sheet-caution', make('b', '', 'Caution'), ` ${words}`));
  if (against !== undefined) parts.push(...valuesOf(data, id, against));
  else if (instead !== null && instead !== id) {
    const other = make('button', 'as-link', data.terminals[instead]!.name);
    other.setAttribute('type', 'button');
    other.addEventListener('click', () => show(instead));
    parts.push(make('p', '', 'The same conductor is read at ', other, '.'));
  } else parts.push(make('p', '', 'No reading is taken from it.'));
  parts.push(make('p', '', reach));
  if (opens !== undefined && isRead) {
    const steps = readingOrder(opens).map((step) => make('li', '', step));
    parts.push(make('h3', '', 'To read it, in this order'), make('ol', 'sheet-order', ...steps));
  }
  parts.push(waysOn(data, id, readings));
  return parts;
}

/** What it reads: the mode chosen first, the other modes and instruments folded. */
function valuesOf(data: DrawingData, id: string, against: string): HTMLElement[] {
  const { values = [] } = data.terminals[id]!;
  const [mode, instrument] = [chosenMode(), chosenInstrument()];
  const text = (m: number, i: number) => data.texts[values[m]![i]!]!;
  const now = make(
    'p',
    'sheet-reading',
    make('b', '', text(mode, instrument)),
    ` to ${against}`,
    make(
      'span',
      'quiet',
      `${data.modes[mode]![1]}, ${data.instruments[instrument]![1].toLowerCase()}`,
    ),
  );
  const rows = data.modes.map(([, title], m) =>
    make('tr', '', rowHead(title), ...data.instruments.map((_, i) => make('td', '', text(m, i)))),
  );
  const head = make(
    'tr',
    '',
    rowHead('Mode'),
    ...data.instruments.map(([, title]) => columnHead(title)),
  );
  const table = make('table', '', make('thead', '', head), make('tbody', '', ...rows));
  const scroll = make('div', 'sheet-table', table);
  scroll.tabIndex = 0;
  scroll.setAttribute('role', 'region');
  scroll.setAttribute('aria-label', 'Every mode and instrument');
  const low = data.instruments[instrument]![0] === 'low-impedance';
  const trips = low && /^E\b/.test(against) ? [tripsWords()] : [];
  return [
    now,
    ...trips,
    make('details', '', make('summary', '', 'Every mode and instrument'), scroll),
  ];
}

/** 230 V over a few thousand ohms to earth is more than the 30 mA of an RCD (BS 7671 415.1, from memory). */
const tripsWords = (): HTMLElement =>
  make(
    'p',
    'sheet-caution',
    make('b', '', 'Caution'),
    ' A low-impedance meter to earth can trip the RCD or RCBO, and then all reads no volts. Read to neutral instead where you can.',
  );

function columnHead(text: string): HTMLElement {
  const head = make('th', '', text);
  head.setAttribute('scope', 'col');
  return head;
}

function rowHead(text: string): HTMLElement {
  const head = make('th', '', text);
  head.setAttribute('scope', 'row');
  return head;
}

const ROW = 'Its place among the readings';

/** To its row among the readings, and to the open job where there is one. */
function waysOn(
  { system, terminals }: DrawingData,
  id: string,
  readings: string | ((id: string) => void),
): HTMLElement {
  const isAddress = typeof readings === 'string';
  const row = make(isAddress ? 'a' : 'button', isAddress ? '' : 'as-link', ROW);
  if (isAddress) row.setAttribute('href', `${readings}#${terminalAnchor(id)}`);
  else {
    row.setAttribute('type', 'button');
    row.addEventListener('click', () => readings(id));
  }
  const visit = readVisits()?.find((one) => one.system === system);
  const base = document.body.dataset.base ?? '/';
  // Where no reading is taken, none is entered.
  if (!visit || terminals[id]!.against === undefined) return make('p', 'sheet-ways', row);
  const job = make('a', '', 'Enter a reading in the open job');
  job.setAttribute('href', `${base}job/#${visit.id}/${encodeURIComponent(id)}`);
  return make('p', 'sheet-ways', job, row);
}
