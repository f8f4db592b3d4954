import type { Network } from '../../circuit/index.ts';
import { type ColourCode, INSULATION_LIMITS, NOMINAL_VOLTS } from '../../published/index.ts';
import { conductorOf } from '../../site/index.ts';
import { type Ohms, ohms } from '../../units/index.ts';
import type { DeadAnswer } from './kinds.ts';

/** Largest resistance that still counts as joined, ohms (common practice, no source). */
export const JOINED_OHMS = ohms(2);
/** Least resistance that counts as open, ohms: the insulation limit. */
export const OPEN_OHMS = ohms(INSULATION_LIMITS.mains.megohms * 1e6);

/**
 * Up to how many ohms two points count as joined. Between the live of a motor and a neutral
 * whatever draws more than the spur's fuse carries is a short, as a winding half gone; elsewhere,
 * and behind more than one fuse, only next to nothing is.
 *
 * @param from a terminal, or a loose core end as `W3.BN@1`
 */
export function joinedOhms(network: Network, from: string, to: string): Ohms {
  const [one, other] = [from, to].map((point) => terminalOf(network, point));
  const isAcross =
    (isNeutral(network, other!) && feedsMotor(network, one!)) ||
    (isNeutral(network, one!) && feedsMotor(network, other!));
  return isAcross ? shortOhms(network) : JOINED_OHMS;
}

const isNeutral = ({ nodes, nodeIndex }: Network, point: string): boolean =>
  nodes[nodeIndex.get(point) ?? -1]?.terminal?.carries === 'neutral';

const live = new WeakMap<Network['system'], ReadonlySet<string>>();

/** Whether a motor hangs on a terminal, by cores and wire links alone. */
export function feedsMotor(network: Network, point: string): boolean {
  const known = live.get(network.system) ?? motorLives(network);
  live.set(network.system, known);
  return known.has(point);
}

function motorLives(network: Network): Set<string> {
  const { branches, nodes } = network;
  const ends = branches.flatMap((b) =>
    b.kind === 'element' && b.element.kind === 'motor' ? [b.from, b.to] : [],
  );
  return new Set(
    ends.flatMap((end) => {
      const own = [...conductorOf(network, end)].map((node) => nodes[node]!);
      return own.some(({ terminal }) => terminal?.carries === 'neutral')
        ? []
        : own.map((n) => n.id);
    }),
  );
}

/** Ohms across the supply that draw what the fuse of its one spur is rated for. */
export function shortOhms({ items }: Network): Ohms {
  const ratings = [...items.values()].flatMap(({ device }) =>
    device.family === 'isolation'
      ? Object.values(device.elements).flatMap((one) => (one.kind === 'fuse' ? one.rating : []))
      : [],
  );
  return ratings.length === 1 ? ohms(NOMINAL_VOLTS / ratings[0]!) : JOINED_OHMS;
}

/** The terminal a point is at; of a loose core end the one that it came out of. */
function terminalOf({ system }: Network, point: string): string {
  const [, cable = '', colour = '', end] = /^(.+)\.([A-Z]+)@([12])$/.exec(point) ?? [];
  return system.cables[cable]?.cores[colour as ColourCode]?.ends[Number(end) - 1] ?? point;
}

/**
 * Answer of a resistance.
 * @param joined up to what it counts as joined, see {@link joinedOhms}
 */
export function deadAnswer(figure: number, joined: number = JOINED_OHMS): DeadAnswer {
  if (figure <= joined) return 'joined';
  return figure < OPEN_OHMS ? 'resistance' : 'open';
}

/** Least insulation resistance with equipment connected, ohms. */
export const INSULATION_OHMS = INSULATION_LIMITS.equipmentConnected.megohms * 1e6;

/** Answer of an insulation test: it holds its limit or does not; a short is one that does not. */
export const insulationAnswer = (figure: number): 'resistance' | 'open' =>
  figure < INSULATION_OHMS ? 'resistance' : 'open';
