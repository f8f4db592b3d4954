import { describe, expect, it } from 'vitest';
import { type Computed, expectationProblems, loadEntries } from '../../src/entries/index.ts';
import { inMemory, ROOT, valid } from './fixture.ts';

const { entries } = loadEntries(ROOT, inMemory(valid));

/** What the engine might compute for the plain bench: as expected, but for the changes given. */
function computed(
  changes: Readonly<Record<string, boolean | 'hunting' | undefined>>,
  hunting: string[] = [],
) {
  const { modes } = entries.systems.get('plain-bench')!.data;
  const results = Object.entries(modes).map(([mode, { expect: expected }]) => {
    const outcomes = new Map<string, boolean | 'hunting'>(Object.entries(expected));
    for (const [reference, seen] of mode === 'calling' ? Object.entries(changes) : []) {
      if (seen === undefined) outcomes.delete(reference);
      else outcomes.set(reference, seen);
    }
    return [mode, { outcomes, hunting: mode === 'calling' ? hunting : [] }] as const;
  });
  return new Map<string, Computed>([['plain-bench', { modes: new Map(results) }]]);
}

const said = (results: ReadonlyMap<string, Computed>) =>
  expectationProblems(entries, results).map(
    ({ code, path, message }) => `${code} ${path}: ${message}`,
  );

describe('what an author expects', () => {
  it('is met', () => {
    expect(said(computed({}))).toEqual([]);
  });

  it('is passed over for a system that was not computed', () => {
    expect(said(new Map())).toEqual([]);
  });

  it('differs from what is computed', () => {
    expect(said(computed({ 'E1.warm': false }))).toEqual([
      'expectation-differs modes.calling.expect.E1.warm: in mode “Room calls” this expects “Heater warms”; the circuit gives “Heater stays cold”',
    ]);
  });

  it('differs in an outcome without words for “otherwise”', () => {
    const heater = entries.devices.get('bench-heater')!;
    const { otherwise: _, ...warm } = heater.data.outcomes.warm!;
    const data = { ...heater.data, outcomes: { ...heater.data.outcomes, warm } };
    const devices = new Map([...entries.devices, ['bench-heater', { ...heater, data }]]);
    const found = expectationProblems({ ...entries, devices }, computed({ 'E1.warm': false }));
    expect(found.map(({ message }) => message)).toEqual([
      'in mode “Room calls” this expects “Heater warms”; the circuit gives “not: Heater warms”',
    ]);
  });

  it('cannot be met by an outcome that nothing computes', () => {
    expect(said(computed({ 'E1.warm': undefined }))).toEqual([
      'expectation-differs modes.calling.expect.E1.warm: in mode “Room calls” the circuit shows nothing of E1.warm',
    ]);
  });

  it('is not compared in an outcome that hunts; the mode is reported', () => {
    expect(said(computed({ 'E1.warm': 'hunting' }, ['E1', 'S1']))).toEqual([
      'mode-hunts modes.calling: in mode “Room calls” the circuit does not settle: E1, S1 change without end',
    ]);
  });
});
