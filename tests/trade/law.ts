import { ISOLATED } from '../../schemas/index.ts';
import { type Network, resistanceBetween, type Simulation } from '../../src/circuit/index.ts';
import type { Test } from '../../src/diagnosis/index.ts';
import type { TestSequence } from '../../src/diagnosis/sequences/index.ts';
import { settledAt } from '../../src/site/index.ts';

/** A step that must not be asked of anybody. */
export interface Breach {
  /** Id of the test. */
  readonly step: string;
  readonly law:
    | 'reachable as things stand'
    | 'live readings only where they are allowed'
    | 'dead when opened'
    | 'protective elements untouched'
    | 'insulation tests on mains alone, live and neutral joined'
    | 'nobody in a consumer unit, sealed case, moulded head or wet place';
  readonly found: string;
}

/**
 * Devices nobody on a heating call puts a probe into, by what they are and not by what their
 * entries say of their openings (common practice, no source).
 */
const NO_PROBE = /^(supply-circuit|condensate-pump|two-port-valve|mid-position-valve|three-port)/;
const CONSUMER_UNIT = /^supply-circuit/;
/** Least ohms to the supply of a point that counts as dead: the limit of insulation at mains. */
const DEAD_OHMS = 1e6;

/**
 * What is wrong with a test as a step, whatever comes before it: a place is opened isolated, so
 * that no step needs another to have been made. Read from the device's own entry.
 */
export function breachesOf(simulation: Simulation, test: Test): Breach[] {
  const { network } = simulation;
  const breaches: Breach[] = [];
  const breach = (law: Breach['law'], found: string) =>
    breaches.push({ step: test.id, law, found });
  if (test.kind === 'look') {
    if (test.place !== null) breach('reachable as things stand', `a look behind ${test.place}`);
    if (!network.system.modes[test.mode]?.testable)
      breach('reachable as things stand', `mode ${test.mode} cannot be brought about`);
    return breaches;
  }
  const [item = '', name = ''] = test.place?.split('/') ?? [];
  const kind = network.system.items[item]?.device ?? '';
  const opening = network.items.get(item)?.device.openings[name];
  if (!opening) {
    breach('reachable as things stand', `no opening ${test.place}`);
    return breaches;
  }
  if (CONSUMER_UNIT.test(kind) || opening.by !== 'controls engineer')
    breach(
      'nobody in a consumer unit, sealed case, moulded head or wet place',
      `${kind} is opened by ${opening.by}`,
    );
  if (test.kind === 'act') {
    const { family } = network.items.get(item)!.device;
    if (test.act === 'link' && !['control', 'receiver'].includes(family))
      breach('protective elements untouched', `a link at a ${family}`);
    if (test.act === 'insulation')
      for (const found of wronglyTested(network, test.points))
        breach('insulation tests on mains alone, live and neutral joined', found);
    if (test.act !== 'link' && test.mode !== ISOLATED)
      breach('reachable as things stand', `${test.act} in ${test.mode}`);
  } else if (test.kind === 'fuse') {
    const fuse = test.branch.slice(item.length + 1);
    if (!opening.holds.includes(fuse))
      breach('reachable as things stand', `${fuse} is not behind ${name}`);
    if (opening.needs !== 'isolated') return breaches;
  } else {
    if (NO_PROBE.test(kind))
      breach('nobody in a consumer unit, sealed case, moulded head or wet place', kind);
    const shown = shownBy(network, item, name);
    // The earth of the supply is at hand at any socket outlet: nobody opens a consumer unit for it.
    const byLongLead = test.kind === 'dead' && test.pair.kind === 'earth continuity';
    for (const point of byLongLead ? [test.pair.from] : [test.pair.from, test.pair.to])
      if (!shown.includes(point))
        breach('reachable as things stand', `${point} is not behind ${name}`);
    if (test.kind === 'live')
      for (const float of floatsRaised(network, test.mode))
        breach('live readings only where they are allowed', `water is poured to raise ${float}`);
    if (test.kind === 'live' && opening.readings !== 'live and dead')
      breach('live readings only where they are allowed', `${test.place}: ${opening.readings}`);
    if (test.kind === 'dead' && (opening.readings === 'none' || test.mode !== ISOLATED))
      breach('reachable as things stand', `${test.place}: ${opening.readings}, ${test.mode}`);
  }
  for (const point of liveThere(simulation, item, name))
    breach('dead when opened', `${point} is live with the system isolated`);
  return breaches;
}

