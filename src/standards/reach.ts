import { type Branch, type Network, REFERENCE, type Settled } from '../circuit/index.ts';
import { JOIN_OHMS } from '../wiring/index.ts';

/** Indexes of nodes. */
export type Nodes = ReadonlySet<number>;
/** Whether a branch, with its index, may be passed. */
export type Passes = (branch: Branch, index: number) => boolean;

/** Every node that can be reached from one; the supply's star point is never passed through. */
export function reached({ branches }: Network, start: number, passes: Passes): Set<number> {
  const open = branches.filter((branch, i) => branch.kind !== 'stray' && passes(branch, i));
  const nodes = new Set([start]);
  const queue = [start];
  for (const node of queue) {
    for (const { from, to } of open) {
      if (from !== node && to !== node) continue;
      const next = from === node ? to : from;
      if (next === REFERENCE || nodes.has(next)) continue;
      nodes.add(next);
      queue.push(next);
    }
  }
  return nodes;
}

/** What conducts in a settled mode without using power: cores, links, closed contacts, fuses. */
export const conductsIn =
  ({ solution }: Settled): Passes =>
  (branch, i) =>
    branch.kind !== 'supply' && solution.parts[i]!.ohms < JOIN_OHMS;

/** What conducts so in one of several modes. */
export function conductsInSome(modes: readonly Settled[]): Passes {
  const each = modes.map(conductsIn);
  return (branch, i) => each.some((passes) => passes(branch, i));
}
