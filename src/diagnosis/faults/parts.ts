import type { Change, ElementBranch, Network } from '../../circuit/index.ts';
import { circuitEdit, madeBy } from './edit.ts';
import type { Fault } from './fault.ts';
import { WEIGHTS, type Weight } from './weights.ts';

/** Resistance of a winding or board that has gone short, ohms. */
const SHORT_OHMS = 0.5;

/** Everything that can go wrong inside the items of a circuit. */
export function partFaults(network: Network): Fault[] {
  return [
    ...network.branches.flatMap((b) => (b.kind === 'element' ? elementFaults(network, b) : [])),
    ...[...network.items.keys()].flatMap((item) => stuckFaults(network, item)),
  ];
}

function elementFaults(network: Network, branch: ElementBranch): Fault[] {
  const { element, item, id } = branch;
  const name = `${item} ${element.name ?? branch.name}`;
  const device = network.items.get(item)!.device;
  const replace = {
    repair: `Replace ${item}, or mend it as its maker’s instructions say.`,
    repairKey: `replace ${item}`,
  };
  const part = (
    what: string,
    title: string,
    weight: Weight,
    change: Change,
    rest: Partial<Fault> = {},
  ): Fault => ({
    id: `${id}:${what}`,
    origin: 'part',
    title,
    hazard: null,
    ...replace,
    ...weight,
    ...madeBy(network, circuitEdit([change])),
    ...rest,
  });
  const open: Change = { kind: 'open', branch: id };
  const fuse = (verb: string) => ({
    repair: `Find why it ${verb} before putting it back: prove the circuit clear of a short first.`,
    repairKey: `restore ${id}`,
  });
  switch (element.kind) {
    case 'link':
      return [part('open', `${name}: broken inside`, WEIGHTS.internalLink, open)];
    case 'contact': {
      const byHand = device.family === 'isolation' || device.family === 'supply';
      const safety = device.family === 'safety' || /overflow|cut-out/.test(branch.name);
      return [
        part(
          'open',
          `${name} does not close`,
          byHand ? WEIGHTS.handSwitch : WEIGHTS.contactOpen,
          open,
        ),
        part(
          'welded',
          safety ? `${name} bridged or welded closed` : `${name} stays closed`,
          safety ? WEIGHTS.bypassed : byHand ? WEIGHTS.handSwitch : WEIGHTS.contactWelded,
          { kind: 'welded', branch: id },
          { hazard: weldedHazard(byHand, safety) },
        ),
      ];
    }
    case 'fuse':
      return [part('blown', `${name} blown`, WEIGHTS.fuse, open, fuse('blew'))];
    case 'breaker':
      return [part('tripped', `${name} tripped`, WEIGHTS.breaker, open, fuse('tripped'))];
    case 'load':
    case 'motor': {
      const weight =
        element.kind === 'load'
          ? WEIGHTS.board
          : device.family === 'valve'
            ? WEIGHTS.valveMotor
            : WEIGHTS.pumpMotor;
      const [from, to] = [network.nodes[branch.from]!.id, network.nodes[branch.to]!.id];
      return [
        part('dead', `${name} dead`, weight, open),
        part('short', `${name} short-circuited`, WEIGHTS.windingShort, {
          kind: 'join',
          from,
          to,
          ohms: SHORT_OHMS,
          within: item,
        }),
      ];
    }
    case 'sensing':
      return [part('dead', `${name} does not respond`, WEIGHTS.sensing, open)];
    case 'resistor':
      return [part('open', `${name} open`, WEIGHTS.resistor, open)];
    case 'source':
      return [part('dead', `${name} gives no voltage`, WEIGHTS.source, open)];
  }
}

function weldedHazard(byHand: boolean, safety: boolean): string | null {
  if (byHand) return 'The switch no longer isolates: conductors stay live with it off.';
  return safety ? 'A safety device no longer acts.' : null;
}

function stuckFaults(network: Network, item: string): Fault[] {
  const { device } = network.items.get(item)!;
  const { mechanism } = device;
  if (!mechanism) return [];
  // A latching cut-out that stands tripped has done its job; that is its mode, not a fault.
  const positions = device.family === 'safety' ? [mechanism.rest] : mechanism.positions;
  return positions.map((position) => ({
    id: `${item}:stuck ${position}`,
    origin: 'part',
    title: `${item} ${device.title.toLowerCase()} stuck: ${position}`,
    repair: `Replace ${item}, or mend it as its maker’s instructions say.`,
    repairKey: `replace ${item}`,
    hazard: device.family === 'safety' ? 'A safety device no longer acts.' : null,
    ...WEIGHTS.stuck,
    ...madeBy(network, circuitEdit([{ kind: 'stuck', item, position }])),
  }));
}
