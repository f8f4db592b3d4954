import { namesIn } from '../../schemas/index.ts';
import type { Branch, Simulation } from '../circuit/index.ts';
import { type LivePath, livePathIn } from '../wiring/index.ts';

/** Something that ought to be seen in a mode and is not. */
export interface Complaint {
  /** `E1.burner@heating`. */
  readonly id: string;
  readonly outcome: string;
  readonly mode: string;
  /** As a person says it: `Burner out`. */
  readonly title: string;
  /** Live paths the outcome hangs on in this mode, what must work first standing first. */
  readonly paths: readonly LivePath[];
}

/**
 * Every complaint a system can give: each outcome in each mode in which it ought to be seen.
 * Where an outcome hangs on the same conductors and elements in two modes, only the first
 * mode's complaint is kept. Outcomes that hang on no live path are left out.
 */
export function complaintsOf(simulation: Simulation): Complaint[] {
  const complaints: Complaint[] = [];
  const known = new Set<string>();
  for (const [item, { device }] of simulation.network.items) {
    for (const [name, outcome] of Object.entries(device.outcomes)) {
      for (const [mode, settled] of simulation.modes) {
        if (settled.outcomes.get(`${item}.${name}`) !== true) continue;
        const paths = pathsBehind(
          simulation,
          mode,
          item,
          elementsOf(simulation, item, outcome.when),
        );
        const key = `${item}.${name}:${branchesOn(paths)
          .map((b) => b.id)
          .sort()
          .join('|')}`;
        if (paths.length === 0 || known.has(key)) continue;
        known.add(key);
        complaints.push({
          id: `${item}.${name}@${mode}`,
          outcome: `${item}.${name}`,
          mode,
          title: outcome.otherwise ?? `Not so: ${outcome.title.toLowerCase()}`,
          paths,
        });
      }
    }
  }
  return complaints;
}

/** Every branch on some paths, once, in path order. */
export function branchesOn(paths: readonly LivePath[]): Branch[] {
  const branches = new Map<string, Branch>();
  for (const { hops, closing } of paths) {
    for (const branch of [...hops.flatMap((hop) => hop.via), ...closing]) {
      branches.set(branch.id, branch);
    }
  }
  return [...branches.values()];
}

type Rule = Parameters<typeof namesIn>[0];

/** Elements a rule of an item hangs on, directly or through the item's positions. */
function elementsOf({ network }: Simulation, item: string, rule: Rule): string[] {
  const { mechanism } = network.items.get(item)!.device;
  const names = namesIn(rule);
  const moves = names.positions.length > 0 ? (mechanism?.moves ?? []) : [];
  return [...names.elements, ...moves.flatMap((move) => namesIn(move.when).elements)];
}

/**
 * Paths of the elements given and of everything that must work for their contacts to close,
 * deepest need first. An element in several needs is walked once.
 */
function pathsBehind(
  simulation: Simulation,
  mode: string,
  item: string,
  elements: readonly string[],
  visited = new Set<string>(),
): LivePath[] {
  return elements.flatMap((element) => {
    const load = `${item}/${element}`;
    if (visited.has(load)) return [];
    visited.add(load);
    const path = livePathIn(simulation, mode, load);
    if (!path) return [];
    const needs = branchesOn([path]).flatMap((branch) =>
      branch.kind === 'element' && branch.element.kind === 'contact'
        ? pathsBehind(
            simulation,
            mode,
            branch.item,
            elementsOf(simulation, branch.item, branch.element.closed),
            visited,
          )
        : [],
    );
    return [...needs, path];
  });
}
