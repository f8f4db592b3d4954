import { terminalMark } from '../words/index.ts';
import { terminalAnchor } from './anchor.ts';
import type { Step } from './inside.ts';
import type { Lead } from './leads.ts';
import { tag } from './markup.ts';
import type { States } from './states.ts';
import { ALWAYS } from './styles.ts';

type Attributes = Readonly<Record<string, string>>;

/** Writes on each part of a drawing in which modes it is in which state. */
export class Marks {
  readonly #states: States;
  readonly #readings: string | null;
  /** Whether what no mode shows, and what only a pointer asks for, is left out. */
  readonly isSparing: boolean;

  /**
   * @param readings page that terminals link to for their readings, empty for the same; null for no links.
   * @param isSparing whether it is for paper, which shows the modes and nothing besides
   */
  constructor(states: States, readings: string | null, isSparing = false) {
    this.#states = states;
    this.#readings = readings;
    this.isSparing = isSparing;
  }

  /** Markup that shows in some states alone: none where a sparing drawing never has one of them. */
  ifEver(marks: Attributes, states: readonly (keyof typeof STANDING)[], markup: string): string {
    return !this.isSparing || states.some((state) => marks[STANDING[state]] !== '') ? markup : '';
  }

  /** Live and between, of a point by its node id. */
  node(id: string): Attributes {
    return standing(this.#states.live(id), this.#states.between(id));
  }

  /** Of a conductor: live where either end is, for a broken one is no safer than its live end. */
  conductor({ ends }: Lead): Attributes {
    return this.#either(ends);
  }

  /** Of an element: its ends, whether it is closed, whether it works. */
  element(step: Step, left: string, right: string): Attributes {
    const ends = this.#either([left, right]);
    switch (step.symbol) {
      case 'link':
      case 'resistor':
        return ends;
      case 'contact':
      case 'breaker':
      case 'fuse':
        return { ...ends, 'data-closed': this.#closed(step).join(' ') };
      case 'mains':
        return { ...ends, 'data-on': ALWAYS };
      default:
        return { ...ends, 'data-on': this.#states.on(step.id).join(' ') };
    }
  }

  /**
   * A terminal's drawing, as a link where links are wanted.
   * @param serves what it serves here, as printed under its name; empty when nothing is.
   */
  terminal(id: string, className: string, serves: string, ...children: readonly string[]): string {
    const shared = { class: className, 'data-terminal': id, ...this.node(id) };
    if (this.#readings === null) return tag('g', shared, ...children);
    const dot = id.indexOf('.');
    const name = `${id.slice(0, dot)} ${terminalMark(id.slice(dot + 1))}`;
    const label = `${[name, serves].filter(Boolean).join(' ')}, readings`;
    const link = { href: `${this.#readings}#${terminalAnchor(id)}`, 'aria-label': label };
    return tag('a', { ...link, ...shared }, ...children);
  }

  /** Modes in which a contact is closed; of a breaker, in which its switch is too. */
  #closed({ id, toggle }: Step): readonly string[] {
    const closed = this.#states.closed(id);
    if (toggle === undefined) return closed;
    const on = this.#states.closed(toggle);
    return closed.filter((mode) => on.includes(mode));
  }

  #either(nodes: readonly string[]): Attributes {
    const inAny = (of: (id: string) => readonly string[]) =>
      this.#states.modes.filter((mode) => nodes.some((id) => of(id).includes(mode)));
    const live = inAny((id) => this.#states.live(id));
    const between = inAny((id) => this.#states.between(id)).filter((mode) => !live.includes(mode));
    return standing(live, between);
  }
}

const STANDING = { live: 'data-live', between: 'data-between' } as const;

const standing = (live: readonly string[], between: readonly string[]): Attributes => ({
  [STANDING.live]: live.join(' '),
  [STANDING.between]: between.join(' '),
});
