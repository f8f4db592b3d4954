import { type Network, nodeOf } from '../../circuit/index.ts';

/** Whether two terminals are the sides of an extra-low-voltage pair, read in volts DC. */
export function isExtraLowPair(network: Network, from: string, to: string): boolean {
  return [from, to].every((point) => {
    const { terminal } = nodeOf(network, point);
    return terminal?.carries === 'call' || terminal?.voltage === 'extra-low';
  });
}
