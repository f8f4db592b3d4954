import type { System } from '../../../schemas/index.ts';
import { type Change, changeNetwork, type Network, rewireNetwork } from '../../circuit/index.ts';
import type { CoreEnd } from '../../wiring/index.ts';

/** What a fault alters: the wiring first, then the circuit built from it. */
export interface Edit {
  /** The system wired otherwise; absent where its wiring is as the entry shows. */
  readonly rewire?: (system: System) => System;
  readonly changes: readonly Change[];
  /**
   * What it takes hold of: `end W3.BN@2`, `branch E1/board`, `mechanism Y1`. Two edits that
   * share one are no two faults of one circuit.
   */
  readonly touches: readonly string[];
}

/** An edit of the circuit alone. */
export const circuitEdit = (changes: readonly Change[]): Edit => ({
  changes,
  touches: changes.map(touched),
});

/** An edit of the wiring alone, at the core ends given. */
export const rewiring = (ends: readonly CoreEnd[], rewire: (system: System) => System): Edit => ({
  rewire,
  changes: [],
  touches: ends.map(endOf),
});

/** One core end as a thing that an edit touches. */
export const endOf = ({ cable, colour, end }: CoreEnd): string =>
  `end ${cable}.${colour}@${end + 1}`;

/** The cores at whose ends an edit takes hold, each once. */
export function coresOf({ touches }: Edit): Pick<CoreEnd, 'cable' | 'colour'>[] {
  const cores = touches.flatMap((one) => /^end (.+)@\d+$/.exec(one)?.[1] ?? []);
  return [...new Set(cores)].map((core) => {
    const [cable, colour] = core.split('.') as [string, CoreEnd['colour']];
    return { cable, colour };
  });
}

function touched(change: Change): string {
  switch (change.kind) {
    case 'open':
    case 'closed':
    case 'welded':
    case 'rated':
    case 'series':
    case 'idle':
      return `branch ${change.branch}`;
    case 'parted':
      return `end ${change.end}`;
    case 'join':
      return `join ${[change.from, change.to].sort().join('|')}`;
    case 'stuck':
      return `mechanism ${change.item}`;
    case 'set':
      return `condition ${change.condition}`;
  }
}

/** Whether two edits can be made to one circuit, one beside the other. */
export const compose = (a: Edit, b: Edit): boolean => !a.touches.some((t) => b.touches.includes(t));

/**
 * The circuit with some edits: all rewiring first, then all changes, each in the order given.
 * @throws RangeError when two edits take hold of the same thing, see `compose`.
 */
export function editedCircuit(network: Network, edits: readonly Edit[]): Network {
  for (const [i, a] of edits.entries()) {
    const clash = edits.slice(i + 1).find((b) => !compose(a, b));
    if (clash)
      throw new RangeError(
        `${network.id}: edits of ${a.touches.join(', ')} and of ${clash.touches.join(', ')} exclude each other`,
      );
  }
  const rewiring = edits.flatMap(({ rewire }) => (rewire ? [rewire] : []));
  const wired =
    rewiring.length === 0
      ? network
      : rewireNetwork(
          network,
          rewiring.reduce((system, rewire) => rewire(system), network.system),
        );
  return changeNetwork(
    wired,
    edits.flatMap(({ changes }) => changes),
  );
}

/** What a fault of a network carries: its edit, and the circuit that the edit makes. */
export const madeBy = (network: Network, edit: Edit): { edit: Edit; circuit: () => Network } => ({
  edit,
  circuit: () => editedCircuit(network, [edit]),
});
