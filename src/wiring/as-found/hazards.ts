import { ISOLATED } from '../../../schemas/index.ts';
import {
  type CircuitNode,
  classOf,
  type ElementBranch,
  INSTRUMENTS,
  isLooseEnd,
  type Network,
  nodeOf,
  read,
  resistanceBetween,
  type Settled,
  type Simulation,
} from '../../circuit/index.ts';
import { EXTRA_LOW_LIMITS } from '../../published/index.ts';
import { JOIN_OHMS, waysFrom } from '../reach.ts';
import { byGravity, type Hazard } from './hazard.ts';

const TESTER = INSTRUMENTS[0]!;

/**
 * The dangers of a circuit as found, beside the circuit its entry intends. Each rule looks
 * at the solved circuit, not at how it came about, so that it holds for any mistake.
 * @param found the circuit as found, in the modes of the entry.
 * @param intended the circuit of the entry.
 */
export function hazardsOf(found: Simulation, intended: Simulation): Hazard[] {
  const earth = supplyEarth(found.network);
  if (earth === null) return [];
  return byGravity([
    ...liveEarths(found, earth),
    ...liveWhenIsolated(found, intended, earth),
    ...mainsOnExtraLow(found, earth),
    ...bypassed(found, intended),
    ...earthMissing(found, intended, earth),
    ...neutralLive(found, intended, earth),
    ...looseLive(found, earth),
    ...shortCircuits(found, intended),
    ...oversizeFuses(found, intended),
    ...fedThroughControl(found, intended, earth),
  ]);
}

function supplyEarth({ branches, nodes }: Network): string | null {
  const branch = branches.find((b) => b.kind === 'supply' && b.id.endsWith('earth'));
  return branch ? nodes[branch.from]!.id : null;
}

const spoken = (point: string) => point.replace('.', ' ');
const listed = (points: readonly string[]) => points.map(spoken).join(', ');
const terminals = ({ nodes }: Network, carries: readonly string[]): CircuitNode[] =>
  nodes.filter((n) => n.terminal && carries.includes(n.terminal.carries));
const volts = (settled: Settled, point: string, earth: string) =>
  read(settled.solution, point, earth, TESTER).ac;
/** Whether a point is neither dead nor merely floating, on the two-pole tester to earth. */
const isLive = (settled: Settled, point: string, earth: string) =>
  classOf(volts(settled, point, earth)) === 'live' ||
  classOf(volts(settled, point, earth)) === 'high';
const energisedModes = ({ modes }: Simulation) =>
  [...modes.values()].filter((s) => s.mode !== ISOLATED);

function liveEarths(found: Simulation, earth: string): Hazard[] {
  const points = terminals(found.network, ['earth'])
    .map((n) => n.id)
    .filter((id) =>
      [...found.modes.values()].some((s) => volts(s, id, earth) > EXTRA_LOW_LIMITS.ac),
    );
  if (points.length === 0) return [];
  return [
    {
      kind: 'earth live',
      at: points,
      title: `Earthed metal may be live: ${listed(points)}`,
      advice:
        'Touch nothing metal. Isolate at the consumer unit, lock off, prove dead before anything else.',
    },
  ];
}

function liveWhenIsolated(found: Simulation, intended: Simulation, earth: string): Hazard[] {
  const now = found.modes.get(ISOLATED);
  const due = intended.modes.get(ISOLATED);
  if (!now || !due) return [];
  const points = terminals(found.network, ['line', 'switched', 'neutral', 'call'])
    .map((n) => n.id)
    .filter((id) => isLive(now, id, earth) && !isLive(due, id, earth));
  if (points.length === 0) return [];
  return [
    {
      kind: 'live when isolated',
      at: points,
      title: `Live with the isolator off: ${listed(points)}`,
      advice:
        'This isolator does not isolate. Isolate at the consumer unit, lock off and prove dead between all conductors.',
    },
  ];
}

function mainsOnExtraLow(found: Simulation, earth: string): Hazard[] {
  const points = found.network.nodes
    .filter(
      (n) => n.terminal && (n.terminal.voltage === 'extra-low' || n.terminal.carries === 'call'),
    )
    .map((n) => n.id)
    .filter((id) =>
      [...found.modes.values()].some((s) => volts(s, id, earth) > EXTRA_LOW_LIMITS.ac),
    );
  if (points.length === 0) return [];
  return [
    {
      kind: 'mains on extra-low',
      at: points,
      title: `Mains on extra-low-voltage terminals: ${listed(points)}`,
      advice:
        'The equipment behind them is likely destroyed and what looks safe to touch is not. Isolate before going on.',
    },
  ];
}

/** Contacts of safety devices. */
function safetyContacts({ branches, items }: Network): ElementBranch[] {
  return branches.flatMap((b) => {
    const branch = b.kind === 'faulty' ? b.was : b;
    if (branch.kind !== 'element' || branch.element.kind !== 'contact') return [];
    const { family } = items.get(branch.item)!.device;
    return family === 'safety' || /overflow/.test(branch.name) ? [branch] : [];
  });
}

