import type { Device, Logic } from '../../schemas/index.ts';
import type { Branch, ElementBranch, Item } from './network.ts';
import { type State, usualOf } from './state.ts';

/**
 * A state as numbers: conditions, windings and fuses as 0 or 1, positions by their place in
 * their mechanism's list. Settling compares and looks up thousands of states a second.
 */
export type Marks = Uint8Array;

/** Whether two states, or two patterns, are the same mark by mark. */
export function isSame(a: Uint8Array, b: Uint8Array): boolean {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

/** A rule of a device made ready to be asked of a state. */
export type Rule = (marks: Marks) => boolean;

/** Mark of a mechanism whose position is not known. */
const NOWHERE = 255;

/** Sets of conditions kept of a register: those of its modes, and some thousands that are tried. */
const MOST_CONDITIONS = 4096;

/** A step that a mechanism can take: from one position, where a rule holds, to another. */
export interface Move {
  readonly item: string;
  /** Place of the mechanism's mark. */
  readonly at: number;
  readonly from: number;
  readonly to: number;
  readonly when: Rule;
}

/**
 * Where everything that can change in a system's items has its mark. The same for all circuits
 * made of the same items, however they are wired and whatever is wrong with them.
 */
export class Register {
  /** Places of the marks, by ITEM.condition, which come first, and by branch id. */
  readonly conditions: ReadonlyMap<string, number>;
  readonly energised: ReadonlyMap<string, number>;
  readonly held: ReadonlyMap<string, number>;
  readonly blown: ReadonlyMap<string, number>;
  /** Place of each mechanism's mark, by item. */
  readonly positions: ReadonlyMap<string, number>;
  readonly size: number;
  /** Where the marks of windings begin, energised and held, and where they end. */
  readonly windings: { readonly from: number; readonly to: number };
  /** Every place of an item's marks but its conditions', by item. */
  readonly placesOf: ReadonlyMap<string, readonly number[]>;
  /** Every step any mechanism can take, in order of items and their lists. */
  readonly moves: readonly Move[];
  readonly outcomes: readonly { readonly id: string; readonly when: Rule }[];
  /** Marks of every condition as it usually is, and of nothing else. */
  readonly usual: Marks;
  readonly #items: ReadonlyMap<string, Item>;
  readonly #conditions = new Map<string, ReadonlyMap<string, boolean>>();
  readonly #contacts = new WeakMap<Branch, Rule>();

  constructor(items: ReadonlyMap<string, Item>) {
    this.#items = items;
    let size = 0;
    const placesOf = new Map<string, number[]>([...items.keys()].map((item) => [item, []]));
    const placed = (joint: string, namesOf: (device: Device) => readonly string[]) => {
      const places = new Map<string, number>();
      for (const [item, { device }] of items) {
        for (const name of namesOf(device)) {
          if (joint !== '.') placesOf.get(item)!.push(size);
          places.set(`${item}${joint}${name}`, size++);
        }
      }
      return places;
    };
    const windings = ({ elements }: Device) =>
      Object.keys(elements).filter((name) => 'operates' in elements[name]!);
    this.conditions = placed('.', ({ conditions }) => Object.keys(conditions));
    const from = size;
    this.energised = placed('/', windings);
    this.held = placed('/', windings);
    this.windings = { from, to: size };
    this.blown = placed('/', ({ elements }) =>
      Object.keys(elements).filter((name) => /^(fuse|breaker)$/.test(elements[name]!.kind)),
    );
    this.positions = placed('', ({ mechanism }) => (mechanism ? [''] : []));
    this.placesOf = placesOf;
    this.size = size;
    this.usual = new Uint8Array(this.conditions.size);
    for (const [id, value] of usualOf(items)) this.usual[this.conditions.get(id)!] = value ? 1 : 0;
    this.moves = [...items].flatMap(([item, { device }]) => {
      const { positions = [], moves = [] } = device.mechanism ?? {};
      return moves.map(({ from, to, when }) => ({
        item,
        at: this.positions.get(item)!,
        from: positions.indexOf(from),
        to: positions.indexOf(to),
        when: this.#ready(when, item),
      }));
    });
    this.outcomes = [...items].flatMap(([item, { device }]) =>
      Object.entries(device.outcomes).map(([name, { when }]) => ({
        id: `${item}.${name}`,
        when: this.#ready(when, item),
      })),
    );
  }

  /** A state as marks. Of what the items do not have nothing is noted. */
  marksOf({ conditions, energised, held, blown, positions }: State): Marks {
    const marks = new Uint8Array(this.size);
    const note = (at: number | undefined, mark: number) => {
      if (at !== undefined) marks[at] = mark;
    };
    for (const [id, value] of conditions) note(this.conditions.get(id), value ? 1 : 0);
    for (const id of energised) note(this.energised.get(id), 1);
    for (const id of held) note(this.held.get(id), 1);
    for (const id of blown) note(this.blown.get(id), 1);
    for (const [item, at] of this.positions) {
      const place = this.#positionsOf(item).indexOf(positions.get(item) ?? '');
      marks[at] = place === -1 ? NOWHERE : place;
    }
    return marks;
  }

  /** Every condition's value in a state, by ITEM.condition: one map for all states alike in them. */
  conditionsIn(marks: Marks): ReadonlyMap<string, boolean> {
    const { size } = this.conditions;
    const key: string = Reflect.apply(String.fromCharCode, null, marks.subarray(0, size));
    const known = this.#conditions.get(key);
    if (known) return known;
    if (this.#conditions.size >= MOST_CONDITIONS) this.#conditions.clear();
    const values = new Map<string, boolean>();
    for (const [id, at] of this.conditions) values.set(id, marks[at] === 1);
    this.#conditions.set(key, values);
    return values;
  }

  /** The state that marks stand for, under the conditions from which they come. */
  stateOf(marks: Marks, conditions: ReadonlyMap<string, boolean>): State {
    const marked = (places: ReadonlyMap<string, number>) => {
      const ids = new Set<string>();
      for (const [id, at] of places) if (marks[at] === 1) ids.add(id);
      return ids;
    };
    const positions = new Map<string, string>();
    for (const [item, at] of this.positions) {
      const mark = marks[at]!;
      if (mark !== NOWHERE) positions.set(item, this.#positionsOf(item)[mark]!);
    }
    return {
      conditions,
      energised: marked(this.energised),
      held: marked(this.held),
      positions,
      blown: marked(this.blown),
    };
  }

  /**
   * Whether a contact is closed, a fuse or breaker whole, a source powered, and the device that
   * it lies in on its base; null for a branch that no state changes.
   */
  isOn(branch: Branch): Rule | null {
    if (branch.kind !== 'element' && branch.presence === undefined) return null;
    const known = this.#contacts.get(branch);
    if (known) return known;
    const made = this.#switching(branch);
    if (made) this.#contacts.set(branch, made);
    return made;
  }

  #switching(branch: Branch): Rule | null {
    const own = branch.kind === 'element' ? this.#elementSwitching(branch) : null;
    if (branch.presence === undefined) return own;
    const isThere = marked(this.conditions.get(branch.presence));
    return own ? (marks) => isThere(marks) && own(marks) : isThere;
  }

  #elementSwitching({ id, item, element }: ElementBranch): Rule | null {
    switch (element.kind) {
      case 'contact':
        return this.#ready(element.closed, item);
      case 'fuse':
      case 'breaker': {
        const blown = marked(this.blown.get(id));
        return (marks) => !blown(marks);
      }
      case 'source':
        return element.poweredBy === undefined
          ? () => true
          : marked(this.energised.get(`${item}/${element.poweredBy}`));
      default:
        return null;
    }
  }

  /** Says of a state what `holds` says of it. */
  #ready(rule: Logic, item: string): Rule {
    if (typeof rule === 'boolean') return () => rule;
    if (typeof rule === 'string') return marked(this.conditions.get(`${item}.${rule}`));
    if ('energised' in rule) return marked(this.energised.get(`${item}/${rule.energised}`));
    if ('held' in rule) return marked(this.held.get(`${item}/${rule.held}`));
    if ('blown' in rule) return marked(this.blown.get(`${item}/${rule.blown}`));
    if ('position' in rule) {
      const at = this.positions.get(item);
      if (at === undefined) return () => false;
      const known = this.#positionsOf(item);
      const wanted = [rule.position].flat().map((position) => known.indexOf(position));
      return (marks) => wanted.includes(marks[at]!);
    }
    if ('not' in rule) {
      const part = this.#ready(rule.not, item);
      return (marks) => !part(marks);
    }
    const parts = ('all' in rule ? rule.all : rule.any).map((part) => this.#ready(part, item));
    return 'all' in rule
      ? (marks) => parts.every((part) => part(marks))
      : (marks) => parts.some((part) => part(marks));
  }

  #positionsOf(item: string): readonly string[] {
    return this.#items.get(item)?.device.mechanism?.positions ?? [];
  }
}

const marked = (at: number | undefined): Rule =>
  at === undefined ? () => false : (marks) => marks[at] === 1;

const known = new WeakMap<ReadonlyMap<string, Item>, Register>();

/** The register of a network's items, made once for all circuits of them. */
export function registerOf(items: ReadonlyMap<string, Item>): Register {
  const before = known.get(items);
  if (before) return before;
  const made = new Register(items);
  known.set(items, made);
  return made;
}
