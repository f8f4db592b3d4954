import { namesIn } from '../../schemas/index.ts';
import {
  atRest,
  type ElementBranch,
  holds,
  type Network,
  type Simulation,
  type State,
  settling,
} from '../circuit/index.ts';
import { itemWords } from './spoken.ts';

/** Something that happens as a mode comes about. */
export interface StoryStep {
  /** Elements it happens to, by branch id. */
  readonly elements: readonly string[];
  /** As a person says it: `Heating valve Q2: opens; end switch closes.` */
  readonly text: string;
}

/** How a mode comes about. */
export interface Story {
  /** The mode it begins from; null where it begins with all equipment at rest. */
  readonly from: string | null;
  readonly steps: readonly StoryStep[];
}

const LOADS = ['load', 'motor', 'sensing'];

/**
 * How a mode comes about, as the circuit settles: what a hand or the weather does, what that
 * feeds, what turns, what that closes. It begins from the mode that the entry puts before it; or
 * from the nearest earlier one to which one thing besides calls leads, as the isolator does from
 * whatever works; or from the system's first mode. The first mode itself has no steps.
 * @throws RangeError for a mode that is not there.
 */
export function storyOf(simulation: Simulation, mode: string): Story {
  const { network, modes } = simulation;
  const now = modes.get(mode);
  if (!now) throw new RangeError(`${network.id} has no mode ${mode}`);
  const [first] = modes.keys();
  if (mode === first) return { from: null, steps: [] };
  const { conditions } = now.state;
  for (const from of beginningsOf(simulation, mode)) {
    const { state } = modes.get(from)!;
    const passed = settling(network, conditions, state);
    if (isSameRest(passed.at(-1)!, now.state))
      return { from, steps: stepsOf(network, [state, ...passed]) };
  }
  const rest = { ...atRest(network), conditions };
  return { from: null, steps: stepsOf(network, settling(network, conditions, rest)) };
}

/** Modes that a mode may come about from, the likeliest first. */
function beginningsOf({ network, modes }: Simulation, mode: string): string[] {
  const { after } = network.system.modes[mode]!;
  if (after !== undefined) return [after];
  const { conditions } = modes.get(mode)!.state;
  const earlier = [...modes.keys()].slice(0, [...modes.keys()].indexOf(mode));
  const near = earlier
    .map((id) => {
      const own = modes.get(id)!.state.conditions;
      const others = [...conditions].filter(([name, value]) => own.get(name) !== value);
      return { id, far: others.length, but: others.filter(([name]) => !isCall(network, name)) };
    })
    .filter(({ but }) => but.length === 1)
    .toSorted((a, b) => a.far - b.far);
  return [...new Set([...near.map(({ id }) => id), earlier[0]!])];
}

/** Whether a condition asks for heat or hot water, by `ITEM.condition`. */
function isCall(network: Network, condition: string): boolean {
  const dot = condition.indexOf('.');
  const { conditions } = network.items.get(condition.slice(0, dot))!.device;
  return conditions[condition.slice(dot + 1)]!.wants !== undefined;
}

/** Whether two states are the same but for what the world has set. */
function isSameRest(a: State, b: State): boolean {
  return (
    [...a.positions].every(([item, at]) => b.positions.get(item) === at) &&
    (['blown', 'energised', 'held'] as const).every((of) => isSameSet(a[of], b[of]))
  );
}

const isSameSet = (a: ReadonlySet<string>, b: ReadonlySet<string>): boolean =>
  a.size === b.size && [...a].every((id) => b.has(id));

function stepsOf(network: Network, states: readonly State[]): StoryStep[] {
  const elements = network.branches.filter((branch) => branch.kind === 'element');
  return states.slice(1).flatMap((now, i) => {
    const before = states[i]!;
    const changed = elements.filter(
      (branch) => worksAs(branch, before) !== worksAs(branch, now) || hasBlown(branch, before, now),
    );
    // What a winding moves follows it: volts first, then contacts and positions.
    const fed = changed.filter(({ element }) => LOADS.includes(element.kind));
    const moved = changed.filter(({ element }) => !LOADS.includes(element.kind));
    const turned = [...now.positions.keys()].filter(
      (item) => before.positions.get(item) !== now.positions.get(item),
    );
    const brought = broughtAbout(network, before, now);
    const items = new Set([...moved.map(({ item }) => item), ...turned, ...brought.keys()]);
    return [
      ...feedsOf(network, fed, now),
      ...[...items].map((item) => {
        const own = moved.filter((branch) => branch.item === item);
        const turn = turned.includes(item) ? [turnWords(now.positions.get(item)!)] : [];
        const lit = own.length > 0 ? own.map(({ id }) => id) : windingsOf(network, item);
        const what = [
          ...(brought.get(item) ?? []),
          ...turn,
          ...own.map((branch) => said(branch, now)),
        ];
        return { elements: lit, text: sentence(network, item, what) };
      }),
    ];
  });
}

