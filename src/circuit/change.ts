import { CLOSED_CONTACT_OHMS, OPEN_CONTACT_OHMS } from './constants.ts';
import { type Branch, type Network, nodeOf } from './network.ts';
import { planElimination } from './topology.ts';

/** One thing about a network that is not as its entry says. */
export type Change =
  /** A branch come apart. */
  | { readonly kind: 'open'; readonly branch: string }
  /** A contact that stays closed, or anything bridged from end to end. */
  | { readonly kind: 'closed'; readonly branch: string }
  /** A contact whose parts no longer come apart; taken off its base with its device it is open. */
  | { readonly kind: 'welded'; readonly branch: string }
  /** A path between two points that should not be there, ohms. */
  | { readonly kind: 'join'; readonly from: string; readonly to: string; readonly ohms: number }
  /** A mechanism that does not leave a position. */
  | { readonly kind: 'stuck'; readonly item: string; readonly position: string }
  /** A fuse or breaker of another rating, A. */
  | { readonly kind: 'rated'; readonly branch: string; readonly rating: number };

/**
 * The same network with some changes.
 * @throws RangeError for a branch, point or position that is not there, or a branch that the
 *   change does not fit.
 */
export function changeNetwork(network: Network, changes: readonly Change[]): Network {
  return changes.reduce(changeOnce, network);
}

function changeOnce(network: Network, change: Change): Network {
  switch (change.kind) {
    case 'open':
      return withFault(network, change.branch, OPEN_CONTACT_OHMS);
    case 'closed':
      return withFault(network, change.branch, CLOSED_CONTACT_OHMS);
    case 'welded':
      return withWelded(network, change.branch);
    case 'join': {
      const from = nodeOf(network, change.from).index;
      const to = nodeOf(network, change.to).index;
      const id = `${change.from}~${change.to}`;
      const branches: Branch[] = [
        ...network.branches,
        { kind: 'strange path', id, from, to, ohms: change.ohms },
      ];
      return {
        ...network,
        branches,
        branchIndex: new Map([...network.branchIndex, [id, branches.length - 1]]),
        topology: planElimination(network.nodes.length, branches),
      };
    }
    case 'stuck': {
      const positions = network.items.get(change.item)?.device.mechanism?.positions;
      if (!positions?.includes(change.position)) {
        throw new RangeError(
          `${network.id}: ${change.item} has no position ${change.position}; it has ${positions?.join(', ') ?? 'none'}`,
        );
      }
      return { ...network, stuck: new Map([...network.stuck, [change.item, change.position]]) };
    }
    case 'rated': {
      const { index, branch } = find(network, change.branch);
      if (branch.kind !== 'element' || !('rating' in branch.element)) {
        throw new RangeError(
          `${network.id}: ${change.branch} has no rating; a fuse or breaker has`,
        );
      }
      const element = { ...branch.element, rating: change.rating };
      return withBranch(network, index, { ...branch, element });
    }
  }
}

function withFault(network: Network, id: string, ohms: number): Network {
  const { index, branch } = find(network, id);
  if (branch.kind !== 'element' && branch.kind !== 'conductor' && branch.kind !== 'wire link') {
    throw new RangeError(
      `${network.id}: ${id} does not fail; an element, core or link of the system does`,
    );
  }
  const { from, to } = branch;
  return withBranch(network, index, { kind: 'faulty', id, from, to, ohms, was: branch });
}

/** Closed while its device is in its place, whatever else would open it. */
function withWelded(network: Network, id: string): Network {
  const { index, branch } = find(network, id);
  if (branch.kind !== 'element' || branch.element.kind !== 'contact') {
    throw new RangeError(`${network.id}: ${id} does not weld; a contact does`);
  }
  const { conditions } = network.items.get(branch.item)!.device;
  const present = Object.keys(conditions).filter((name) => conditions[name]!.presence);
  const closed = { all: present };
  return withBranch(network, index, { ...branch, element: { ...branch.element, closed } });
}

function withBranch(network: Network, index: number, branch: Branch): Network {
  return { ...network, branches: network.branches.with(index, branch) };
}

function find(network: Network, id: string): { index: number; branch: Branch } {
  const index = network.branchIndex.get(id);
  if (index === undefined) throw new RangeError(`${network.id} has no branch ${id}`);
  return { index, branch: network.branches[index]! };
}
