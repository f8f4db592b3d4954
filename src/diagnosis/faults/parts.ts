import type { Change, ElementBranch, Network } from '../../circuit/index.ts';
import { itemWords, partWords } from '../../wiring/index.ts';
import { capital } from '../../words/index.ts';
import { boilerFaults } from './boiler.ts';
import { circuitEdit, madeBy } from './edit.ts';
import type { FaultKind } from './families.ts';
import type { Draft, Repair } from './fault.ts';
import * as repairs from './repairs.ts';

/** Resistance of a winding or board that has gone short, ohms (common practice, no source). */
const SHORT_OHMS = 0.5;

/** What a burnt contact or joint adds, ohms: 30 V and 9 W at a pump of 0.3 A (derived). */
export const BURNT_OHMS = 100;

/**
 * What lies beside a winding whose turns have shorted, as a share of its own impedance: it hums,
 * runs hot, draws two to three times its current and does no work (from memory).
 */
const WEAK_SHARE = 0.5;

/** Everything that can go wrong inside the items of a circuit. */
export function partFaults(network: Network): Draft[] {
  return [...network.items].flatMap(([item, { device }]) => {
    if (device.family === 'boiler') return boilerFaults(network, item);
    const own = network.branches.filter(
      (b): b is ElementBranch => b.kind === 'element' && b.item === item,
    );
    return [...own.flatMap((b) => elementFaults(network, b)), ...mechanismFaults(network, item)];
  });
}

type Role = 'valve' | 'pump' | 'condensate' | 'control' | 'stat' | 'safety' | 'supply' | 'other';

/** What an item is for its family of faults and its repair. */
function roleOf(network: Network, item: string): Role {
  const { device } = network.items.get(item)!;
  const electronic =
    Object.values(device.elements).some((e) => e.kind === 'load' && e.draws === 'board') ||
    Object.values(device.conditions).some(({ cause }) => cause === 'flat cells');
  switch (device.family) {
    case 'valve':
    case 'safety':
      return device.family;
    case 'pump':
      return Object.keys(device.elements).length > 1 ? 'condensate' : 'pump';
    case 'receiver':
      return 'control';
    case 'control':
    case 'sensor':
      return electronic ? 'control' : 'stat';
    case 'supply':
    case 'isolation':
      return 'supply';
    default:
      return 'other';
  }
}

function repairOf(network: Network, item: string, role: Role): Repair {
  switch (role) {
    case 'valve':
      return repairs.valveHead(network, item);
    case 'pump':
      return repairs.pump(network, item);
    case 'condensate':
      return repairs.condensatePump(network, item);
    case 'safety':
      return repairs.limit(network, item);
    case 'supply':
      return repairs.electrician('');
    default:
      return repairs.control(network, item);
  }
}

function elementFaults(network: Network, branch: ElementBranch): Draft[] {
  const { element, item, id } = branch;
  const role = roleOf(network, item);
  const name = `${capital(itemWords(network, item))}: ${partWords(network, branch)}`;
  const repair = repairOf(network, item, role);
  const part = (
    what: string,
    title: string,
    kind: FaultKind,
    changes: readonly Change[],
    rest: Partial<Draft> = {},
  ): Draft => ({
    id: `${id}:${what}`,
    origin: 'part',
    title,
    hazard: null,
    ...repair,
    class: kind,
    ...madeBy(network, circuitEdit(changes)),
    ...rest,
  });
  const open: Change = { kind: 'open', branch: id };
  const [from, to] = [network.nodes[branch.from]!.id, network.nodes[branch.to]!.id];
  const beside = (ohms: number): Change => ({ kind: 'join', from, to, ohms, inside: item });
  switch (element.kind) {
    case 'link':
      return [part('open', `${name} open circuit inside`, 'insideLink', [open])];
    case 'contact':
      return contactFaults(network, branch, role, name, part);
    case 'fuse': {
      const front = repairs.frontFuse(id, element.rating);
      return [part('blown', `${name} blown`, 'fuse', [open], front)];
    }
    case 'breaker':
      // Where its lever is a cause of its own, down is down, by hand or by itself.
      if (hasLever(network, item)) return [];
      return [
        part('tripped', `${name} tripped`, 'breaker', [open], {
          ...repairs.electrician(
            'It may be reset once, with the spur off: if it trips again, or trips only with the spur off, that is all that is done.',
          ),
          repairKey: `restore ${id}`,
        }),
      ];
    case 'load':
    case 'motor': {
      const impedance = element.ratedVolts ** 2 / element.watts;
      const board = element.kind === 'load' && element.draws === 'board';
      const dead = part('dead', `${name} ${board ? 'failed' : 'open circuit'}`, deadKind(role), [
        open,
      ]);
      const short = part('short', `${name} short`, shortKind(role), [beside(SHORT_OHMS)]);
      if (element.kind === 'load' && element.draws === 'heater')
        return [part('dead', `${name} open circuit`, 'heater', [open])];
      if (element.kind === 'load') return [dead, short];
      const weak: Change[] = [{ kind: 'idle', branch: id }, beside(impedance * WEAK_SHARE)];
      return [
        dead,
        short,
        part('seized', `${name} hums and does not turn`, seizedKind(role), [
          { kind: 'idle', branch: id },
        ]),
        ...(role === 'condensate'
          ? []
          : [
              part(
                'weak',
                `${name} hums, hot and weak: shorted turns`,
                role === 'valve' ? 'weakValveMotor' : 'weakPumpMotor',
                weak,
              ),
            ]),
      ];
    }
    case 'sensing':
      return [part('dead', `${name} does not respond`, 'sensing', [open])];
    case 'resistor':
      return [part('open', `${name} open circuit`, 'valveHead', [open], { portion: 0.2 })];
    case 'source':
      return [part('dead', `${name} gives no voltage`, 'sensing', [open])];
  }
}