/** What a hand or the weather does, item by item: `room asks for heat`, `isolator off`. */
function broughtAbout(network: Network, before: State, now: State): Map<string, string[]> {
  const brought = new Map<string, string[]>();
  for (const [item, { device }] of network.items) {
    const words = Object.entries(device.conditions).flatMap(([name, { title, otherwise }]) => {
      const is = now.conditions.get(`${item}.${name}`);
      if (before.conditions.get(`${item}.${name}`) === is) return [];
      const text = is ? title : otherwise;
      return text === undefined ? [] : [lower(text)];
    });
    if (words.length > 0) brought.set(item, words);
  }
  return brought;
}

/** Without its capital, unless that is an abbreviation's. */
const lower = (text: string): string =>
  /^[A-Z]{2}/.test(text) ? text : text.charAt(0).toLowerCase() + text.slice(1);

/** From how many items on a loss of volts at one time is said of all together. */
const TOGETHER = 3;

/** Loads whose volts come or go at one time: item by item, or all that lose them in one step. */
function feedsOf(network: Network, fed: readonly ElementBranch[], now: State): StoryStep[] {
  const byItem = [...Map.groupBy(fed, ({ item }) => item)];
  const isLost = (loads: readonly ElementBranch[]) => loads.every(({ id }) => !now.held.has(id));
  const lost = byItem.filter(([, loads]) => isLost(loads));
  const together = lost.length >= TOGETHER ? lost : [];
  const rest = byItem.filter((one) => !together.includes(one));
  return [
    ...(together.length === 0
      ? []
      : [
          {
            elements: together.flatMap(([, loads]) => loads.map(({ id }) => id)),
            text: `No volts any more: ${together.map(([item]) => itemWords(network, item)).join(', ')}.`,
          },
        ]),
    ...rest.map(([item, loads]) => ({
      elements: loads.map(({ id }) => id),
      text: sentence(
        network,
        item,
        loads.map((load) => said(load, now)),
      ),
    })),
  ];
}

/** Whether a contact is closed, or how a load is fed. */
function worksAs({ element, id, item }: ElementBranch, state: State): string | null {
  if (element.kind === 'contact') return holds(element.closed, item, state) ? 'closed' : 'open';
  if (!LOADS.includes(element.kind)) return null;
  if (state.energised.has(id)) return 'fed';
  return state.held.has(id) ? 'held' : 'off';
}

const hasBlown = ({ id }: ElementBranch, before: State, now: State): boolean =>
  now.blown.has(id) && !before.blown.has(id);

/** What moves an item's mechanism, by branch id. */
function windingsOf(network: Network, item: string): string[] {
  const { mechanism } = network.items.get(item)!.device;
  const names = new Set(mechanism?.moves.flatMap(({ when }) => namesIn(when).elements));
  return [...names].map((name) => `${item}/${name}`);
}

function sentence(network: Network, item: string, what: readonly string[]): string {
  const name = itemWords(network, item);
  return `${name.charAt(0).toUpperCase()}${name.slice(1)}: ${what.join('; ')}.`;
}

const TURNS: Readonly<Record<string, string>> = {
  open: 'opens',
  closed: 'shuts',
  tripped: 'trips',
  healthy: 'is reset',
};

const turnWords = (position: string): string => TURNS[position] ?? `moves to ${position}`;

function said(branch: ElementBranch, now: State): string {
  const name = branch.element.name ?? branch.name;
  if (branch.element.kind === 'fuse') return `${name} blows`;
  if (branch.element.kind === 'breaker') return `${name} trips`;
  const isMotor = branch.element.kind === 'motor';
  switch (worksAs(branch, now)) {
    case 'closed':
      return `${name} closes`;
    case 'open':
      return `${name} opens`;
    case 'fed':
      return `${name} is fed${isMotor ? ' and runs' : ''}`;
    case 'held':
      return `${name} is held on part volts`;
    default:
      return isMotor ? `${name} stops` : `${name} has no volts`;
  }
}
