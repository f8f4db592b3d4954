import {
  type Branch,
  type ElementBranch,
  INSTRUMENTS,
  type Network,
  readClass,
  type State,
  solve,
} from '../circuit/index.ts';
import { supplyEarth } from '../diagram/index.ts';

/** Ids of a drawing's parts by how a circuit leaves them: terminals, points, conductors, elements. */
export interface FoundParts {
  readonly live: readonly string[];
  readonly between: readonly string[];
  /** Contacts, fuses and breakers that pass. */
  readonly closed: readonly string[];
  /** Loads and inputs that work, and sources that drive. */
  readonly on: readonly string[];
}

/** Resistance below which a contact or fuse passes, ohms. */
const PASSES_OHMS = 10;
const SWITCHES = ['contact', 'fuse', 'breaker'];

/** How a circuit in one state leaves every part of its drawing. */
export function partsIn(network: Network, state: State): FoundParts {
  const solution = solve(network, state);
  const earth = supplyEarth(network);
  const classes = network.nodes.map(({ id }) =>
    earth === undefined ? 'dead' : readClass(solution, id, earth, INSTRUMENTS[0]!),
  );
  const isLive = (node: number) => classes[node] === 'live' || classes[node] === 'high';
  const isBetween = (node: number) => classes[node] === 'between';
  // What is broken is no safer than its live end.
  const either = (of: (node: number) => boolean) => [
    ...network.nodes.flatMap(({ id, index }) => (of(index) ? [id] : [])),
    ...network.branches.flatMap(({ id, from, to }) => (of(from) || of(to) ? [id] : [])),
  ];
  const live = either(isLive);
  return {
    live,
    between: either(isBetween).filter((id) => !live.includes(id)),
    closed: network.branches.flatMap((branch, i) => {
      const kind = elementOf(branch)?.kind;
      const passes = solution.parts[i]!.ohms < PASSES_OHMS;
      return kind && SWITCHES.includes(kind) && passes ? [branch.id] : [];
    }),
    on: [
      ...state.energised,
      ...network.branches.flatMap((branch) => {
        const element = elementOf(branch);
        if (element?.kind !== 'source' || branch.kind !== 'element') return [];
        const { poweredBy } = element;
        const drives =
          poweredBy === undefined || state.energised.has(`${branch.item}/${poweredBy}`);
        return drives ? [branch.id] : [];
      }),
    ],
  };
}

function elementOf(branch: Branch): ElementBranch['element'] | undefined {
  if (branch.kind === 'element') return branch.element;
  return branch.kind === 'faulty' && branch.was.kind === 'element' ? branch.was.element : undefined;
}