const hasLever = (network: Network, item: string): boolean =>
  Object.values(network.items.get(item)!.device.conditions).some(
    ({ cause }) => cause === 'MCB down',
  );

const deadKind = (role: Role): FaultKind =>
  role === 'valve'
    ? 'valveMotor'
    : role === 'pump'
      ? 'pumpMotor'
      : role === 'condensate'
        ? 'condensateMotor'
        : 'board';

const shortKind = (role: Role): FaultKind =>
  role === 'valve'
    ? 'valveShort'
    : role === 'pump'
      ? 'pumpShort'
      : role === 'condensate'
        ? 'condensateShort'
        : 'boardShort';

const seizedKind = (role: Role): FaultKind =>
  role === 'valve' ? 'valveHead' : role === 'pump' ? 'pumpSeized' : 'condensateSeized';

type Part = (
  what: string,
  title: string,
  kind: FaultKind,
  changes: readonly Change[],
  rest?: Partial<Draft>,
) => Draft;

function contactFaults(
  network: Network,
  branch: ElementBranch,
  role: Role,
  name: string,
  part: Part,
): Draft[] {
  const { id } = branch;
  const open: Change[] = [{ kind: 'open', branch: id }];
  const welded: Change[] = [{ kind: 'welded', branch: id }];
  const burnt: Change[] = [{ kind: 'series', branch: id, ohms: BURNT_OHMS }];
  const lost = { hazard: 'A safety device no longer acts.' };
  const closesNot = `${name} does not close`;
  const staysClosed = `${name} stays closed`;
  switch (role) {
    case 'supply':
      return [
        part('open', closesNot, 'handSwitch', open),
        part('welded', staysClosed, 'weldedSwitch', welded, {
          hazard: 'The switch no longer isolates: conductors stay live with it off.',
        }),
      ];
    case 'safety':
      return [
        part('open', closesNot, 'protectionOpen', open),
        part('welded', `${name} linked out or welded closed`, 'protectionLost', welded, lost),
      ];
    case 'condensate': {
      const overflow = /overflow/.test(branch.name);
      return [
        part('open', closesNot, overflow ? 'overflowSwitch' : 'levelSwitch', open),
        overflow
          ? part('welded', `${name} linked out or welded closed`, 'overflowLost', welded, {
              ...lost,
              ...repairs.overflow(network, branch.item),
            })
          : part('welded', staysClosed, 'levelSwitch', welded, { portion: 0.3 }),
      ];
    }
    case 'valve':
      return [
        part('open', `${name} slipped or burnt, does not close`, 'valveSwitchOpen', open),
        part('welded', staysClosed, 'valveSwitchWelded', welded),
      ];
    default: {
      const stat = role === 'stat';
      return [
        part('open', closesNot, stat ? 'statOpen' : 'controlOpen', open),
        part('welded', staysClosed, stat ? 'statWelded' : 'controlWelded', welded),
        part(
          'burnt',
          `${name} burnt, drops part of the volts`,
          stat ? 'statBurnt' : 'controlBurnt',
          burnt,
        ),
      ];
    }
  }
}

function mechanismFaults(network: Network, item: string): Draft[] {
  const { device } = network.items.get(item)!;
  const { mechanism } = device;
  if (!mechanism) return [];
  const name = capital(itemWords(network, item));
  const stuck = (
    id: string,
    title: string,
    position: string,
    rest: Pick<Draft, 'class'> & Repair,
  ) => ({
    id: `${item}:${id}`,
    origin: 'part' as const,
    title,
    hazard: device.family === 'safety' ? 'A safety device no longer acts.' : null,
    ...rest,
    ...madeBy(network, circuitEdit([{ kind: 'stuck', item, position }])),
  });
  // A latching cut-out that stands tripped has done its job; that is its mode, not a fault.
  if (device.family === 'safety') {
    const { rest } = mechanism;
    const repair = { class: 'protectionLost' as const, ...repairs.limit(network, item) };
    return [stuck(`stuck ${rest}`, `${name} stuck, does not trip`, rest, repair)];
  }
  const body = { class: 'seized' as const, ...repairs.valveBody(network, item) };
  const driven = mechanism.positions.at(-1)!;
  return [
    ...mechanism.positions.map((position) =>
      stuck(`stuck ${position}`, `${name} seized ${standing(position)}`, position, body),
    ),
    stuck(
      'spring broken',
      `${name}: spring of the head broken, stays ${standing(driven)}`,
      driven,
      {
        class: 'spring',
        ...repairs.valveHead(network, item),
      },
    ),
  ];
}

/** Where a valve stands, after a verb: `shut`, `in mid-position`, `at heating`. */
const standing = (position: string): string =>
  ({ closed: 'shut', open: 'open', mid: 'in mid-position' })[position] ?? `at ${position}`;
