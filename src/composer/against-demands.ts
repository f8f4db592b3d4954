import {
  conditionsOf,
  type Memory,
  type Settled,
  type Simulation,
  settleMode,
} from '../circuit/index.ts';
import { type Composed, type MustBeSeen, mustBeSeen, type Roles, toSet } from '../compose/index.ts';
import { coveringRows, everyRow } from '../standards/index.ts';
import { isBeyondControls } from '../wiring/index.ts';

/** Sets of conditions up to which all are tried; beyond, any three are set in all eight ways. */
const ALL_SETS = 4096;
/** Sets of conditions between two reports of how far it is. */
const A_STEP = 64;

/** How far a comparison is. */
export interface Progress {
  /** Combinations of conditions compared. */
  readonly tried: number;
  readonly of: number;
}

/** What a comparison with the demand table came to. */
export interface Agreement extends Progress {
  /** The first thing that is otherwise than it must be, and the conditions under which it is. */
  readonly miss?: { readonly what: string; readonly when: Conditions };
}

/**
 * Settles a composed system under every set of conditions, from new and again after each demand,
 * and compares what is seen with what the demand table says must be: step by step, so that who
 * asks may stop or say how far it is. It ends at the first thing that is otherwise.
 */
export function* againstDemands(
  { roles }: Composed,
  { network, modes }: Simulation,
): Generator<Progress, Agreement> {
  const starts: (Memory | undefined)[] = [undefined];
  for (const { id } of roles.demands) starts.push(modes.get(id)!.state);
  const sets = conditionSets(network, roles);
  const of = sets.fresh.length + roles.demands.length * sets.after.length;
  const usual = conditionsOf(network, {});
  let tried = 0;
  for (const memory of starts)
    for (const set of memory ? sets.after : sets.fresh) {
      const rest = settleMode(network, 'tried', set, memory);
      const isSo = (name: string) => set[name] ?? usual.get(name) ?? false;
      tried++;
      const what =
        rest.hunting.length > 0
          ? 'it does not settle'
          : missed(rest, mustBeSeen(roles, isSo, memory === undefined)).map(inWords)[0];
      if (what !== undefined) return { tried, of, miss: { what, when: set } };
      if (tried % A_STEP === 0) yield { tried, of };
    }
  return { tried, of };
}

/** What is seen otherwise than the demand table says it must be, as `M1.running is false`. */
function missed(settled: Settled, must: MustBeSeen): string[] {
  return [...must].flatMap(([outcome, wanted]) => {
    const seen = settled.outcomes.get(outcome);
    return seen === undefined || seen === wanted ? [] : [`${outcome} is ${seen}`];
  });
}

/** What is otherwise than it must be in the modes of a composed system, mode by mode. */
export const missedModes = (
  { system }: Composed,
  { modes }: Simulation,
): { readonly mode: string; readonly what: string }[] =>
  [...modes].flatMap(([mode, settled]) =>
    missed(settled, new Map(Object.entries(system.modes[mode]!.expect))).map((miss) => ({
      mode,
      what: inWords(miss),
    })),
  );

type Conditions = Readonly<Record<string, boolean>>;
const known = new Map<string, { fresh: readonly Conditions[]; after: readonly Conditions[] }>();

/**
 * Sets of conditions to try. From new every set, where there are no more than {@link ALL_SETS}.
 * Beyond, and after each demand, what acts as one is set as one (a demand with all its controls,
 * its clock alone, frost, an interlock, a cut-out) in every way together with what the boiler
 * meets, and any three single conditions in all eight ways.
 *
 * That a control is off its backplate is an engineer's act; then no frost pair is asked of, as
 * nothing need protect a house that is being worked on.
 */
function conditionSets({ items }: Simulation['network'], roles: Roles) {
  const all = [...items.values()].flatMap(({ reference, device }) =>
    Object.entries(device.conditions)
      .filter(([name]) => !isBeyondControls(device, name))
      .map(([name, about]) => ({
        id: `${reference}.${name}`,
        isPresence: about.presence === true,
        isFrost: about.wants === 'frost protection',
      })),
  );
  const { demands, interlocks } = roles;
  const key = JSON.stringify([all.map(({ id }) => id), roles.boiler, demands, interlocks]);
  const before = known.get(key);
  if (before) return before;
  const present = all.filter(({ isPresence }) => isPresence).map(({ id }) => id);
  const plain = all.flatMap(({ id, isPresence }) => (isPresence ? [] : [id]));
  const unfrosted = all.flatMap((one) => (one.isPresence || one.isFrost ? [] : [one.id]));
  const whole = 2 ** plain.length <= ALL_SETS;
  const after = [
    ...setsOf(plain, coveringRows(plain.length)),
    ...asOne(roles, plain, present),
    ...present.flatMap((id) =>
      setsOf(unfrosted, coveringRows(unfrosted.length)).map((set) => ({ ...set, [id]: false })),
    ),
  ];
  const fresh = whole ? [...setsOf(plain, everyRow(plain.length)), ...after] : after;
  const sets = { fresh, after };
  known.set(key, sets);
  return sets;
}

const setsOf = (names: readonly string[], rows: readonly (readonly boolean[])[]) =>
  rows.map(
    (row): Record<string, boolean> => Object.fromEntries(names.map((name, i) => [name, row[i]!])),
  );

/** What a boiler meets that can only stop it; among any three conditions it is tried as well. */
const STOPS_ONLY = /\.(?:water hot|locked out)$/;

/** Every way of setting groups of conditions that act as one; what is in no group as usual. */
function asOne(roles: Roles, plain: readonly string[], present: readonly string[]) {
  const groups = [
    ...roles.demands.flatMap(({ stands, clock, frost, limit }) =>
      [stands, clock, frost, limit].flatMap((rule) => (rule === undefined ? [] : [toSet(rule)])),
    ),
    ...roles.interlocks.map(({ open }) => toSet(open)),
    ...plain
      .filter((id) => id.startsWith(`${roles.boiler}.`) && !STOPS_ONLY.test(id))
      .map((id) => [id]),
  ].map((group) => group.filter((id) => !present.includes(id)));
  const different = [...new Map(groups.map((group) => [group.join(), group])).values()];
  return everyRow(different.length).map((row): Record<string, boolean> => {
    const set = different.flatMap((group, i) => (row[i] ? group : []));
    return Object.fromEntries(set.map((id) => [id, true]));
  });
}

const WORDS: Readonly<Record<string, readonly [isTrue: string, isFalse: string]>> = {
  burner: ['the boiler fires though it must not', 'the boiler does not fire though it must'],
  pump: ['the pump runs though it must not', 'the pump stands though it must run'],
  running: ['the pump runs though it must not', 'the pump stands though it must run'],
  display: ['the display is lit though it must not be', 'no display though there must be'],
  open: ['a valve opens though it must not', 'a valve stays shut though it must open'],
};

/** Which kind of thing is otherwise than it must be, without references. */
function inWords(miss: string): string {
  const [, outcome = '', seen] = /^[A-Z]+\d+\.(.+) is (true|false|hunting)$/.exec(miss) ?? [];
  const words = WORDS[outcome];
  if (words && seen !== 'hunting') return seen === 'true' ? words[0] : words[1];
  if (outcome.startsWith('at ')) return 'a shared valve stands elsewhere than it must';
  return `${outcome} is ${seen} though it must not be`;
}
