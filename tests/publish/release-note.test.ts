import { expect, it } from 'vitest';
import { SystemFacts } from '../../src/changes/index.ts';
import { releaseNote } from '../../src/publish/index.ts';
import { core } from '../changes/cases.ts';
import { edited } from '../changes/edits.ts';
import { shippedSystem } from '../support/shipped.ts';

const now = new Map([['combi-two-wire', shippedSystem('combi-two-wire')]]);
const built = { version: '1234abcd', date: '2026-11-01' };

it('says against which build, and what changed since', () => {
  const before = SystemFacts.parse(
    edited('combi-two-wire', (draft) => core(draft, 'W3', 'BN', ['E1.L', 'B1.COM'])),
  );
  const note = releaseNote(
    { systems: now },
    { ...built, systems: new Map([['combi-two-wire', before]]) },
  );
  expect(note?.since).toEqual(built);
  expect(note?.comparison.changed.map(({ changes }) => changes.map(({ words }) => words))).toEqual([
    ['Cable W3: brown (BN) moved from E1.L to E1.call feed; its other end stays at B1.COM'],
  ]);
});

it('is none where no earlier build was taken', () => {
  expect(releaseNote({ systems: now })).toBeUndefined();
});
