import { type Complex, magnitude, type Network } from '../../src/circuit/index.ts';
import type { NodeVoltages } from './ngspice.ts';

/** What the engine promises against an independent simulator. */
export const RELATIVE = 1e-6;
/**
 * Volts below which two answers count as one. Both put out exactly nothing where no source
 * acts; elsewhere the smallest potential of a system is millivolts. A picovolt is what 230 V
 * leaves of a double's last digits after a few additions, so no smaller floor would be honest.
 */
export const FLOOR = 1e-12;

/** Voltage of a node of a network as ngspice gave it. */
export function spiceAt(voltages: NodeVoltages, network: Network, node: number): Complex {
  const found = voltages.get(`n${node}`);
  if (!found) throw new Error(`ngspice gave no voltage for ${network.nodes[node]?.id}`);
  return found;
}

/** Largest difference by node, as a share of what is allowed, with the node's name. */
export function worst(
  network: Network,
  ours: (node: number) => Complex,
  theirs: (node: number) => Complex,
  relative = RELATIVE,
): { share: number; node: string } {
  return network.nodes
    .map(({ index, id }) => {
      const a = ours(index);
      const b = theirs(index);
      const allowed = Math.max(relative * magnitude(b), FLOOR);
      return { share: Math.hypot(a.re - b.re, a.im - b.im) / allowed, node: id };
    })
    .reduce((a, b) => (b.share > a.share ? b : a));
}
