import { ISOLATED } from '../../../schemas/index.ts';
import { INSTRUMENTS, read, type Simulation } from '../../circuit/index.ts';
import { partsOf } from './parts.ts';

/**
 * Terminal of an item from which a part can be served: its own terminal of that part, else,
 * for a live, the first that is live in every mode and dead with the isolator off; for a
 * neutral, the first that carries one. Null where it has none.
 */
export function supplyPoint(simulation: Simulation, item: string, part: string): string | null {
  const device = simulation.network.items.get(item)?.device;
  if (!device) return null;
  const names = Object.keys(device.terminals);
  const stated = names.find((name) => partsOf(device, name).includes(part));
  if (stated) return `${item}.${stated}`;
  const carries = part === 'supply neutral' ? 'neutral' : 'line';
  const found = names.find((name) => {
    const terminal = device.terminals[name]!;
    if (carries === 'neutral') return terminal.carries === 'neutral';
    return terminal.carries !== 'neutral' && isPermanentLive(simulation, `${item}.${name}`);
  });
  return found ? `${item}.${found}` : null;
}

/** Point of the supply's protective conductor. */
export function supplyEarth({ network }: Simulation): string | null {
  const branch = network.branches.find((b) => b.kind === 'supply' && b.id.endsWith('earth'));
  return branch ? network.nodes[branch.from]!.id : null;
}

/** Whether a point is live in every mode and dead with the isolator off. */
export function isPermanentLive(simulation: Simulation, point: string): boolean {
  const earth = supplyEarth(simulation);
  if (earth === null) return false;
  return [...simulation.modes].every(([mode, { solution }]) => {
    const { class: found } = read(solution, point, earth, INSTRUMENTS[0]!);
    return mode === ISOLATED ? found === 'dead' : found === 'live';
  });
}
