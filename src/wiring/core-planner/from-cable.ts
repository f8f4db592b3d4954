import type { Network } from '../../circuit/index.ts';
import type { CableLoad } from '../cables/index.ts';
import type { FunctionId } from './functions.ts';
import { CORE_FUNCTIONS } from './functions.ts';
import type { CoreRequest } from './request.ts';
import { CABLE_SETS } from './sets.ts';

/**
 * A cable of a system as a request: what it carries and what it lacks. Null where it carries
 * more of something than a request may ask for.
 */
export function requestOf(network: Network, cable: CableLoad): CoreRequest | null {
  const lives = cable.cores.filter(({ carries }) => carries === 'line');
  const lacking = cable.lacking.map(
    (point) => network.nodes[network.nodeIndex.get(point)!]!.terminal!,
  );
  const carried = (use: string) => cable.cores.filter(({ carries }) => carries === use).length;
  const lacks = (...what: readonly string[]) =>
    lacking.filter(({ carries }) => what.includes(carries)).length;
  const lines = lives.length + lacks('line', 'switched');
  const live = lives.some(({ permanent }) => permanent) ? 1 : 0;
  const counts: Partial<Record<FunctionId, number>> = {
    earth: carried('earth') + lacks('earth'),
    live,
    neutral: carried('neutral') + lacks('neutral'),
    switched: lines - live,
    call: Math.ceil((carried('extra-low') + lacks('call')) / 2),
  };
  const most = Object.entries(counts).every(
    ([id, count]) => count <= CORE_FUNCTIONS[id as FunctionId].most,
  );
  if (!most) return null;
  const colours = [...cable.cores.map(({ colour }) => colour), ...cable.spare];
  const set = CABLE_SETS.find(
    (each) =>
      each.colours.length === colours.length && each.colours.every((c) => colours.includes(c)),
  );
  return { counts, blueAsLive: true, there: set && cable.lacking.length > 0 ? set.id : null };
}