function bypassed(found: Simulation, intended: Simulation): Hazard[] {
  return safetyContacts(intended.network).flatMap((contact) => {
    const ends = [contact.from, contact.to].map((i) => intended.network.nodes[i]!.id) as [
      string,
      string,
    ];
    const opens = [...intended.modes.values()].find((s) => !areJoined(s, ...ends));
    const now = opens && found.modes.get(opens.mode);
    if (!now || !areJoined(now, ...ends)) return [];
    const name = `${contact.item} ${contact.element.name ?? contact.name}`;
    return [
      {
        kind: 'safety bypassed' as const,
        at: ends,
        title: `Safety device bypassed: ${name}`,
        advice: 'It no longer stops what it must stop. Leave the equipment off until it does.',
      },
    ];
  });
}

/** Whether two points are joined by conductors, closed contacts and links, not by way of the supply. */
function areJoined({ solution }: Settled, from: string, to: string): boolean {
  const { network, parts } = solution;
  const ways = waysFrom(
    network,
    nodeOf(network, from).index,
    (b, i) => b.kind !== 'supply' && parts[i]!.ohms < JOIN_OHMS,
  );
  return ways.has(nodeOf(network, to).index);
}

function earthMissing(found: Simulation, intended: Simulation, earth: string): Hazard[] {
  return [...found.network.items.values()].flatMap(({ reference, device, title }) => {
    if (device.protection !== 'class I') return [];
    const own = terminals(found.network, ['earth']).filter((n) => n.item === reference);
    const joined = ({ modes }: Simulation, id: string) => {
      const settled = modes.get(ISOLATED) ?? [...modes.values()][0]!;
      return resistanceBetween(settled.solution, id, earth) < JOIN_OHMS;
    };
    const lost = own.filter((n) => joined(intended, n.id) && !joined(found, n.id)).map((n) => n.id);
    if (lost.length === 0) return [];
    return [
      {
        kind: 'earth missing' as const,
        at: lost,
        title: `No protective earth: ${reference} ${title.toLowerCase()}`,
        advice: 'A fault inside would make its metal live. Leave it off until the earth is proved.',
      },
    ];
  });
}

function neutralLive(found: Simulation, intended: Simulation, earth: string): Hazard[] {
  const points = terminals(found.network, ['neutral'])
    .map((n) => n.id)
    .filter((id) =>
      energisedModes(found).some((s) => {
        const due = intended.modes.get(s.mode);
        return isLive(s, id, earth) && due && !isLive(due, id, earth);
      }),
    );
  if (points.length === 0) return [];
  return [
    {
      kind: 'neutral live',
      at: points,
      title: `Neutral terminals live: ${listed(points)}`,
      advice:
        'Polarity is reversed or a neutral is lost: parts stay live when they seem off. Isolate and prove dead to earth as well as to neutral.',
    },
  ];
}

function looseLive(found: Simulation, earth: string): Hazard[] {
  const points = found.network.nodes
    .filter((n) => isLooseEnd(n.id) && found.network.nodeIndex.has(n.id))
    .map((n) => n.id)
    .filter((id) => energisedModes(found).some((s) => isLive(s, id, earth)));
  if (points.length === 0) return [];
  return [
    {
      kind: 'loose live',
      at: points,
      title: `Loose core live: ${points.map((p) => p.replace(/@.*/, '')).join(', ')}`,
      advice: 'Isolate before you go near it; then terminate it or make it safe.',
    },
  ];
}

function shortCircuits(found: Simulation, intended: Simulation): Hazard[] {
  const blown = ({ modes }: Simulation) =>
    new Set([...modes.values()].flatMap((s) => [...s.state.blown]));
  const due = blown(intended);
  const now = [...blown(found)].filter((id) => !due.has(id));
  if (now.length === 0) return [];
  return [
    {
      kind: 'short circuit',
      at: now,
      title: `Short circuit: ${now.map((id) => id.replace('/', ' ')).join(', ')} opens on the current`,
      advice: 'Never put a larger fuse in. Find the short with dead tests first.',
    },
  ];
}

function oversizeFuses(found: Simulation, intended: Simulation): Hazard[] {
  return found.network.branches.flatMap((b, i) => {
    const due = intended.network.branches[i];
    if (b.kind !== 'element' || due?.kind !== 'element' || b.id !== due.id) return [];
    if (!('rating' in b.element) || !('rating' in due.element)) return [];
    if (b.element.rating <= due.element.rating) return [];
    return [
      {
        kind: 'oversize fuse' as const,
        at: [b.id],
        title: `${b.item} ${b.element.name ?? b.name}: ${b.element.rating} A where ${due.element.rating} A belongs`,
        advice: 'Thin cable and small contacts are without their protection. Fit the right rating.',
      },
    ];
  });
}

/** Permanent lives of boilers and receivers that go dead in a mode in which they ought to stay. */
function fedThroughControl(found: Simulation, intended: Simulation, earth: string): Hazard[] {
  const points = terminals(found.network, ['line'])
    .filter((n) => ['boiler', 'receiver'].includes(found.network.items.get(n.item!)!.device.family))
    .map((n) => n.id)
    .filter((id) => {
      const modes = energisedModes(found);
      const now = modes.map((s) => isLive(s, id, earth));
      const due = modes.map((s) => isLive(intended.modes.get(s.mode)!, id, earth));
      return now.includes(true) && now.some((live, i) => !live && due[i]);
    });
  if (points.length === 0) return [];
  return [
    {
      kind: 'fed through a control',
      at: points,
      title: `Permanent live goes with a control: ${listed(points)}`,
      advice:
        'The equipment loses its supply, and its frost and overrun functions, whenever the control opens.',
    },
  ];
}
