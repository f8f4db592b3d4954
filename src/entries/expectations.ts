import { splitReference } from '../../schemas/index.ts';
import { inOrder } from './problem.ts';
import { reportFor } from './report.ts';
import type { Entries, Entry, Problem } from './types.ts';

/** What the engine computed for one system; `Simulation` of the circuit room fits. */
export interface Computed {
  /** By mode id. */
  readonly modes: ReadonlyMap<
    string,
    {
      /** Every outcome, by ITEM.outcome; `hunting` when it comes and goes. */
      readonly outcomes: ReadonlyMap<string, boolean | 'hunting'>;
      /** Items that do not settle. */
      readonly hunting: readonly string[];
    }
  >;
}

/**
 * Compares what authors expect of their systems with what the engine computed: one problem
 * for each expectation that differs, and one for each mode that does not settle.
 * @param computed by system id; a system without one is passed over.
 */
export function expectationProblems(
  entries: Pick<Entries, 'systems' | 'devices'>,
  computed: ReadonlyMap<string, Computed>,
): Problem[] {
  const problems = [...entries.systems].flatMap(([id, system]) => {
    const result = computed.get(id);
    return result ? systemExpectations(system, entries.devices, result) : [];
  });
  return inOrder(problems);
}

type System = Entries['systems'] extends ReadonlyMap<string, infer E> ? E : never;

function systemExpectations(
  { data, places }: System,
  devices: Entries['devices'],
  { modes }: Computed,
): readonly Problem[] {
  const report = reportFor(places);
  for (const [mode, { title, expect }] of Object.entries(data.modes)) {
    const result = modes.get(mode);
    if (!result) continue;
    const { hunting } = result;
    if (hunting.length > 0) {
      const who = `${hunting.join(', ')} ${hunting.length === 1 ? 'changes' : 'change'}`;
      const message = `in mode “${title}” the circuit does not settle: ${who} without end`;
      report.key('mode-hunts', ['modes', mode], message, { found: hunting.join(', ') });
    }
    for (const [reference, expected] of Object.entries(expect)) {
      const seen = result.outcomes.get(reference);
      // A hunting outcome is neither; its mode has been reported.
      if (seen === expected || seen === 'hunting') continue;
      const words = wordsFor(reference, data, devices);
      const path = ['modes', mode, 'expect', reference];
      const message =
        seen === undefined
          ? `in mode “${title}” the circuit shows nothing of ${reference}`
          : `in mode “${title}” this expects “${words(expected)}”; the circuit gives “${words(seen)}”`;
      report.value('expectation-differs', path, message, { found: String(expected) });
    }
  }
  return report.problems;
}

/** How a person would say that an outcome is so, and that it is not. */
function wordsFor(
  reference: string,
  system: Entry<{ items: Readonly<Record<string, { device: string }>> }>['data'],
  devices: Entries['devices'],
): (so: boolean) => string {
  const [item, name] = splitReference(reference);
  const device = devices.get(system.items[item]?.device ?? '');
  const outcome = device?.data.outcomes[name];
  const title = outcome?.title ?? reference;
  return (so) => (so ? title : (outcome?.otherwise ?? `not: ${title}`));
}
