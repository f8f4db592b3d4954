import { type ChangeLine, type Found, lineOf } from './line.ts';
import { type ChangeKind, rankOf } from './ranks.ts';

type Named = Readonly<ChangeLine['systems'][number]>;

/** Something of a system that is computed otherwise, though nothing in the entries is. */
export interface Unexplained {
  readonly system: Named;
  readonly found: Found;
}

/** Systems from which on a kind of change is told once. */
const ALIKE = 2;
const COMPUTED = { title: 'What is computed', path: null };
const WHY =
  'nothing in the entries changed, so this comes of Proveline itself or of the visits that were counted';

/** What is otherwise, of several systems. */
const OTHERWISE: Readonly<Partial<Record<ChangeKind, string>>> = {
  sequence: 'Test sequences',
  fault: 'Faults that are looked for',
  replacement: 'Replacements',
  outcome: 'What is seen',
  reading: 'Readings',
};

/**
 * Lines for what nothing in the entries explains: the same in several systems is one line, and so
 * is all of one kind, with what is otherwise in each under it. What is dangerous if missed is
 * gathered only where it is the same to the word.
 */
export function alikeLines(all: readonly Unexplained[]): ChangeLine[] {
  return [...Map.groupBy(all, ({ found }) => found.kind)].flatMap(([kind, ofKind]) => {
    const systems = systemsOf(ofKind);
    if (systems.length < ALIKE) return ofKind.map(alone);
    const same = [...Map.groupBy(ofKind, ({ found }) => found.words).values()];
    if (rankOf(kind) === 'danger' || same.length === 1) return same.flatMap(sameInAll);
    const words = `${OTHERWISE[kind] ?? `Of the kind “${kind}”`}: otherwise in ${systems.length} systems; ${WHY}`;
    const follows = ofKind.map(({ system, found }) => ({
      system: system.title,
      words: found.words,
    }));
    return [{ ...lineOf(COMPUTED, { kind, words }, systems), follows }];
  });
}

const alone = ({ system, found }: Unexplained): ChangeLine =>
  lineOf({ title: system.title, path: `systems/${system.id}/` }, found, [system]);

/** What is the same in all of them; of one system alone it is that system's. */
function sameInAll(those: readonly Unexplained[]): ChangeLine[] {
  const systems = systemsOf(those);
  if (systems.length < ALIKE) return those.map(alone);
  const { kind, words } = those[0]!.found;
  return [lineOf(COMPUTED, { kind, words: `${words}; ${WHY}` }, systems)];
}

const systemsOf = (those: readonly Unexplained[]): Named[] => [
  ...new Map(those.map(({ system }) => [system.id, system])).values(),
];
