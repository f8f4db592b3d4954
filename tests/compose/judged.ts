import { System } from '../../schemas/index.ts';
import { type Settled, type Simulation, simulate } from '../../src/circuit/index.ts';
import type { Composed, MustBeSeen } from '../../src/compose/index.ts';
import { systemProblems } from '../../src/entries/system-references.ts';
import type { Places } from '../../src/entries/types.ts';
import { judge, type NamedStandard, subjectOf, verdictOn } from '../../src/standards/index.ts';
import { catalogue, networkOf, standards } from './catalogue.ts';

/** A day on which no exception begins or ends. */
const TODAY = '2026-12-01';

/** A composed system stands in no file. */
const NOWHERE: Places = (() => {
  const position = { line: 1, column: 1 };
  const source = { file: 'composed', lines: [''], positionAt: () => position };
  const place = () => ({ source, position });
  return { has: () => false, value: place, key: place };
})();

/** What the checks of an entry find wrong with a composed system. */
export function contentProblems({ system }: Composed): string[] {
  const parsed = System.safeParse(system);
  if (!parsed.success) return [parsed.error.message];
  const { devices } = catalogue();
  const found = systemProblems(system, NOWHERE, { devices, ids: new Set(devices.keys()) });
  return found.filter(({ warning }) => !warning).map(({ code, message }) => `${code}: ${message}`);
}

/** House standards that a simulated system breaks. */
export const breaches = (simulation: Simulation): string[] =>
  judge(standards(), simulation, TODAY)
    .filter(({ state }) => state === 'breached')
    .map(({ standard }) => standard);

/** Standards in the order in which the first that is broken is looked for: what kills comes first. */
const FIRST = [
  'overflow-stops-the-boiler',
  'no-mains-on-extra-low-voltage',
  'cut-out-shuts-the-valve',
];

/** The first house standard that a simulated system breaks; undefined where it keeps them all. */
export function firstBreach(simulation: Simulation): string | undefined {
  const subject = subjectOf(simulation);
  const rank = ({ id }: NamedStandard) => FIRST.indexOf(id);
  const first = standards().filter(({ id }) => FIRST.includes(id));
  const others = standards().filter(({ id }) => !FIRST.includes(id));
  return [...first.toSorted((a, b) => rank(a) - rank(b)), ...others].find(
    ({ standard }) => verdictOn(standard, subject, simulation).state === 'breached',
  )?.id;
}

/** What is seen otherwise than the demand table says it must be, as `M1.running is false`. */
function missed(settled: Settled, must: MustBeSeen): string[] {
  return [...must].flatMap(([outcome, wanted]) => {
    const seen = settled.outcomes.get(outcome);
    return seen === undefined || seen === wanted ? [] : [`${outcome} is ${seen}`];
  });
}

/** Modes of a composed system in which something else is seen than its entry expects. */
export function missedModes(composed: Composed): string[] {
  const { modes } = simulate(networkOf('composed', composed));
  return [...modes].flatMap(([mode, settled]) =>
    missed(settled, new Map(Object.entries(composed.system.modes[mode]!.expect))).map(
      (what) => `${mode}: ${what}`,
    ),
  );
}