/**
 * What an insulation tester must not be put on: an extra-low-voltage pair, or a live whose neutral
 * is not joined to it, with electronics between (BS 7671 643.3.3). The last point is an earth.
 */
function wronglyTested({ nodes, nodeIndex, system }: Network, points: readonly string[]): string[] {
  const terminals = points.map((point) => {
    const [, cable, colour, end] = /^(.+)\.([A-Z]+)@([12])$/.exec(point) ?? [];
    const core = cable && system.cables[cable]!.cores[colour as 'BN']!;
    // A lead is of what is at its other end.
    const at = core ? core.ends[2 - Number(end)]! : point;
    return nodes[nodeIndex.get(at)!]!.terminal!;
  });
  const [earth, lives] = [terminals.at(-1)!, terminals.slice(0, -1)];
  return [
    ...(earth.carries === 'earth' ? [] : [`${points.at(-1)} is no earth`]),
    ...lives.flatMap(({ voltage, carries }, i) =>
      voltage === 'extra-low' || carries === 'call' ? [`${points[i]} is extra-low voltage`] : [],
    ),
    // A lead that is taken out has all its cores joined, whichever there are.
    ...(points[0]!.includes('@') || lives.some(({ carries }) => carries === 'neutral')
      ? []
      : [`${points[0]} without its neutral`]),
  ];
}

/** Every step of a sequence held to the law, and every reading that proves an end. */
export function breachesIn(simulation: Simulation, { steps, ends }: TestSequence): Breach[] {
  const tests = [...steps, ...ends.flatMap(({ proof }) => proof ?? [])].map(({ test }) => test);
  return [...new Map(tests.map((test) => [test.id, test])).values()].flatMap((test) =>
    breachesOf(simulation, test),
  );
}

/** Floats that a mode has raised: what falls where something is lifted out of the wet, nobody reads there. */
function floatsRaised({ items, system }: Network, mode: string): string[] {
  return Object.entries(system.modes[mode]!.conditions).flatMap(([reference, value]) => {
    const [item = '', condition = ''] = reference.split('.');
    const isFloat = Object.values(items.get(item)!.device.openings).some(
      ({ readings, moves }) => readings === 'none' && moves[condition] === !value,
    );
    return isFloat ? [reference] : [];
  });
}

/** Points behind an opening: those it names, or those that no opening names. */
function shownBy(network: Network, item: string, name: string): string[] {
  const { terminals, openings } = network.items.get(item)!.device;
  const named = Object.values(openings).flatMap(({ shows }) => shows ?? []);
  const own = openings[name]!.shows ?? Object.keys(terminals).filter((t) => !named.includes(t));
  return own.map((terminal) => `${item}.${terminal}`);
}

/** Points behind an opening that a path of the circuit joins to the supply once isolated. */
function liveThere(simulation: Simulation, item: string, name: string): string[] {
  const { network } = simulation;
  const { solution } = settledAt(simulation, ISOLATED, `${item}/${name}`);
  const supply = network.branches.flatMap((b) =>
    b.kind === 'supply' && !b.id.endsWith('earth') ? [network.nodes[b.from]!.id] : [],
  );
  return shownBy(network, item, name).filter(
    (point) =>
      network.nodes[network.nodeIndex.get(point)!]!.terminal?.carries !== 'earth' &&
      supply.some((from) => resistanceBetween(solution, point, from) < DEAD_OHMS),
  );
}
