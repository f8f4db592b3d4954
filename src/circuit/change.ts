import type { Element } from '../../schemas/index.ts';
import type { ColourCode } from '../published/index.ts';
import { presenceOf, rewireNetwork } from './build.ts';
import { CLOSED_CONTACT_OHMS, OPEN_CONTACT_OHMS } from './constants.ts';
import { type Branch, BranchIndex, type Network, nodeOf } from './network.ts';
import { conditionsOf } from './state.ts';
import { planElimination } from './topology.ts';

/** One thing about a network that is not as its entry says. */
export type Change =
  /** A branch come apart. */
  | { readonly kind: 'open'; readonly branch: string }
  /** A contact that stays closed, or anything bridged from end to end. */
  | { readonly kind: 'closed'; readonly branch: string }
  /** A core's end out of its terminal, lying loose as `W3.BN@2`: the second end of `W3.BN`. */
  | { readonly kind: 'parted'; readonly end: string }
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

/** The same network with every element of a sort come apart. */
export function openElements(network: Network, sort: (element: Element) => boolean): Network {
  const branches = network.branches.map((branch) => {
    if (branch.kind !== 'element' || !sort(branch.element)) return branch;
    const before = opened.get(branch);
    if (before) return before;
    const { id, from, to } = branch;
    const made: Branch = { kind: 'faulty', id, from, to, ohms: OPEN_CONTACT_OHMS, was: branch };
    opened.set(branch, made);
    return made;
  });
  return { ...network, branches };
}

/** Elements come apart, kept: circuits share branches, and what is worked out of each. */
const opened = new WeakMap<Branch, Branch>();

function changeOnce(network: Network, change: Change): Network {
  switch (change.kind) {
    case 'open':
      return withFault(network, change.branch, OPEN_CONTACT_OHMS);
    case 'closed':
      return withFault(network, change.branch, CLOSED_CONTACT_OHMS);
    case 'parted':
      return withParted(network, change.end);
    case 'welded':
      return withWelded(network, change.branch);
    case 'join': {
      const from = nodeOf(network, change.from).index;
      const to = nodeOf(network, change.to).index;
      const id = `${change.from}~${change.to}`;
      const { ohms, inside = '' } = change;
      const device = network.items.get(inside)?.device;
      const presence = device && presenceOf(device, inside);
      const path = { kind: 'strange path' as const, id, from, to, ohms };
      const branches = [...network.branches, presence ? { ...path, presence } : path];
      return {
        ...network,
        branches,
        branchIndex: new BranchIndex(branches),
        topology: planElimination(network.nodes.length, branches, network.topology),
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
  const { from, to } = branch;
  return withBranch(network, index, { kind: 'faulty', id, from, to, ohms, was: branch });
}

function withSeries(network: Network, id: string, ohms: number): Network {
  const { index, branch } = find(network, id);
  if (branch.kind !== 'element' && branch.kind !== 'conductor' && branch.kind !== 'wire link')
    throw new RangeError(`${network.id}: ${id} has no joint; an element, core or link has`);
  return withBranch(network, index, { ...branch, seriesOhms: (branch.seriesOhms ?? 0) + ohms });
}

function withParted(network: Network, end: string): Network {
  const [, core = '', cable = '', colour = '', n] = /^((.+)\.([A-Z]+))@([12])$/.exec(end) ?? [];
  const { system } = network;
  const joined = system.cables[cable]?.cores[colour as ColourCode];
  if (!joined) throw new RangeError(`${network.id} has no core end ${end} in a terminal`);
  find(network, core);
  const ends: [string, string] = n === '1' ? [end, joined.ends[1]] : [joined.ends[0], end];
  const cores = { ...system.cables[cable]!.cores, [colour]: { ...joined, ends } };
  const cables = { ...system.cables, [cable]: { ...system.cables[cable]!, cores } };
  return rewireNetwork(network, { ...system, cables });
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
