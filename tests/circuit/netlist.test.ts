import { describe, expect, it } from 'vitest';
import { netlist, settleMode } from '../../src/circuit/index.ts';
import { circuit } from '../support/notation.ts';

const SMALL = circuit(`
  F1 mains: supply L N E
  F1 contact: contact L out { closed: on }
  F1 motor: motor out N { watts: 46, powerFactor: 0.6 }
  F1 cell: source plus minus { volts: 24, ohms: 100 }
  W1: flex 0.75 10; BN F1.out A1.L; BU F1.N A1.N`);

const written = (analysis: 'ac' | 'op', on: boolean) =>
  netlist(SMALL, settleMode(SMALL, 'x', { 'F1.on': on }).state, analysis).split('\n');

/** Lines about one branch, with the numbers of nodes and branches taken off. */
function about(lines: readonly string[], id: string): string[] {
  const i = SMALL.branchIndex.get(id)!;
  return lines.filter((line) => new RegExp(`^[VRLC]${i} `).test(line));
}
const node = (id: string) => `n${SMALL.nodeIndex.get(id)}`;

describe('a netlist', () => {
  it('begins with the entry and ends with the analysis at 50 Hz', () => {
    const lines = written('ac', true);
    expect(lines[0]).toBe('* test-circuit');
    expect(lines.slice(-2)).toEqual(['.ac lin 1 50 50', '.end']);
    expect(written('op', true).slice(-2)).toEqual(['.op', '.end']);
  });

  it('writes the supply as a source behind its resistance, its star point as node 0', () => {
    const i = SMALL.branchIndex.get('F1/supply line')!;
    expect(about(written('ac', true), 'F1/supply line')).toEqual([
      `V${i} ${node('F1.L')} m${i}V DC 0 AC 230`,
      `R${i} m${i}V 0 ${(0.175).toExponential(17)}`,
    ]);
  });

  it('writes a direct source for the operating point alone', () => {
    const i = SMALL.branchIndex.get('F1/cell')!;
    expect(about(written('op', true), 'F1/cell')[0]).toBe(
      `V${i} ${node('F1.plus')} m${i}V DC 24 AC 0`,
    );
  });

  it('writes a motor as resistance and inductance, a contact by its state', () => {
    const motor = about(written('ac', true), 'F1/motor').map((line) => line.split(' ')[0]);
    const i = SMALL.branchIndex.get('F1/motor')!;
    expect(motor).toEqual([`R${i}`, `L${i}`]);
    const contact = (on: boolean) =>
      Number(about(written('ac', on), 'F1/contact')[0]!.split(' ')[3]);
    expect(contact(true)).toBe(0.05);
    expect(contact(false)).toBe(1e9);
  });

  it('writes every branch, and numbers that lose no digit', () => {
    const lines = written('ac', true);
    const named = new Set(lines.flatMap((line) => /^[VRLC](\d+) /.exec(line)?.[1] ?? []));
    expect(named.size).toBe(SMALL.branches.length);
    expect(lines.filter((line) => /Infinity|NaN/.test(line))).toEqual([]);
    const conductor = SMALL.branches[SMALL.branchIndex.get('W1.BN')!]!;
    const ohms = conductor.kind === 'conductor' ? conductor.ohms : Number.NaN;
    expect(Number(about(lines, 'W1.BN')[0]!.split(' ')[3])).toBe(ohms);
  });
});
