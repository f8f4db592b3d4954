import {
  CLASS_LIMITS,
  INSTRUMENTS,
  magnitude,
  type Reading,
  read,
  type Settled,
  voltage,
} from '../circuit/index.ts';
import type { Subject } from './subject.ts';

const TESTER = INSTRUMENTS[0]!;

/** What the two-pole tester shows from a node to the supply's earth. */
function toEarth({ network, supply }: Subject, settled: Settled, node: number): Reading {
  const id = (index: number) => network.nodes[index]!.id;
  return read(settled.solution, id(node), id(supply.earth), TESTER);
}

/** Alternating volts to earth as the tester shows them; 0 where there is not even that unloaded. */
export function voltsToEarth(subject: Subject, settled: Settled, node: number, over: number) {
  const open = magnitude(voltage(settled.solution.ac, node, subject.supply.earth));
  // A burden of resistance alone never raises what stands there unloaded.
  return open <= over ? open : toEarth(subject, settled, node).ac;
}

/** Whether a node is live on the two-pole tester to earth, or higher. */
export function isLive(subject: Subject, settled: Settled, node: number): boolean {
  return voltsToEarth(subject, settled, node, CLASS_LIMITS.live) >= CLASS_LIMITS.live;
}

/** Whether a node is dead on the two-pole tester to earth. */
export function isDead(subject: Subject, settled: Settled, node: number): boolean {
  return voltsToEarth(subject, settled, node, CLASS_LIMITS.dead) <= CLASS_LIMITS.dead;
}
