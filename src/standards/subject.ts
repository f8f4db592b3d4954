import { type Device, ISOLATED } from '../../schemas/index.ts';
import {
  type ConductorBranch,
  type ElementBranch,
  isLooseEnd,
  type Network,
  type Settled,
  type Simulation,
} from '../circuit/index.ts';
import { type CablesAndProtection, cablesAndProtection } from '../wiring/index.ts';
import { conductsIn, type Nodes, reached } from './reach.ts';

/** A simulated system as the checks look at it. */
export interface Subject {
  readonly simulation: Simulation;
  readonly network: Network;
  /** Nodes of the supply where it enters. */
  readonly supply: { readonly line: number; readonly neutral: number; readonly earth: number };
  /** Modes with the supply on. */
  readonly working: readonly Settled[];
  /** Cores that are joined to terminals at both ends. */
  readonly conductors: readonly ConductorBranch[];
  readonly elements: readonly ElementBranch[];
  /** Cables and protection; worked out when first asked for, then kept. */
  readonly cables: CablesAndProtection;
  /** Nodes joined to the supply's neutral whatever the controls do. */
  readonly neutralNodes: Nodes;
  /** Nodes joined to the supply's earth by conductors and links alone. */
  readonly earthNodes: Nodes;
}

/** Families that may open a neutral together with the line. */
const BOTH_POLES = ['isolation', 'supply'];

/**
 * Prepares a simulated system for the checks.
 * @returns null where the circuit has no supply: nothing can be said of it.
 */
export function subjectOf(simulation: Simulation): Subject | null {
  const { network, modes } = simulation;
  const node = (part: string) =>
    network.branches.find((b) => b.kind === 'supply' && b.id.endsWith(`supply ${part}`))?.from;
  const [line, neutral, earth] = ['line', 'neutral', 'earth'].map(node);
  if (line === undefined || neutral === undefined || earth === undefined) return null;
  const working = [...modes.values()].filter(({ mode }) => mode !== ISOLATED);
  const spare = (node: number) => isLooseEnd(network.nodes[node]?.id ?? '');
  const conductors = network.branches.filter(
    (b): b is ConductorBranch => b.kind === 'conductor' && !spare(b.from) && !spare(b.to),
  );
  const elements = network.branches.filter((b): b is ElementBranch => b.kind === 'element');
  const neutrals = working.map((settled) => {
    const conducts = conductsIn(settled);
    return reached(network, neutral, (b, i) => conducts(b, i) && !opens(network, b));
  });
  let cables: CablesAndProtection | undefined;
  return {
    get cables() {
      cables ??= cablesAndProtection(simulation);
      return cables;
    },
    simulation,
    network,
    supply: { line, neutral, earth },
    working,
    conductors,
    elements,
    neutralNodes: new Set(neutrals.flatMap((nodes) => [...nodes])),
    earthNodes: reached(
      network,
      earth,
      (b) =>
        b.kind === 'conductor' ||
        b.kind === 'wire link' ||
        (b.kind === 'element' && b.element.kind === 'link'),
    ),
  };
}

/** Whether a branch is a contact, fuse or breaker outside what may open both poles. */
function opens(network: Network, branch: Network['branches'][number]): boolean {
  return (
    branch.kind === 'element' &&
    ['contact', 'fuse', 'breaker'].includes(branch.element.kind) &&
    !BOTH_POLES.includes(familyOf(network, branch.item))
  );
}

/** Family of an item's device. */
export const familyOf = (network: Network, item: string): Device['family'] =>
  network.items.get(item)!.device.family;

/** Elements that use power, in the order of the entry. */
export const loadsOf = ({ elements }: Subject): ElementBranch[] =>
  elements.filter(({ element }) => ['load', 'motor', 'sensing'].includes(element.kind));

/** Contacts of the items of some families. */
export const contactsOf = ({ elements, network }: Subject, families: readonly string[]) =>
  elements.filter(
    ({ item, element }) => element.kind === 'contact' && families.includes(familyOf(network, item)),
  );
