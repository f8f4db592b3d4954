import { splitReference } from '../../schemas/index.ts';
import { buildNetwork, type Network, simulate } from '../circuit/index.ts';
import { among, type Entries, type Expectation, unnoticedIn } from '../entries/index.ts';

/** Slips named at a suggestion; of the rest only how many there are. */
const NAMED = 3;

/**
 * Which slips of wiring a system's own modes would pass over, and what its author could expect to
 * notice them, as lines.
 * @throws Error that names the systems there are, where there is none of this id
 */
export function mistakesText({ systems, devices }: Entries, id: string): string {
  const system = systems.get(id);
  if (!system) {
    const { allowed, suggestion } = among(id, systems.keys());
    const meant = suggestion === undefined ? '' : `; did you mean ${suggestion}?`;
    throw new Error(`There is no system “${id}”${meant}\n  allowed  ${allowed}`);
  }
  const known = new Map([...devices].map(([name, { data }]) => [name, data]));
  const simulation = simulate(buildNetwork(id, system.data, known));
  const { network } = simulation;
  const { tried, noticed, wanted, silent } = unnoticedIn(simulation);
  const lines = [`${id}: of ${tried} likely slips of wiring its modes notice ${noticed}`];
  for (const one of wanted) {
    const { outcome, so, notices } = one;
    lines.push(
      `- ${modeText(network, one)}: expect “${outcome}: ${so}” (${seenText(network, outcome, so)}); it notices ${count(notices)}`,
    );
  }
  if (silent.length > 0)
    lines.push(
      `- nothing that is seen would notice ${count(silent)}; the wiring table and readings do`,
    );
  return lines.join('\n');
}

function modeText({ system, items }: Network, { mode, conditions }: Expectation): string {
  if (mode !== null) return `in mode “${system.modes[mode]!.title}”`;
  const said = conditions.map((id) => {
    const [item, name] = splitReference(id);
    const { title, otherwise, usual } = items.get(item)!.device.conditions[name]!;
    return `${id}: ${!usual} (${usual ? (otherwise ?? `not: ${title}`) : title})`;
  });
  return `in a mode of its own that sets ${said.join(' and ')}`;
}

function seenText({ items }: Network, outcome: string, so: boolean): string {
  const [item, name] = splitReference(outcome);
  const { title, otherwise } = items.get(item)!.device.outcomes[name]!;
  return so ? title : (otherwise ?? `not: ${title}`);
}

const count = (slips: readonly string[]): string => {
  const named = slips.slice(0, NAMED).join('; ');
  const more = slips.length - NAMED;
  return `${slips.length}: ${named}${more > 0 ? `; and ${more} more` : ''}`;
};
