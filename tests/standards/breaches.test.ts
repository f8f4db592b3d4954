import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { checkEntries, formatProblems } from '../../src/entries/index.ts';
import { CONTENT, type Edits, editedContent } from './shipped.ts';

/** What people do to the shipped systems, as an author would write it. */
const DAMAGED: Edits = {
  'systems/combi-two-wire.mdx': [
    ['device: fused-connection-unit,', 'device: fused-connection-unit, ratings: { fuse: 13 },'],
    ['size: 0.75', 'size: 0.5'],
    [', sleeve: BN }, GNYE', ' }, GNYE'],
  ],
  'systems/combi-volt-free.mdx': [['BN: [E1.call 1, B1.COM]', 'BN: [E1.L, B1.COM]']],
  'systems/combi-condensate-pump.mdx': [
    ['links:\n', 'links:\n  - between: [X1.2, X1.3]\n'],
    ['      OG: { ends: [X2.3, M1.overflow NC], sleeve: BN }\n', ''],
  ],
  'systems/combi-wireless.mdx': [['conditions: { Q1.off: true, ', 'conditions: { ']],
  'systems/combi-wireless-condensate-pump.mdx': [
    ['device: fused-connection-unit,', 'device: fused-connection-unit, ratings: { fuse: 13 },'],
    ['length: 1\n    cores: { BN: [Q1.load L', 'length: 100\n    cores: { BN: [Q1.load L'],
  ],
  'systems/heat-only-two-port.mdx': [
    ['BN: [X1.1, E1.L]', 'BN: [X1.2, E1.L]'],
    ['modes:\n', 'links:\n  - between: [X1.5, X1.6]\nmodes:\n'],
  ],
  'systems/heat-only-mid-position.mdx': [
    ['modes:\n', 'links:\n  - between: [X1.1, X1.6]\nmodes:\n'],
  ],
};

describe('breaches in the shipped systems, as an author reads them', () => {
  const effects = editedContent(DAMAGED);
  const { problems } = checkEntries(CONTENT, effects, { today: '2026-12-01' });
  const breaches = problems.filter(({ code }) => code === 'standard-breached');

  // Lines move when an entry is edited; what is said of them does not.
  it('are printed whole', async () => {
    const kept = new URL('../fixtures/standards/breaches.txt', import.meta.url);
    const still = breaches.map((problem) => ({ ...problem, frame: '' }));
    const text = formatProblems(still).replaceAll(/(\.mdx):\d+:\d+/g, '$1');
    await expect(`${text}\n`).toMatchFileSnapshot(fileURLToPath(kept));
  });

  it('stand at the key they are about', () => {
    for (const { file, position, path } of breaches) {
      const bytes = effects.read(`${CONTENT}/${file}`);
      const line = new TextDecoder().decode(bytes).split('\n')[position.line - 1]!;
      const [key = ''] = line.slice(position.column - 1).split(':');
      expect([path, path.endsWith(`.${key}`)]).toEqual([path, true]);
    }
  });

  it('stand in every damaged file, at what is wrong, with the standard and the mend', () => {
    expect([...new Set(breaches.map(({ file }) => file))].toSorted()).toEqual(
      Object.keys(DAMAGED).toSorted(),
    );
    for (const { message, mend, path } of breaches) {
      expect(message).toMatch(/ \(house standard [a-z0-9-]+\)$/);
      expect(mend).toMatch(/^[A-Z]/);
      expect(path).toMatch(/^(items|cables|modes)\./);
    }
  });

  it('come from many standards', () => {
    const ids = breaches.map(({ message }) => /house standard ([a-z0-9-]+)/.exec(message)?.[1]);
    expect(new Set(ids).size).toBeGreaterThanOrEqual(12);
  });
});
