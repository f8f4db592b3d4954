import {
  type Branch,
  type ElementBranch,
  holds,
  type Item,
  type Network,
  type Settled,
  type Simulation,
} from '../../circuit/index.ts';
import type { ColourCode } from '../../published/index.ts';
import { itemOf, type LivePath } from '../../wiring/index.ts';
import { byMode } from './shown.ts';

/** A text with the classes of the modes it holds in. */
type ModeText = ReturnType<typeof byMode>[number];

/** One row of a live path as a vertical list. */
export type PathRow =
  | { readonly kind: 'item'; readonly item: Item }
  | { readonly kind: 'terminal'; readonly point: string; readonly against: string | null }
  | {
      readonly kind: 'part' | 'load';
      readonly name: string;
      readonly states: readonly ModeText[];
      /** Classes of the modes in which it interrupts the path; empty when in none. */
      readonly open: string;
    }
  | {
      readonly kind: 'core';
      readonly cable: string;
      readonly colour: ColourCode;
      readonly sleeve: ColourCode | undefined;
      readonly length: number;
    }
  | { readonly kind: 'link'; readonly why: string | undefined };

/** A live path row by row: equipment, terminals, what is between them, cores. */
export function pathRows(simulation: Simulation, path: LivePath): PathRow[] {
  const { network } = simulation;
  const rows: PathRow[] = [];
  let at: string | undefined;
  const enter = (item: string) => {
    if (item === at) return;
    at = item;
    rows.push({ kind: 'item', item: network.items.get(item)! });
  };
  const pass = (branch: Branch) => {
    if (branch.kind === 'element') enter(branch.item);
    const row = rowOf(simulation, path, branch);
    if (row) rows.push(row);
  };
  for (const hop of path.hops) {
    hop.via.forEach(pass);
    enter(itemOf(hop.point));
    rows.push({ kind: 'terminal', point: hop.point, against: hop.against });
  }
  path.closing.forEach(pass);
  return rows;
}

function rowOf(simulation: Simulation, path: LivePath, branch: Branch): PathRow | null {
  if (branch.kind === 'conductor') {
    return {
      kind: 'core',
      cable: branch.cable,
      colour: branch.colour,
      sleeve: branch.sleeve,
      length: cableLength(simulation.network, branch.cable),
    };
  }
  if (branch.kind === 'wire link') return { kind: 'link', why: branch.why };
  if (branch.kind !== 'element') return null;
  const isLoad = branch.id === path.load.id;
  const states = byMode(simulation, (settled) => stateOf(branch, settled, isLoad));
  return {
    kind: isLoad ? 'load' : 'part',
    name: branch.element.name ?? branch.name,
    states,
    open: states.find(({ text }) => text === 'open' || text === 'blown')?.when ?? '',
  };
}

const cableLength = (network: Network, cable: string) => network.system.cables[cable]!.length;

/** State of an element in a mode, in a word; empty for what is always joined. */
function stateOf(branch: ElementBranch, settled: Settled, isLoad: boolean): string {
  const { element, item, id } = branch;
  if (isLoad) return settled.state.energised.has(id) ? 'works' : 'off';
  if (settled.state.blown.has(id)) return 'blown';
  if (element.kind === 'contact') {
    return holds(element.closed, item, settled.state) ? 'closed' : 'open';
  }
  return '';
}
