import { describe, expect, it } from 'vitest';
import type { Simulation } from '../../src/circuit/index.ts';
import {
  answerOf,
  readingOf,
  type SequenceEnd,
  type SequenceTest,
} from '../../src/diagnosis/index.ts';
import { shippedSystem, shippedSystems } from '../support/shipped.ts';

/** Walks a sequence with a circuit's own readings; counts the readings taken. */
function walk(start: SequenceTest | SequenceEnd, simulation: Simulation) {
  let node = start;
  let readings = 0;
  while (node.kind === 'test') {
    const { mode, pair } = node;
    const answer = answerOf(pair, readingOf(simulation.modes.get(mode)!, pair));
    const branch = node.answers.find((a) => a.answer === answer);
    if (!branch) return { suspects: null, readings };
    node = branch.next;
    readings++;
  }
  return { suspects: node.suspects.map((s) => s.id), readings };
}

describe.each(shippedSystems().map((s) => [s.id, s] as const))('sequences of %s', (_, system) => {
  it.each(system.sequences.map((q) => [q.complaint.id, q] as const))(
    '%s: every suspect’s readings lead to a group that holds it',
    (_id, sequence) => {
      expect(sequence.suspects.length).toBeGreaterThan(0);
      let most = 0;
      for (const suspect of sequence.suspects) {
        const { suspects, readings } = walk(sequence.start, suspect.simulation);
        expect([suspect.id, suspects?.includes(suspect.id)]).toEqual([suspect.id, true]);
        most = Math.max(most, readings);
      }
      const sound = walk(sequence.start, system.simulation);
      most = Math.max(most, sound.readings);
      expect(sequence.mostReadings).toBe(most);
    },
  );

  it('lists as suspects just what, come apart, gives the complaint', () => {
    for (const { complaint, suspects } of system.sequences) {
      for (const { simulation } of suspects) {
        expect(simulation.modes.get(complaint.mode)!.outcomes.get(complaint.outcome)).not.toBe(
          true,
        );
      }
    }
  });
});

describe('halving', () => {
  it('takes no more readings than the suspects’ number needs by halves, and two to spare', () => {
    for (const { id, sequences } of shippedSystems()) {
      for (const { complaint, suspects, mostReadings } of sequences) {
        const halves = Math.ceil(Math.log2(suspects.length + 1));
        expect([id, complaint.id, mostReadings <= halves + 2]).toEqual([id, complaint.id, true]);
      }
    }
  });

  it('tells the control’s contact from its cores by readings at the control (common practice, no source)', () => {
    const { sequences } = shippedSystem('combi-two-wire');
    const { start, suspects } = sequences.find((q) => q.complaint.id === 'E1.burner@heating')!;
    const contact = suspects.find((s) => s.id === 'B1/contact')!;
    expect(walk(start, contact.simulation).suspects).toEqual(['B1/contact']);
    const core = suspects.find((s) => s.id === 'W3.BN')!;
    expect(walk(start, core.simulation).suspects).toEqual(['W3.BN']);
  });
});
