import { type Complex, complex, REFERENCE } from '../../src/circuit/index.ts';

/** A branch of a bare network: two nodes (REFERENCE, −1, for the reference) and admittance. */
export interface BareBranch {
  readonly from: number;
  readonly to: number;
  /** Admittance, siemens. */
  readonly y: Complex;
}

/**
 * Node voltages by the textbook: the admittance matrix set up whole, Gaussian elimination
 * with partial pivoting in complex doubles. It shares no code with the engine.
 * @param injected current into each node from the reference, amperes.
 */
export function denseSolve(
  nodes: number,
  branches: readonly BareBranch[],
  injected: readonly Complex[],
): Complex[] {
  const rows = admittanceRows(nodes, branches, nodes + 1);
  rows.forEach((row, i) => {
    row[2 * nodes] = injected[i]!.re;
    row[2 * nodes + 1] = injected[i]!.im;
  });
  for (let k = 0; k < nodes; k++) {
    bringPivot(rows, k);
    for (let i = k + 1; i < nodes; i++) takeAway(rows[i]!, rows[k]!, k);
  }
  const solved: Complex[] = Array.from({ length: nodes }, () => complex(0));
  for (let k = nodes - 1; k >= 0; k--) {
    const row = rows[k]!;
    let re = row[2 * nodes]!;
    let im = row[2 * nodes + 1]!;
    for (let j = k + 1; j < nodes; j++) {
      const v = solved[j]!;
      re -= row[2 * j]! * v.re - row[2 * j + 1]! * v.im;
      im -= row[2 * j]! * v.im + row[2 * j + 1]! * v.re;
    }
    solved[k] = ratio(re, im, row[2 * k]!, row[2 * k + 1]!);
  }
  return solved;
}

/**
 * Impedances between the nodes and the reference, ohms, by the same book: the matrix inverted,
 * as rows of re, im in turn. Row a, column b: the volts at a for an ampere into b.
 */
export function denseInverse(nodes: number, branches: readonly BareBranch[]): Float64Array[] {
  const rows = admittanceRows(nodes, branches, 2 * nodes);
  for (let k = 0; k < nodes; k++) rows[k]![2 * (nodes + k)] = 1;
  for (let k = 0; k < nodes; k++) {
    bringPivot(rows, k);
    for (let i = 0; i < nodes; i++) if (i !== k) takeAway(rows[i]!, rows[k]!, k);
  }
  return rows.map((row, k) => {
    const inverse = row.slice(2 * nodes);
    for (let j = 0; j < nodes; j++) {
      const { re, im } = ratio(inverse[2 * j]!, inverse[2 * j + 1]!, row[2 * k]!, row[2 * k + 1]!);
      inverse[2 * j] = re;
      inverse[2 * j + 1] = im;
    }
    return inverse;
  });
}

/** The admittance matrix as rows of re, im in turn, with room to the right. */
function admittanceRows(
  nodes: number,
  branches: readonly BareBranch[],
  columns: number,
): Float64Array[] {
  const rows = Array.from({ length: nodes }, () => new Float64Array(2 * columns));
  const put = (row: number, column: number, { re, im }: Complex, sign: 1 | -1): void => {
    if (row === REFERENCE || column === REFERENCE) return;
    rows[row]![2 * column]! += sign * re;
    rows[row]![2 * column + 1]! += sign * im;
  };
  for (const { from, to, y } of branches) {
    put(from, from, y, 1);
    put(to, to, y, 1);
    put(from, to, y, -1);
    put(to, from, y, -1);
  }
  return rows;
}

/** Brings the row that is largest in a column up to its place. */
function bringPivot(rows: Float64Array[], k: number): void {
  const size = (row: number) => Math.hypot(rows[row]![2 * k]!, rows[row]![2 * k + 1]!);
  let pivot = k;
  for (let i = k + 1; i < rows.length; i++) if (size(i) > size(pivot)) pivot = i;
  [rows[k], rows[pivot]] = [rows[pivot]!, rows[k]!];
}

function takeAway(row: Float64Array, pivot: Float64Array, k: number): void {
  const f = ratio(row[2 * k]!, row[2 * k + 1]!, pivot[2 * k]!, pivot[2 * k + 1]!);
  if (f.re === 0 && f.im === 0) return;
  for (let j = 2 * k; j < row.length; j += 2) {
    row[j]! -= f.re * pivot[j]! - f.im * pivot[j + 1]!;
    row[j + 1]! -= f.re * pivot[j + 1]! + f.im * pivot[j]!;
  }
}

function ratio(re: number, im: number, byRe: number, byIm: number): Complex {
  const square = byRe * byRe + byIm * byIm;
  return complex((re * byRe + im * byIm) / square, (im * byRe - re * byIm) / square);
}
