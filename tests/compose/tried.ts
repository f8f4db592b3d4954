import { type Memory, settleMode, simulate } from '../../src/circuit/index.ts';
import { type Composed, compose, Refusal, type Roles } from '../../src/compose/index.ts';
import { toSet } from '../../src/compose/rules.ts';
import { coveringRows, everyRow } from '../../src/standards/cover.ts';
import { isBeyondControls } from '../../src/wiring/index.ts';
import { catalogue, networkOf } from './catalogue.ts';
import { type Combination, specificationOf } from './combinations.ts';
import { contentProblems, firstBreach, missed, mustIn } from './judged.ts';

/** Sets of conditions up to which all are tried; beyond, any three are set in all eight ways. */
export const ALL_SETS = 4096;

/** What became of a combination. */
export interface Verdict {
  /** Why it is not sound; undefined where it is. */
  readonly refused?: string;
  /** Conditions under which it was settled, from new and after demands. */
  readonly settled: number;
}

/** Composes a combination and judges it: has it a circuit, is it in order, sound, as it must be? */
export function tried(combination: Combination): Verdict {
  let composed: Composed;
  try {
    composed = compose(specificationOf(combination), catalogue());
  } catch (error) {
    if (error instanceof Refusal) return { refused: `no circuit: ${error.reason}`, settled: 0 };
    throw error;
  }
  const [problem] = contentProblems(composed);
  if (problem !== undefined) return { refused: `content: ${problem}`, settled: 0 };
  const network = networkOf('composed', composed);
  const simulation = simulate(network);
  const broken = firstBreach(simulation);
  if (broken !== undefined) return { refused: `standard: ${broken}`, settled: 0 };
  return againstTable(composed, simulation);
}

/** Settles a composed system under every set of conditions and compares with the demand table. */
export function againstTable(
  composed: Composed,
  { network, modes } = simulate(networkOf('composed', composed)),
): Verdict {
  const starts: (Memory | undefined)[] = [undefined];
  for (const { id } of composed.roles.demands) starts.push(modes.get(id)!.state);
  const sets = conditionSets(network, composed.roles);
  let settled = 0;
  for (const memory of starts)
    for (const set of memory ? sets.after : sets.fresh) {
      const rest = settleMode(network, 'tried', set, memory);
      settled++;
      if (rest.hunting.length > 0) return { refused: 'table: it does not settle', settled };
      const [miss] = missed(rest, mustIn(composed.roles, rest, memory === undefined));
      if (miss !== undefined) return { refused: `table: ${inWords(miss)}`, settled };
    }
  return { settled };
}

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
function conditionSets({ items }: ReturnType<typeof networkOf>, roles: Roles) {
  const all = [...items.values()].flatMap(({ reference, device }) =>
    Object.entries(device.conditions)
      .filter(([name]) => !isBeyondControls(device, name))
      .map(([name, about]) => ({
        id: `${reference}.${name}`,
        isPresence: about.presence === true,
        isFrost: about.wants === 'frost protection',
      })),
  );
  const key = all.map(({ id }) => id).join();
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
