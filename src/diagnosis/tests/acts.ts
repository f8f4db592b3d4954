import { type Device, ISOLATED, type Logic } from '../../../schemas/index.ts';
import type { Network } from '../../circuit/index.ts';
import { isUnvented, type Place, placeOfTerminal, placesOf, readsAt } from '../../site/index.ts';
import {
  coreEnds,
  type ItemPoints,
  itemOf,
  mateOf,
  nameOf,
  pointsByItem,
} from '../../wiring/index.ts';
import type { ActTest } from './kinds.ts';

/** Families of what a link may stand in for: never a cut-out, a limit, an overflow. */
const LINKED: readonly string[] = ['control', 'receiver'];

/**
 * What hands do at the places a controls engineer opens: prove dead, look inside and tug, compare
 * with the wiring table, test cores and parts with their cores disconnected, test the insulation,
 * turn the spindle of a valve, link the call.
 */
export function actsOf(network: Network): readonly ActTest[] {
  const made = known.get(network) ?? listActs(network);
  known.set(network, made);
  return made;
}

const known = new WeakMap<Network, readonly ActTest[]>();

function listActs(network: Network): ActTest[] {
  if (!network.system.modes[ISOLATED]?.testable) return [];
  const joined = new Set(
    pointsByItem(network).flatMap(({ lines, neutrals, earths, calls }) => [
      ...lines,
      ...neutrals,
      ...earths,
      ...calls,
    ]),
  );
  const open = placesOf(network).filter(
    (place) =>
      readsAt(place) !== 'none' &&
      place.opening.needs === 'isolated' &&
      place.terminals.some((point) => joined.has(point)),
  );
  return [
    ...open.flatMap((place) => [
      act('prove', place.id, place),
      act('inside', place.id, place),
      act('compare', place.id, place),
    ]),
    ...leadsOf(network).flatMap((lead) => [
      ...disconnected(network, lead),
      ...leadInsulation(network, lead),
    ]),
    ...pointsByItem(network).flatMap((points) => insulation(network, points)),
    ...placesOf(network).flatMap((place) => spindle(network, place)),
    ...open.flatMap((place) => links(network, place)),
  ];
}

const act = (
  kind: ActTest['act'],
  about: string,
  place: Place,
  more: Partial<Pick<ActTest, 'points' | 'mode' | 'outcome' | 'part' | 'without'>> = {},
): ActTest => ({
  kind: 'act',
  act: kind,
  id: `${kind}:${about}`,
  mode: ISOLATED,
  place: place.id,
  points: [],
  ...more,
});

/** A cable to an item that no other cable reaches, with what lies at its two ends. */
interface Lead {
  readonly cable: string;
  readonly item: string;
  /** Which of a core's two ends is at the item. */
  readonly end: 0 | 1;
}

/** Cables to items that no other cable reaches: with both disconnected a test sees nothing else. */
export function leadsOf({ system }: Pick<Network, 'system'>): Lead[] {
  const cables = new Map<string, Set<string>>();
  for (const { cable, point } of coreEnds(system)) {
    const item = itemOf(point);
    cables.set(item, (cables.get(item) ?? new Set()).add(cable));
  }
  return Object.entries(system.cables).flatMap(([cable, { cores }]): Lead[] => {
    const [core] = Object.values(cores);
    if (!core) return [];
    const end = ([0, 1] as const).find((side) => cables.get(itemOf(core.ends[side]))!.size === 1);
    return end === undefined ? [] : [{ cable, item: itemOf(core.ends[end]), end }];
  });
}

/**
 * Dead tests with the cores of a lead disconnected: at its far end, where the lead and the part
 * behind it are read, and at the part, where that is read alone.
 */
function disconnected(network: Network, { cable, item, end }: Lead): ActTest[] {
  const { cores } = network.system.cables[cable]!;
  // A boiler's own parts are nobody's to read who may not mend them.
  const { family } = network.items.get(item)!.device;
  const byPoint = new Map(
    Object.entries(cores).map(
      ([colour, { ends }]) => [ends[end], [colour, ends[1 - end]!]] as const,
    ),
  );
  return pathsThrough(network, item).flatMap(([from, to]) => {
    const [one, two] = [byPoint.get(from), byPoint.get(to)];
    if (!one || !two) return [];
    const [here, there] = [placeOfTerminal(network, from), placeOfTerminal(network, one[1]!)];
    const same = there && there === placeOfTerminal(network, two[1]!);
    const free = (colour: string) => `${cable}.${colour}@${2 - end}`;
    const made = [
      ...(same && isOurs(there)
        ? [
            act('core', `${cable}.${one[0]}-${two[0]}`, there, {
              points: [free(one[0]!), free(two[0]!)],
            }),
          ]
        : []),
      ...(here && isOurs(here) && family !== 'boiler'
        ? [act('part', `${from}|${to}`, here, { points: [from, to], part: item })]
        : []),
    ];
    const call = callOf(network, item);
    return call === undefined
      ? made
      : made.flatMap((test) => [test, { ...test, id: `${test.id}, turned down`, without: call }]);
  });
}

/**
 * The insulation of each live to earth at a place, its neutral joined to it, so that no
 * electronics stand between (BS 7671 643.3.3). Extra-low voltage is never tested so.
 */
function insulation(network: Network, { lines, neutrals, earths }: ItemPoints): ActTest[] {
  return lines.flatMap((line) => {
    const place = placeOfTerminal(network, line);
    if (!place || !isOurs(place)) return [];
    const there = (points: readonly string[]) =>
      mateOf(
        line,
        points.filter((point) => place.terminals.includes(point)),
      );
    const [neutral, earth] = [there(neutrals), there(earths)];
    if (!neutral || !earth) return [];
    return [act('insulation', `${line}|${neutral}`, place, { points: [line, neutral, earth] })];
  });
}

