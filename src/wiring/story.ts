import { namesIn } from '../../schemas/index.ts';
import {
  type ElementBranch,
  holds,
  type Network,
  type Settled,
  type Simulation,
} from '../circuit/index.ts';
import { livePathIn } from './live-path.ts';
import { itemWords } from './spoken.ts';

/** Something that happens as a mode comes about. */
export interface StoryStep {
  /** Elements it happens to, by branch id. */
  readonly elements: readonly string[];
  /** As a person says it: `The end switch of the heating valve Q2 closes.` */
  readonly text: string;
}

const LOADS = ['load', 'motor', 'sensing'];

/**
 * How a mode comes about from the system's first one, in the order in which one thing brings
 * the next: what calls, what that feeds, what turns, what that closes. Empty for the first.
 */
export function storyOf(simulation: Simulation, mode: string): StoryStep[] {
  const { network, modes } = simulation;
  const [before] = modes.values();
  const now = modes.get(mode);
  if (!now) throw new RangeError(`${network.id} has no mode ${mode}`);
  if (!before || before === now) return [];
  const changed = new Map<string, ElementBranch>();
  for (const branch of network.branches) {
    if (branch.kind === 'element' && stateOf(branch, before) !== stateOf(branch, now))
      changed.set(branch.id, branch);
  }
  const depths = new Map<string, number>();
  const depthOf = (branch: ElementBranch): number => {
    const known = depths.get(branch.id);
    if (known !== undefined) return known;
    // What is met again on the way to itself, as a contact that holds its own coil, begins.
    depths.set(branch.id, 0);
    const causes = causesOf(simulation, mode, branch).filter((cause) => changed.has(cause.id));
    const depth = causes.reduce((most, cause) => Math.max(most, depthOf(cause) + 1), 0);
    depths.set(branch.id, depth);
    return depth;
  };
  const told = [...changed.values()].map((branch) => ({ branch, depth: depthOf(branch) }));
  const groups = Map.groupBy(
    told.toSorted((a, b) => a.depth - b.depth),
    ({ branch, depth }) => `${depth} ${branch.item}`,
  );
  return [...groups.values()].map((group) => {
    const branches = group.map(({ branch }) => branch);
    return {
      elements: branches.map(({ id }) => id),
      text: sentence(network, branches, now),
    };
  });
}

/** Whether a contact or fuse is closed, or a load works. */
function stateOf({ element, id, item }: ElementBranch, { state }: Settled): boolean | null {
  if (element.kind === 'contact') return !state.blown.has(id) && holds(element.closed, item, state);
  if (element.kind === 'fuse' || element.kind === 'breaker') return !state.blown.has(id);
  return LOADS.includes(element.kind) ? state.energised.has(id) : null;
}

/** What brings an element into its state: for a contact its item's windings, for a load the contacts on its way. */
function causesOf(simulation: Simulation, mode: string, branch: ElementBranch): ElementBranch[] {
  const { network } = simulation;
  const { element, item } = branch;
  if (element.kind === 'contact') {
    const { mechanism } = network.items.get(item)!.device;
    const { elements, positions } = namesIn(element.closed);
    const moved =
      positions.length > 0
        ? (mechanism?.moves.flatMap(({ when }) => namesIn(when).elements) ?? [])
        : [];
    return [...new Set([...elements, ...moved])].flatMap((name) => elementIn(network, item, name));
  }
  const path = livePathIn(simulation, mode, branch.id);
  if (!path) return [];
  const via = [...path.hops.flatMap((hop) => hop.via), ...path.closing];
  return via.filter((one) => one.kind === 'element').filter(({ id }) => id !== branch.id);
}

function elementIn(network: Network, item: string, name: string): ElementBranch[] {
  const branch = network.branches[network.branchIndex.get(`${item}/${name}`) ?? -1];
  return branch?.kind === 'element' ? [branch] : [];
}

function sentence(network: Network, branches: readonly ElementBranch[], now: Settled): string {
  const said = branches.map((branch) => {
    const name = branch.element.name ?? branch.name;
    return `${name} ${verb(branch, stateOf(branch, now) === true)}`;
  });
  const item = itemWords(network, branches[0]!.item);
  return `${item.charAt(0).toUpperCase()}${item.slice(1)}: ${said.join('; ')}.`;
}

function verb({ element }: ElementBranch, isSo: boolean): string {
  switch (element.kind) {
    case 'contact':
      return isSo ? 'closes' : 'opens';
    case 'fuse':
      return 'blows';
    case 'breaker':
      return 'trips';
    case 'motor':
      return isSo ? 'is fed and runs' : 'stops';
    default:
      return isSo ? 'is fed' : 'has no volts';
  }
}
