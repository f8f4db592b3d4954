import { type Branch, changeNetwork, type Simulation, simulate } from '../circuit/index.ts';

/** One thing that may have come apart, and the circuit as it then is. */
export interface Suspect {
  /** Branch id, as in `W3.BN` or `E1/board fuse`. */
  readonly id: string;
  readonly branch: Branch;
  /** In plain words, as in `Core BN of W3, E1 call feed to B1 COM`. */
  readonly title: string;
  /** What to do about it, in plain words. */
  readonly repair: string;
  /** The system in every mode with this one thing apart. */
  readonly simulation: Simulation;
}

/** Makes suspects of a system, each simulated once however often it is asked for. */
export function suspectsOf(simulation: Simulation): (branch: Branch) => Suspect {
  const made = new Map<string, Suspect>();
  return (branch) => {
    const known = made.get(branch.id);
    if (known) return known;
    const suspect: Suspect = {
      id: branch.id,
      branch,
      title: titleOf(simulation, branch),
      repair: repairOf(branch),
      simulation: simulate(
        changeNetwork(simulation.network, [{ kind: 'open', branch: branch.id }]),
      ),
    };
    made.set(branch.id, suspect);
    return suspect;
  };
}

function titleOf({ network }: Simulation, branch: Branch): string {
  const ends = `${spoken(network.nodes[branch.from]!.id)} to ${spoken(network.nodes[branch.to]!.id)}`;
  if (branch.kind === 'conductor') return `Core ${branch.colour} of ${branch.cable}, ${ends}`;
  if (branch.kind === 'wire link') return `Link at ${branch.item}, ${ends}`;
  if (branch.kind !== 'element') return ends;
  return `${branch.item} ${branch.element.name ?? branch.name}`;
}

/** `E1 call feed` for `E1.call feed`; a node inside a device is `inside E1`. */
function spoken(id: string): string {
  return id.includes('#') ? `inside ${id.slice(0, id.indexOf('#'))}` : id.replace('.', ' ');
}

function repairOf(branch: Branch): string {
  if (branch.kind === 'conductor') {
    return 'Isolate, prove dead, remake both ends; prove the core’s continuity; replace it if it is broken along its length.';
  }
  if (branch.kind === 'wire link') return 'Isolate, prove dead, remake the link.';
  if (branch.kind !== 'element') return '';
  switch (branch.element.kind) {
    case 'fuse':
      return 'Find why it blew before fitting another of the same rating.';
    case 'breaker':
      return 'Find why it tripped before closing it again.';
    case 'contact':
      return `The contact does not close although its condition is met: look at what moves it, then replace ${branch.item}.`;
    default:
      return `Inside ${branch.item}: follow its maker’s instructions, or replace it.`;
  }
}
