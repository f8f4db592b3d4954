import { ISOLATED } from '../../../../schemas/index.ts';
import {
  changeNetwork,
  type ElementBranch,
  type Simulation,
  simulate,
} from '../../../circuit/index.ts';
import { capital } from '../../../words/index.ts';
import { livePathIn } from '../../live-path.ts';
import { itemText, listed, partText, spoken } from '../names.ts';
import { areJoined, type Circuits, isLive, steadyModes, supplyEnd, terminals } from './circuits.ts';
import type { Hazard } from './hazard.ts';

/** Families of what makes heat, or lets it in. */
const HEAT: readonly string[] = ['boiler', 'heater'];

/** Dangers of function: what should stop no longer stops, or what must stay on is switched off. */
export const functionHazards = (circuits: Circuits): Hazard[] => [
  ...bypassed(circuits),
  ...neutralSwitched(circuits),
  ...doesNotStop(circuits),
  ...fedThroughControl(circuits),
];

/** Contacts of safety devices. */
function safetyContacts({ network: { branches, items } }: Simulation): ElementBranch[] {
  return branches.flatMap((b) => {
    if (b.kind !== 'element' || b.element.kind !== 'contact') return [];
    const { family } = items.get(b.item)!.device;
    return family === 'safety' || /overflow|cut-out/.test(b.name) ? [b] : [];
  });
}

/** By the intended circuit: what each of its safety contacts stops, in the mode in which it opens. */
const known = new WeakMap<Simulation, readonly Guard[]>();

interface Guard {
  readonly contact: ElementBranch;
  readonly ends: readonly [string, string];
  readonly mode: string;
  /** Loads, by branch id, whose own live it takes away in that mode. */
  readonly stops: readonly string[];
}

function guardsOf(intended: Simulation): readonly Guard[] {
  const made = known.get(intended);
  if (made) return made;
  const { network } = intended;
  const guards = safetyContacts(intended).flatMap((contact): Guard[] => {
    const ends = [contact.from, contact.to].map((i) => network.nodes[i]!.id) as [string, string];
    const open = [...intended.modes.values()].find(
      (s) => s.mode !== ISOLATED && !areJoined(s, ...ends),
    );
    if (!open) return [];
    const welded = simulate(changeNetwork(network, [{ kind: 'closed', branch: contact.id }]));
    const { energised } = welded.modes.get(open.mode)!.state;
    const stops = [...energised].filter((id) => {
      if (open.state.energised.has(id)) return false;
      const path = livePathIn(welded, open.mode, id);
      return path?.hops.some(({ via }) => via.some((b) => b.id === contact.id)) === true;
    });
    return [{ contact, ends, mode: open.mode, stops }];
  });
  known.set(intended, guards);
  return guards;
}

function bypassed({ found, intended }: Circuits): Hazard[] {
  return guardsOf(intended).flatMap(({ contact, ends, mode, stops }) => {
    const now = found.modes.get(mode);
    const runs = stops.filter((id) => now?.state.energised.has(id));
    if (!now || (runs.length === 0 && !areJoined(now, ...ends))) return [];
    const name = partText(intended.network, contact.id);
    return [
      {
        kind: 'safety bypassed' as const,
        at: [...ends, ...runs],
        title: `Safety device linked out: ${name}`,
        advice:
          'It no longer stops what it must stop. Leave the equipment isolated until it is proved to act.',
      },
    ];
  });
}

/** Neutrals joined to the supply's in some modes and not in others: a control stands in them. */
function neutralSwitched(circuits: Circuits): Hazard[] {
  const { found, intended } = circuits;
  const neutral = supplyEnd(intended.network, 'neutral');
  if (neutral === null) return [];
  const modes = steadyModes(circuits);
  const points = terminals(found.network, ['neutral'])
    .map((n) => n.id)
    .filter((id) => modes.every(([, due]) => areJoined(due, id, neutral)))
    .filter((id) => {
      const joined = modes.map(([now]) => areJoined(now, id, neutral));
      return joined.includes(true) && joined.includes(false);
    });
  if (points.length === 0) return [];
  return [
    {
      kind: 'neutral switched',
      at: points,
      title: `A control stands in the neutral: ${listed(points.map(spoken))}`,
      advice:
        'What it feeds stays live when it seems off. Isolate, lock off and prove dead to earth as well as to neutral.',
    },
  ];
}

/** Loads that make heat in a mode in which the entry has them off. */
function doesNotStop(circuits: Circuits): Hazard[] {
  const { intended } = circuits;
  const titles = (modes: readonly string[]) =>
    listed(modes.map((mode) => intended.network.system.modes[mode]!.title));
  const modes = steadyModes(circuits);
  const loads = intended.network.branches.flatMap((b) => {
    if (b.kind !== 'element' || b.element.kind !== 'load') return [];
    if (!HEAT.includes(intended.network.items.get(b.item)!.device.family)) return [];
    const works = modes
      .filter(([now, due]) => now.state.energised.has(b.id) && !due.state.energised.has(b.id))
      .map(([now]) => now.mode);
    return works.length > 0 ? [{ item: b.item, id: b.id, works }] : [];
  });
  return [...Map.groupBy(loads, ({ item }) => item)].map(([item, own]) => ({
    kind: 'does not stop' as const,
    at: own.map(({ id }) => id),
    title: `${capital(itemText(intended.network, item))} works where it must not: ${titles([...new Set(own.flatMap(({ works }) => works))])}`,
    advice: 'The control or interlock cannot switch it off. Leave it isolated until it can.',
  }));
}

/** Permanent lives of boilers and receivers that go dead in a mode in which they ought to stay. */
function fedThroughControl(circuits: Circuits): Hazard[] {
  const { found, earth } = circuits;
  const points = terminals(found.network, ['line'])
    .filter(({ item }) =>
      ['boiler', 'receiver'].includes(found.network.items.get(item!)!.device.family),
    )
    .map((n) => n.id)
    .filter((id) => {
      const modes = steadyModes(circuits);
      const now = modes.map(([s]) => isLive(s, id, earth));
      const due = modes.map(([, s]) => isLive(s, id, earth));
      return now.some((live, i) => live && due[i]) && now.some((live, i) => !live && due[i]);
    });
  if (points.length === 0) return [];
  return [
    {
      kind: 'fed through a control',
      at: points,
      title: `Permanent live goes with a control: ${listed(points.map(spoken))}`,
      advice:
        'The equipment loses its supply, and its frost and overrun functions, whenever the control opens. It is not isolated by it.',
    },
  ];
}