/** The same of a lead with the part behind it, its cores taken out and all but the earth joined. */
function leadInsulation(network: Network, { cable, end }: Lead): ActTest[] {
  const { cores } = network.system.cables[cable]!;
  const ends = Object.entries(cores).map(([colour, core]) => ({
    point: `${cable}.${colour}@${2 - end}`,
    at: core!.ends[1 - end]!,
    of: core!.ends[end]!,
  }));
  const carries = ({ of }: { of: string }) => {
    const { terminal } = network.nodes[network.nodeIndex.get(of)!]!;
    return terminal?.voltage === 'mains' ? terminal.carries : 'extra-low voltage';
  };
  const place = placeOfTerminal(network, ends[0]!.at);
  const isHere = ends.every(({ at }) => place?.terminals.includes(at));
  const earth = ends.find((one) => carries(one) === 'earth');
  const lives = ends.filter((one) => one !== earth);
  const isMains = lives.every((one) => ['line', 'switched', 'neutral'].includes(carries(one)));
  if (!place || !isOurs(place) || !isHere || !earth || !isMains || lives.length === 0) return [];
  return [act('insulation', cable, place, { points: [...lives, earth].map(({ point }) => point) })];
}

/** The call that an item makes while it is isolated: by battery, or by hand. */
function callOf({ items, system }: Network, item: string): string | undefined {
  const { conditions } = items.get(item)!.device;
  const name = Object.keys(conditions).find((one) => {
    const { wants } = conditions[one]!;
    return wants === 'heating' || wants === 'hot water';
  });
  const id = `${item}.${name}`;
  return name && system.modes[ISOLATED]!.conditions[id] === true ? id : undefined;
}

const isOurs = (place: Place) => readsAt(place) !== 'none' && place.opening.needs === 'isolated';

/** Pairs of an item's terminals between which its own elements make a path, closed or not. */
function pathsThrough(network: Network, item: string): [string, string][] {
  const own = network.branches.filter((b) => b.kind === 'element' && b.item === item);
  const near = Map.groupBy(
    own.flatMap(({ from, to }) => [
      [from, to],
      [to, from],
    ]),
    ([from]) => from!,
  );
  const terminals = network.nodes.filter((n) => n.item === item && n.terminal);
  return terminals.flatMap(({ id, index }, i) => {
    const reached = new Set([index]);
    for (const node of reached)
      for (const [, next] of near.get(node) ?? []) {
        // A path ends at the next terminal: what lies beyond is another part.
        if (next === undefined || reached.has(next)) continue;
        if (node !== index && network.nodes[node]!.terminal) continue;
        reached.add(next);
      }
    return terminals
      .slice(i + 1)
      .flatMap((other): [string, string][] => (reached.has(other.index) ? [[id, other.id]] : []));
  });
}

/** A link across the contact of a control, and what is then seen of the heat source and its pump. */
function links(network: Network, place: Place): ActTest[] {
  const { device } = network.items.get(place.item)!;
  if (!LINKED.includes(device.family)) return [];
  return network.branches.flatMap((branch): ActTest[] => {
    if (branch.kind !== 'element' || branch.item !== place.item) return [];
    const { element } = branch;
    if (element.kind !== 'contact' || !asksForHeat(device, element.closed)) return [];
    const points = [branch.from, branch.to].map((node) => network.nodes[node]!);
    if (points.some(({ id, terminal }) => !terminal || !place.terminals.includes(id))) return [];
    if (new Set(points.map(({ terminal }) => terminal!.voltage)).size > 1) return [];
    const ids = points.map(({ id }) => id);
    const mode = Object.keys(network.system.modes).find(
      (id) =>
        network.system.modes[id]!.testable &&
        id !== ISOLATED &&
        demandsIn(network, place.item, network.system.modes[id]!.conditions),
    );
    if (mode === undefined) return [];
    return burners(network).map((outcome) =>
      act('link', `${ids.map(nameOf).join('-')} at ${place.item}, ${outcome}@${mode}`, place, {
        points: ids,
        mode,
        outcome,
      }),
    );
  });
}

/**
 * Whether a call for heating closes a contact. What a call opens has no call to bridge; what
 * asks for hot water may stand on an unvented cylinder and is never linked.
 */
function asksForHeat(device: Device, rule: Logic): boolean {
  if (typeof rule === 'string') return device.conditions[rule]?.wants === 'heating';
  if (typeof rule === 'boolean') return false;
  const parts = 'all' in rule ? rule.all : 'any' in rule ? rule.any : [];
  return parts.some((part) => asksForHeat(device, part));
}

/** Whether a mode has an item ask for heat. */
function demandsIn(
  network: Network,
  item: string,
  conditions: Readonly<Record<string, boolean>>,
): boolean {
  const { device } = network.items.get(item)!;
  return Object.entries(device.conditions).some(
    ([name, { wants }]) =>
      (wants === 'heating' || wants === 'hot water') && conditions[`${item}.${name}`] === true,
  );
}

/**
 * The spindle of a valve, its head off. The head of an unvented cylinder's valve stays on: that
 * valve is a safety device (Approved Document G3).
 */
const spindle = (network: Network, place: Place): ActTest[] =>
  place.opening.spindle &&
  place.opening.by === 'controls engineer' &&
  !isUnvented(network, place.item)
    ? [act('spindle', place.id, place)]
    : [];

/** What tells that a call came through: the burner, where the boiler shows it. */
const burners = (network: Network): string[] =>
  [...network.items].flatMap(([item, { device }]) =>
    device.family === 'boiler' && device.outcomes.burner ? [`${item}.burner`] : [],
  );
