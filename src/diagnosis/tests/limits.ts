import type { Network } from '../../circuit/index.ts';
import { INSULATION_LIMITS, NOMINAL_VOLTS } from '../../published/index.ts';
import { type Ohms, ohms } from '../../units/index.ts';
import { coreEnds } from '../../wiring/index.ts';
import type { DeadAnswer } from './kinds.ts';

/** Largest resistance that still counts as joined, ohms (common practice, no source). */
export const JOINED_OHMS = ohms(2);
/** Least resistance that counts as open, ohms: the insulation limit. */
export const OPEN_OHMS = ohms(INSULATION_LIMITS.mains.megohms * 1e6);

/** What a conductor carries that a load lies behind. */
const LOADED: readonly string[] = ['line', 'switched'];

/**
 * Up to how many ohms two points count as joined. Between a live and a neutral anything that draws
 * more than the spur's fuse carries is a short, as a winding half gone; elsewhere, and behind more
 * than one fuse, only next to nothing is.
 *
 * @param from a terminal, or a loose core end as `W3.BN@1`
 */
export function joinedOhms(network: Network, from: string, to: string): Ohms {
  return isAcrossLoads(carriedBy(network, from), carriedBy(network, to))
    ? shortOhms(network)
    : JOINED_OHMS;
}

/** Whether loads lie between what two conductors carry: a live and a neutral. */
export const isAcrossLoads = (one: string, other: string): boolean =>
  (LOADED.includes(one) && other === 'neutral') || (one === 'neutral' && LOADED.includes(other));

/** Ohms across the supply that draw what the fuse of its one spur is rated for. */
export function shortOhms({ items }: Network): Ohms {
  const ratings = [...items.values()].flatMap(({ device }) =>
    device.family === 'isolation'
      ? Object.values(device.elements).flatMap((one) => (one.kind === 'fuse' ? one.rating : []))
      : [],
  );
  return ratings.length === 1 ? ohms(NOMINAL_VOLTS / ratings[0]!) : JOINED_OHMS;
}

function carriedBy({ nodes, nodeIndex, system }: Network, point: string): string {
  const at = point.includes('@')
    ? coreEnds(system).find(({ cable, colour, end }) => `${cable}.${colour}@${end + 1}` === point)
        ?.point
    : point;
  const terminal = nodes[nodeIndex.get(at ?? '') ?? -1]?.terminal;
  return terminal && terminal.voltage !== 'extra-low' ? terminal.carries : '';
}

/**
 * Answer of a resistance.
 * @param joined up to what it counts as joined, see {@link joinedOhms}
 */
export function deadAnswer(figure: number, joined: number = JOINED_OHMS): DeadAnswer {
  if (figure <= joined) return 'joined';
  return figure < OPEN_OHMS ? 'resistance' : 'open';
}
