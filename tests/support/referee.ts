import { type Parts, REFERENCE, type Solution } from '../../src/circuit/index.ts';
import {
  addWide,
  divideWide,
  multiplyWide,
  subtractWide,
  WIDE_ONE,
  WIDE_ZERO,
  type Wide,
  wide,
} from './wide.ts';

/** A branch of a bare network with its admittance in 512-bit arithmetic. */
export interface WideBranch {
  readonly from: number;
  readonly to: number;
  readonly y: Wide;
}

/**
 * Node voltages in 512-bit arithmetic by sparse Gaussian elimination, the shortest row
 * first. It shares no code with the engine.
 * @param injected current into each node from the reference.
 */
export function wideSolve(
  nodes: number,
  branches: readonly WideBranch[],
  injected: readonly Wide[],
): Wide[] {
  const rows = Array.from({ length: nodes }, (_, i) => new Map<number, Wide>([[i, WIDE_ZERO]]));
  const put = (row: number, column: number, y: Wide): void => {
    if (row === REFERENCE || column === REFERENCE) return;
    rows[row]!.set(column, addWide(rows[row]!.get(column) ?? WIDE_ZERO, y));
  };
  for (const { from, to, y } of branches) {
    const minus = subtractWide(WIDE_ZERO, y);
    put(from, from, y);
    put(to, to, y);
    put(from, to, minus);
    put(to, from, minus);
  }
  const known = [...injected];
  const order: number[] = [];
  const left = new Set(rows.keys());
  while (left.size > 0) {
    const k = [...left].reduce((a, b) => (rows[b]!.size < rows[a]!.size ? b : a));
    left.delete(k);
    order.push(k);
    const pivot = rows[k]!;
    for (const i of pivot.keys()) {
      if (!left.has(i)) continue;
      const row = rows[i]!;
      const factor = divideWide(row.get(k)!, pivot.get(k)!);
      for (const [j, y] of pivot) {
        row.set(j, subtractWide(row.get(j) ?? WIDE_ZERO, multiplyWide(factor, y)));
      }
      row.delete(k);
      known[i] = subtractWide(known[i]!, multiplyWide(factor, known[k]!));
    }
  }
  const solved: Wide[] = [];
  for (const k of order.reverse()) {
    let sum = known[k]!;
    for (const [j, y] of rows[k]!) {
      if (j !== k) sum = subtractWide(sum, multiplyWide(y, solved[j]!));
    }
    solved[k] = divideWide(sum, rows[k]!.get(k)!);
  }
  return solved;
}

const ONE: Wide = { re: WIDE_ONE, im: 0n };

/** Admittance of a branch's parts at a frequency, worked out in 512 bits. */
export function wideAdmittance(parts: Parts, hertz: number): Wide {
  const omega = wide(2 * Math.PI * hertz);
  const reactance = multiplyWide(omega, wide(parts.henries));
  const beside = { re: 0n, im: multiplyWide(omega, wide(parts.farads)).re };
  if (!Number.isFinite(parts.ohms)) return beside;
  const series = { re: wide(parts.ohms).re, im: reactance.re };
  return addWide(divideWide(ONE, series), beside);
}

/** Every node's potential in a solved network's state, worked out again in 512 bits. */
export function refereePotentials(solution: Solution, kind: 'ac' | 'dc'): Wide[] {
  const { network, parts } = solution;
  const { hertz } = solution[kind];
  const injected: Wide[] = network.nodes.map(() => WIDE_ZERO);
  const branches = network.branches.map(({ from, to }, i) => {
    const part = parts[i]!;
    const y = wideAdmittance(part, hertz);
    if (part.current === kind && part.volts !== 0) {
      const flow = multiplyWide(y, wide(part.volts));
      if (from !== REFERENCE) injected[from] = addWide(injected[from]!, flow);
      if (to !== REFERENCE) injected[to] = subtractWide(injected[to]!, flow);
    }
    return { from, to, y };
  });
  return wideSolve(network.nodes.length, branches, injected);
}
