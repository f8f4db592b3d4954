import type { Device } from '../../../schemas/index.ts';
import type { Network } from '../../circuit/index.ts';
import { itemOf, nameOf } from '../points.ts';
import { coreEnds } from '../rewire.ts';
import { isFeed, neededParts, partsOf, terminalsFor } from './parts.ts';

/** Which new terminal takes what was in each old one, and which links that needs. */
export interface Match {
  /** Old terminal → new terminal; null: its function has no home. Only terminals in use. */
  readonly homes: ReadonlyMap<string, string | null>;
  /** Links wanted between terminals of the new device. */
  readonly links: readonly (readonly [string, string])[];
  /** Parts of the new device that need a core nobody has brought yet. */
  readonly missing: readonly string[];
}

/**
 * Matches the terminals of an item and of the device that is to take its place by the parts they play. A terminal that several old
 * ones want goes to the one that comes with its supply; the others have no home there unless
 * they were joined to it before.
 */
export function matchTerminals(network: Network, item: string, device: Device): Match {
  const { system } = network;
  const old = network.items.get(item)!.device;
  const cores = new Set(
    coreEnds(system)
      .filter(({ point }) => itemOf(point) === item)
      .map(({ point }) => nameOf(point)),
  );
  const oldLinks = system.links
    .map(({ between }) => between)
    .filter(([a]) => itemOf(a) === item)
    .map(([a, b]) => [nameOf(a), nameOf(b)] as const);
  const linked = new Set(oldLinks.flat());
  const used = Object.keys(old.terminals).filter((name) => cores.has(name) || linked.has(name));
  const joined = joinedNames(oldLinks);

  const homes = new Map<string, string | null>();
  const takers = new Map<string, string>();
  const supplyFirst = used.toSorted((a, b) => rank(old, a) - rank(old, b));
  for (const name of supplyFirst) {
    const wanted = homeOf(old, device, name);
    // A side of an extra-low-voltage pair is no supply, whatever a contact would take.
    const unfit = onExtraLow(network, `${item}.${name}`) && suppliesFrom(device, wanted);
    const home = unfit ? null : wanted;
    const taker = home === null ? undefined : takers.get(home);
    const free = taker === undefined || taker === name || joined(taker, name);
    homes.set(name, free ? home : null);
    if (free && home !== null && taker === undefined) takers.set(home, name);
  }
  return {
    homes: new Map(used.map((name) => [name, homes.get(name) ?? null])),
    ...linksAndNeeds({ old, device, used, cores, oldLinks, homes }),
  };
}

const suppliesFrom = (device: Device, terminal: string | null): boolean =>
  terminal !== null && partsOf(device, terminal).includes('supply line');

/** Whether a core at a terminal comes from one side of an extra-low-voltage call. */
export function onExtraLow({ system, nodes, nodeIndex }: Network, point: string): boolean {
  const isCall = (id: string) => {
    const terminal = nodes[nodeIndex.get(id) ?? -1]?.terminal;
    return terminal?.carries === 'call' || terminal?.voltage === 'extra-low';
  };
  return Object.values(system.cables).some(({ cores }) =>
    Object.values(cores).some(({ ends }) => ends.includes(point) && ends.some(isCall)),
  );
}

/** Terminals that come with a supply choose first. */
const rank = (device: Device, terminal: string): number =>
  partsOf(device, terminal).includes('supply line') ? 0 : 1;

function homeOf(old: Device, device: Device, terminal: string): string | null {
  for (const part of partsOf(old, terminal)) {
    const same = terminalsFor(device, part);
    if (same.includes(terminal)) return terminal;
    if (same[0] !== undefined) return same[0];
  }
  return null;
}

function joinedNames(links: readonly (readonly [string, string])[]) {
  const group = new Map<string, string>();
  const head = (name: string): string => {
    const next = group.get(name);
    return next === undefined || next === name ? name : head(next);
  };
  for (const [a, b] of links) group.set(head(a), head(b));
  return (a: string, b: string) => head(a) === head(b);
}

interface Known {
  readonly old: Device;
  readonly device: Device;
  readonly used: readonly string[];
  readonly cores: ReadonlySet<string>;
  readonly oldLinks: readonly (readonly [string, string])[];
  readonly homes: ReadonlyMap<string, string | null>;
}

function linksAndNeeds({ old, device, used, cores, oldLinks, homes }: Known) {
  const links: (readonly [string, string])[] = [];
  const isLinked = (name: string) => links.some((pair) => pair.includes(name));
  for (const [a, b] of oldLinks) {
    const [from, to] = [homes.get(a), homes.get(b)];
    if (from && to && from !== to) links.push([from, to]);
  }
  const fed = new Set(used.filter((name) => cores.has(name)).map((name) => homes.get(name)));
  const usedParts = new Set(used.flatMap((name) => partsOf(old, name)));
  const missing: string[] = [];
  for (const part of neededParts(device, usedParts)) {
    const [terminal] = terminalsFor(device, part);
    if (!terminal || fed.has(terminal) || isLinked(terminal)) continue;
    if (missing.some((other) => terminalsFor(device, other)[0] === terminal)) continue;
    // What one old terminal did inside the device, a link now does outside it.
    const source = used.find(
      (name) =>
        partsOf(old, name).includes(part) && homes.get(name) && homes.get(name) !== terminal,
    );
    const [supply] = terminalsFor(device, 'supply line');
    const from = source ? homes.get(source) : isFeed(part) ? supply : undefined;
    if (from && from !== terminal) links.push([from, terminal]);
    else missing.push(part);
  }
  return { links, missing };
}
