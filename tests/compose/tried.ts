import { type Memory, settleMode, simulate } from '../../src/circuit/index.ts';
import { type Composed, compose, Refusal } from '../../src/compose/index.ts';
import { coveringRows, everyRow } from '../../src/standards/cover.ts';
import { catalogue, networkOf } from './catalogue.ts';
import { type Combination, specificationOf } from './combinations.ts';
import { breaches, contentProblems, missed, mustIn } from './judged.ts';

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
  const broken = breaches(simulation);
  if (broken.length > 0) return { refused: `standard: ${broken.join(' + ')}`, settled: 0 };
  return againstTable(composed);
}

/** Settles a composed system under every set of conditions and compares with the demand table. */
export function againstTable(composed: Composed): Verdict {
  const network = networkOf('composed', composed);
  const { modes } = simulate(network);
  const starts: (Memory | undefined)[] = [undefined];
  for (const { id } of composed.roles.demands) starts.push(modes.get(id)!.state);
  const sets = conditionSets(network);
  let settled = 0;
  for (const memory of starts)
    for (const set of sets) {
      const rest = settleMode(network, 'tried', set, memory);
      settled++;
      if (rest.hunting.length > 0) return { refused: 'table: it does not settle', settled };
      const [miss] = missed(rest, mustIn(composed.roles, rest, memory === undefined));
      if (miss !== undefined) return { refused: `table: ${inWords(miss)}`, settled };
    }
  return { settled };
}

const known = new Map<string, readonly Readonly<Record<string, boolean>>[]>();

/**
 * Every set of the conditions of a network, or a covering array of them. That a control is off its
 * backplate is an engineer's act; then no frost pair is asked of, as nothing need protect a house
 * that is being worked on.
 */
function conditionSets({ items }: ReturnType<typeof networkOf>) {
  const all = [...items.values()].flatMap(({ reference, device }) =>
    Object.entries(device.conditions).map(([name, about]) => ({
      id: `${reference}.${name}`,
      isPresence: about.presence === true,
      isFrost: about.wants === 'frost protection',
    })),
  );
  const key = all.map(({ id }) => id).join();
  const before = known.get(key);
  if (before) return before;
  const plain = all.flatMap(({ id, isPresence }) => (isPresence ? [] : [id]));
  const unfrosted = all.flatMap(({ id, isPresence, isFrost }) =>
    isPresence || isFrost ? [] : [id],
  );
  const whole = 2 ** plain.length <= ALL_SETS;
  const sets = [
    ...setsOf(plain, whole ? everyRow(plain.length) : coveringRows(plain.length)),
    ...all
      .filter(({ isPresence }) => isPresence)
      .flatMap(({ id }) =>
        setsOf(unfrosted, coveringRows(unfrosted.length)).map((set) => ({ ...set, [id]: false })),
      ),
  ];
  known.set(key, sets);
  return sets;
}

const setsOf = (names: readonly string[], rows: readonly (readonly boolean[])[]) =>
  rows.map(
    (row): Record<string, boolean> => Object.fromEntries(names.map((name, i) => [name, row[i]!])),
  );

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
