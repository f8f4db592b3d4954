import { type Appearance, type Device, splitReference } from '../../schemas/index.ts';
import {
  atRest,
  type Memory,
  type Network,
  type Settled,
  type Simulation,
  settleMode,
} from '../circuit/index.ts';
import { modeSeenIn, type WantedAnswer } from './signs.ts';
import { answerIn, type Test } from './tests/index.ts';

/** A state of affairs in which a sound system shows a symptom: nothing is broken. */
export interface NoFault {
  /** `E1.locked out` for a condition, `F2:tripped` for a position that a device keeps. */
  readonly id: string;
  readonly item: string;
  /** In plain words, as in `Boiler locked out`. */
  readonly title: string;
  /** Whether a safety device or switch is doing its job: find out why, never bridge it. */
  readonly safeguard: boolean;
  /** What else is then seen in the mode of the first sign, and where. */
  readonly tells: readonly Telling[];
}

/** Something seen at an item, in plain words. */
export interface Telling {
  readonly item: string;
  readonly title: string;
}

/** One thing that is other than the modes take it to be, and nothing broken. */
export interface Circumstance extends Omit<NoFault, 'tells'> {
  readonly conditions: Readonly<Record<string, boolean>>;
  readonly memory: Memory;
}

/**
 * Every single circumstance in which the sound circuit gives the answers wanted: a condition
 * that the modes looked in leave alone is other than usual, or a safety device has acted
 * before and keeps its position. In order of items.
 */
export function noFaultsShowing(
  simulation: Simulation,
  tests: readonly Test[],
  appearance: Appearance,
  wanted: readonly WantedAnswer[],
): NoFault[] {
  const { network } = simulation;
  const asked = wanted.map(({ test, answer }) => ({ test: tests[test]!, answer }));
  const modes = [...new Set(asked.map(({ test }) => test.mode))];
  const set = new Set(modes.flatMap((mode) => Object.keys(network.system.modes[mode]!.conditions)));
  return circumstancesOf(network).flatMap((circumstance): NoFault[] => {
    if (Object.keys(circumstance.conditions).some((id) => set.has(id))) return [];
    const then = settleUnder(network, modes, circumstance);
    if (asked.some(({ test, answer }) => answerIn(then, test) !== answer)) return [];
    const mode = modeSeenIn(appearance);
    const looked = asked.flatMap(({ test }) => (test.kind === 'look' ? [test.outcome] : []));
    const tells = differences(simulation, then, mode, new Set(looked));
    const { id, item, title, safeguard } = circumstance;
    return [{ id, item, title, safeguard, tells }];
  });
}

const known = new WeakMap<Network, readonly Circumstance[]>();

/** Every single circumstance of a network, in order of items. */
export function circumstancesOf(network: Network): readonly Circumstance[] {
  const made = known.get(network) ?? listCircumstances(network);
  known.set(network, made);
  return made;
}

function listCircumstances(network: Network): Circumstance[] {
  const rest = atRest(network);
  return [...network.items].flatMap(([item, { device }]): Circumstance[] => {
    const conditions = Object.entries(device.conditions).flatMap(
      ([name, { title, otherwise, usual, cause, wants }]) =>
        // Flat cells, a lost pairing, a lever, a hand switch are causes of their own: see settings.
        cause || wants === 'heating by hand' || wants === 'frost protection'
          ? []
          : {
              id: `${item}.${name}`,
              item,
              title: usual ? (otherwise ?? `Not so: ${title.toLowerCase()}`) : title,
              safeguard: device.family === 'safety' || opensSafeguard(device, name),
              conditions: { [`${item}.${name}`]: !usual },
              memory: rest,
            },
    );
    const { mechanism, family } = device;
    if (!mechanism || family !== 'safety') return conditions;
    const kept = mechanism.positions.filter((position) => position !== mechanism.rest);
    return [
      ...conditions,
      ...kept.map((position) => ({
        id: `${item}:${position}`,
        item,
        title: positionTitle(device, position),
        safeguard: true,
        conditions: {},
        memory: { ...rest, positions: new Map([...rest.positions, [item, position]]) },
      })),
    ];
  });
}

/** Whether a condition opens an overflow switch or cut-out of its device. */
function opensSafeguard({ elements }: Device, condition: string): boolean {
  return Object.entries(elements).some(
    ([name, element]) =>
      element.kind === 'contact' &&
      /overflow|cut-out/.test(name) &&
      typeof element.closed === 'object' &&
      'not' in element.closed &&
      element.closed.not === condition,
  );
}

/** What a person sees of a position, or the device with it. */
function positionTitle({ outcomes, title }: Device, position: string): string {
  const seen = Object.values(outcomes).find(
    ({ when }) => typeof when === 'object' && 'position' in when && when.position === position,
  );
  return seen?.title ?? `${title}: ${position}`;
}

/** Modes settled in a circumstance, by mode: every symptom asks about the same few. */
const settledUnder = new WeakMap<Circumstance, Map<string, Settled>>();

/**
 * The sound circuit in some modes, and the ones they come after, in a circumstance. What a
 * mode sets itself is as the mode sets it.
 */
export function settleUnder(
  network: Network,
  modes: readonly string[],
  circumstance: Circumstance,
): Simulation {
  const { conditions, memory } = circumstance;
  const settled = settledUnder.get(circumstance) ?? new Map<string, Settled>();
  settledUnder.set(circumstance, settled);
  const visit = (id: string): Settled => {
    const known = settled.get(id);
    if (known) return known;
    const mode = network.system.modes[id]!;
    const before = mode.after === undefined ? memory : visit(mode.after).state;
    const made = settleMode(network, id, { ...conditions, ...mode.conditions }, before);
    settled.set(id, made);
    return made;
  };
  return { network, modes: new Map(modes.map((id) => [id, visit(id)])), memory };
}

function differences(
  sound: Simulation,
  then: Simulation,
  mode: string,
  but: ReadonlySet<string>,
): Telling[] {
  const usual = sound.modes.get(mode)!.outcomes;
  return [...(then.modes.get(mode)?.outcomes ?? [])].flatMap(([id, seen]) => {
    if (but.has(id) || seen === usual.get(id) || seen === 'hunting') return [];
    const [item, name] = splitReference(id);
    const { title, otherwise } = sound.network.items.get(item)!.device.outcomes[name]!;
    const not = otherwise ?? `Not so: ${title.toLowerCase()}`;
    return [{ item, title: seen ? title : not }];
  });
}
