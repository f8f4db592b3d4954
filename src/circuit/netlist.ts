import { SUPPLY_HERTZ } from '../published/index.ts';
import { partsOf } from './impedance.ts';
import type { Network } from './network.ts';
import type { State } from './state.ts';
import { REFERENCE } from './topology.ts';

/**
 * Writes a network in one state as a SPICE netlist, so that an independent simulator can
 * solve it. Node n of the network is node `n{index}`; the supply's star point is node 0.
 * Alternating sources stand in an `.ac` analysis at the supply frequency, direct ones in
 * an `.op` analysis.
 */
export function netlist(network: Network, state: State, analysis: 'ac' | 'op'): string {
  const node = (index: number) => (index === REFERENCE ? '0' : `n${index}`);
  const lines = [`* ${network.id}`];
  network.branches.forEach((branch, i) => {
    const parts = partsOf(branch, state, SUPPLY_HERTZ);
    const from = node(branch.from);
    const to = node(branch.to);
    // A series chain from `from` to `to`, of which only what is there takes a place.
    let at = from;
    const chain: string[] = [];
    const place = (letter: string, value: string) => {
      chain.push(`${letter}${i} ${at} `, value);
      at = `m${i}${letter}`;
    };
    if (parts.volts !== 0) {
      place('V', parts.current === 'ac' ? `DC 0 AC ${parts.volts}` : `DC ${parts.volts} AC 0`);
    }
    if (Number.isFinite(parts.ohms)) place('R', number(parts.ohms));
    if (parts.henries > 0) place('L', number(parts.henries));
    for (let c = 0; c < chain.length; c += 2) {
      const last = c + 2 >= chain.length;
      const letter = chain[c]![0]!;
      lines.push(`${chain[c]}${last ? to : `m${i}${letter}`} ${chain[c + 1]}`);
    }
    if (parts.farads > 0) lines.push(`C${i} ${from} ${to} ${number(parts.farads)}`);
  });
  lines.push(analysis === 'ac' ? `.ac lin 1 ${SUPPLY_HERTZ} ${SUPPLY_HERTZ}` : '.op', '.end');
  return lines.join('\n');
}

const number = (value: number): string => value.toExponential(17);
