import { presenceOf } from './build.ts';
import { CLOSED_CONTACT_OHMS, OPEN_CONTACT_OHMS } from './constants.ts';
import { type Branch, type Network, nodeOf } from './network.ts';
import { conditionsOf } from './state.ts';
import { planElimination } from './topology.ts';

/** One thing about a network that is not as its entry says. */
export type Change =
  /** A branch come apart. */
  | { readonly kind: 'open'; readonly branch: string }
  /** A contact that stays closed, or anything bridged from end to end. */
  | { readonly kind: 'closed'; readonly branch: string }
  /** A contact whose parts no longer come apart. */
  | { readonly kind: 'welded'; readonly branch: string }
  /** A path between two points that should not be there, ohms; inside an item, or outside all. */
  | {
      readonly kind: 'join';
      readonly from: string;
      readonly to: string;
      readonly ohms: number;
      readonly inside?: string;
    }
  /** A mechanism that does not leave a position. */
  | { readonly kind: 'stuck'; readonly item: string; readonly position: string }
  /** A fuse or breaker of another rating, A. */
  | { readonly kind: 'rated'; readonly branch: string; readonly rating: number }
  /** A resistance in series with a core, link or element: a burnt joint or contact, ohms. */
  | { readonly kind: 'series'; readonly branch: string; readonly ohms: number }
  /** A load or motor that takes its current and does not do its work. */
  | { readonly kind: 'idle'; readonly branch: string }
  /** A condition that stands so whatever a mode sets, as in a battery that is flat. */
  | { readonly kind: 'set'; readonly condition: string; readonly value: boolean };

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
      const device = network.items.get(change.inside ?? '')?.device;
      const presence = device && presenceOf(device, change.inside!);
      const branches: Branch[] = [
        ...network.branches,
        {
          kind: 'strange path',
          id,
          from,
          to,
          ohms: change.ohms,
          ...(presence ? { presence } : {}),
        },
      ];
      return {
        ...network,
        branches,
        branchIndex: new Map([...network.branchIndex, [id, branches.length - 1]]),
        topology: planElimination(
          network.nodes.length,
          branches.map((b) => [b.from, b.to] as const),
        ),
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
    case 'series':
      return withSeries(network, change.branch, change.ohms);
    case 'idle': {
      const { index, branch } = find(network, change.branch);
      if (branch.kind !== 'element' || !('operates' in branch.element)) {
        throw new RangeError(
          `${network.id}: ${change.branch} does no work; a load, motor or input does`,
        );
      }
      return withBranch(network, index, { ...branch, idle: true });
    }
    case 'set': {
      const known = [...conditionsOf(network, {}).keys()];
      if (!known.includes(change.condition)) {
        throw new RangeError(
          `${network.id} has no condition ${change.condition}; it has ${known.join(', ')}`,
        );
      }
      return { ...network, set: new Map([...network.set, [change.condition, change.value]]) };
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
  const { from, to, presence } = branch;
  const faulty = { kind: 'faulty', id, from, to, ohms, was: branch } as const;
  // What bridges a device's terminals stays there when the device comes off its base.
  const inside = presence !== undefined && ohms === OPEN_CONTACT_OHMS;
  return withBranch(network, index, inside ? { ...faulty, presence } : faulty);
}

function withSeries(network: Network, id: string, ohms: number): Network {
  const { index, branch } = find(network, id);
  if (branch.kind === 'conductor' || branch.kind === 'wire link')
    return withBranch(network, index, { ...branch, ohms: branch.ohms + ohms });
  if (branch.kind !== 'element')
    throw new RangeError(`${network.id}: ${id} has no joint; an element, core or link has`);
  return withBranch(network, index, { ...branch, seriesOhms: (branch.seriesOhms ?? 0) + ohms });
}

/** Closed whatever would open it. */
function withWelded(network: Network, id: string): Network {
  const { index, branch } = find(network, id);
  if (branch.kind !== 'element' || branch.element.kind !== 'contact') {
    throw new RangeError(`${network.id}: ${id} does not weld; a contact does`);
  }
  return withBranch(network, index, { ...branch, element: { ...branch.element, closed: true } });
}

function withBranch(network: Network, index: number, branch: Branch): Network {
  return { ...network, branches: network.branches.with(index, branch) };
}

function find(network: Network, id: string): { index: number; branch: Branch } {
  const index = network.branchIndex.get(id);
  if (index === undefined) throw new RangeError(`${network.id} has no branch ${id}`);
  return { index, branch: network.branches[index]! };
}
