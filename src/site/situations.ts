import {
  changeNetwork,
  type Network,
  type Settled,
  type Simulation,
  settleMode,
} from '../circuit/index.ts';
import { changesCircuit, type Place, placeNamed, placesOf, readsAt } from './places.ts';

/** A mode, and the place open in it whose opening changes the circuit. */
export interface Situation {
  /** `heating`, or `heating, B1/backplate open`. */
  readonly id: string;
  readonly mode: string;
  /** Null where no open place changes the circuit. */
  readonly place: Place | null;
  /** Two terminals that a link is laid across, once isolated, before the mode is brought about. */
  readonly link?: readonly [string, string];
}

/** Ohms of a link. */
export const LINK_OHMS = 0.01;

const opened = new WeakMap<Place, Map<string, Situation>>();

/** A mode as the opening of a place leaves it. */
export function situationIn(mode: string, place: Place | null | undefined): Situation {
  if (!place || !changesCircuit(place)) return { id: mode, mode, place: null };
  const own = opened.get(place) ?? new Map<string, Situation>();
  opened.set(place, own);
  const before = own.get(mode);
  if (before) return before;
  const made = { id: `${mode}, ${place.id} open`, mode, place };
  own.set(mode, made);
  return made;
}

/** A mode with a place open and a link laid across two of its terminals. */
export const linkedIn = (
  mode: string,
  place: Place,
  link: readonly [string, string],
): Situation => ({
  id: `${mode}, ${link.join('–')} linked`,
  mode,
  place,
  link,
});

/** Every situation in which something is seen or read: each mode, and each with a place open. */
export function situationsOf(network: Network): Situation[] {
  const places = placesOf(network).filter((p) => changesCircuit(p) && readsAt(p) !== 'none');
  return Object.keys(network.system.modes).flatMap((mode) =>
    [null, ...places].map((place) => situationIn(mode, place)),
  );
}

const made = new WeakMap<Simulation, Map<string, Settled>>();

/**
 * The circuit at rest in a mode, as the opening of a place leaves it. A place is opened with
 * the supply off: what follows starts from where the mode itself starts.
 *
 * @throws RangeError for a mode or place that the system does not have.
 */
export function settledAt(simulation: Simulation, mode: string, placeId: string | null): Settled {
  const { network } = simulation;
  return settledIn(
    simulation,
    situationIn(mode, placeId === null ? null : placeNamed(network, placeId)),
  );
}

/** The same of a situation. */
export function settledIn(simulation: Simulation, situation: Situation): Settled {
  const { id, mode, place } = situation;
  const { network, modes, memory } = simulation;
  const settled = modes.get(mode);
  if (!settled) {
    throw new RangeError(
      `${network.id} has no mode ${mode}; it has ${[...modes.keys()].join(', ')}`,
    );
  }
  if (!place) return settled;
  const situations = made.get(simulation) ?? new Map<string, Settled>();
  made.set(simulation, situations);
  const before = situations.get(id);
  if (before) return before;
  const { after } = network.system.modes[mode]!;
  const from = after === undefined ? memory : modes.get(after)!.state;
  const conditions = conditionsAt(settled, place);
  const then = settleMode(networkIn(network, situation), mode, conditions, from);
  situations.set(id, then);
  return then;
}

const brought = new WeakMap<ReadonlyMap<string, boolean>, Map<Place, Record<string, boolean>>>();

/** A mode's conditions and those that opening a place brings about: one object for all circuits. */
function conditionsAt({ state: { conditions } }: Settled, place: Place): Record<string, boolean> {
  const own = brought.get(conditions) ?? new Map<Place, Record<string, boolean>>();
  brought.set(conditions, own);
  const before = own.get(place);
  if (before) return before;
  const made = { ...Object.fromEntries(conditions), ...place.brings };
  own.set(place, made);
  return made;
}

const withLinks = new WeakMap<Network, Map<string, Network>>();

/** A network as a situation finds it: with the link laid, where there is one. */
export function networkIn(network: Network, { link }: Situation): Network {
  if (!link) return network;
  const [from, to] = link;
  const own = withLinks.get(network) ?? new Map<string, Network>();
  withLinks.set(network, own);
  const before = own.get(`${from}|${to}`);
  if (before) return before;
  const made = changeNetwork(network, [{ kind: 'join', from, to, ohms: LINK_OHMS }]);
  own.set(`${from}|${to}`, made);
  return made;
}
