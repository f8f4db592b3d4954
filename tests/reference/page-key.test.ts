import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type Entries, loadEntries } from '../../src/entries/index.ts';
import { type PageKeys, type PageSources, systemPageKeys } from '../../src/reference/page-key.ts';

const { entries } = loadEntries(fileURLToPath(new URL('../../content', import.meta.url)));
const SOURCES: PageSources = { entries, firm: undefined, hidden: new Map(), shared: 'code' };
type Of = keyof PageKeys;
const keys = (of: Of, change: Partial<PageSources> = {}) => {
  const { [of]: keyOf } = systemPageKeys({ ...SOURCES, ...change });
  return new Map([...entries.systems.keys()].map((id) => [id, keyOf(id)]));
};
const before = { pageKey: keys('pageKey'), partKey: keys('partKey') };
const changedOf = (of: Of, change: Partial<PageSources>) =>
  [...keys(of, change)].flatMap(([id, key]) => (key === before[of].get(id) ? [] : [id]));
/** Systems of which both names changed. */
const changed = (change: Partial<PageSources>) => {
  const pages = changedOf('pageKey', change);
  expect(changedOf('partKey', change)).toEqual(pages);
  return pages;
};

/** The entries with one of a kind changed. */
function withEdited<K extends Exclude<keyof Entries, 'terms'>>(
  kind: K,
  id: string,
  edit: (entry: object) => object,
): Entries {
  const all = entries[kind] as ReadonlyMap<string, object>;
  return { ...entries, [kind]: new Map([...all, [id, edit(all.get(id)!)]]) };
}
const ALL = [...entries.systems.keys()];

describe('the name of a system’s pages', () => {
  it('is the same for the same, and another for each system', () => {
    expect(changed({})).toEqual([]);
    for (const named of Object.values(before)) {
      expect(new Set(named.values()).size).toBe(ALL.length);
      expect([...named.values()].every((key) => /^[0-9a-f]{64}$/.test(key))).toBe(true);
    }
  });

  it('changes for one system with its own figures, for all with its title', () => {
    const data = (more: object) =>
      withEdited('systems', 'combi-two-wire', (e) => ({
        ...e,
        data: { ...(e as { data: object }).data, ...more },
      }));
    expect(changed({ entries: data({ cautions: ['Otherwise.'] }) })).toEqual(['combi-two-wire']);
    // Prose and summary stand on the system’s own page and its sheet alone.
    const prose = withEdited('systems', 'combi-two-wire', (e) => ({ ...e, body: 'Otherwise.' }));
    for (const entries of [prose, data({ summary: 'Otherwise.' })]) {
      expect(changedOf('pageKey', { entries })).toEqual(['combi-two-wire']);
      expect(changedOf('partKey', { entries })).toEqual([]);
    }
    const title = withEdited('systems', 'combi-two-wire', (e) => ({
      ...e,
      data: { ...(e as { data: object }).data, title: 'Otherwise' },
    }));
    expect(changed({ entries: title })).toEqual(ALL);
  });

  it.each([
    ['devices', 'condensate-pump'],
    ['symptoms', 'fuse-blows'],
    ['procedures', 'safe-isolation'],
    ['standards', 'fuse-3-amp'],
    ['glossary', 'zone'],
  ] as const)('changes for all with an entry of the %s', (kind, id) => {
    for (const part of ['file', 'origin', 'body']) {
      const edited = withEdited(kind, id, (entry) => ({ ...entry, [part]: 'otherwise' }));
      expect(changed({ entries: edited }), part).toEqual(ALL);
    }
  });

  it('changes for all with the code, the firm, its logo, and what it hides', () => {
    const firm = (file: string | null, name: string) =>
      ({ settings: { name }, ...(file ? { logo: { file } } : {}) }) as never;
    expect(changed({ shared: 'other code' })).toEqual(ALL);
    const kinds = [
      keys('pageKey', { firm: firm(null, 'One') }),
      keys('pageKey', { firm: firm(null, 'Two') }),
      keys('pageKey', { firm: firm('logo.png', 'One') }),
      keys('pageKey', { hidden: new Map([['symptom', new Set(['fuse-blows'])]]) as never }),
      keys('pageKey', {
        hidden: new Map([['symptom', new Set(['fuse-blows', 'valve-swings'])]]) as never,
      }),
      keys('pageKey', { hidden: new Map([['device', new Set(['fuse-blows'])]]) as never }),
      before.pageKey,
    ].map((all) => all.get('combi-two-wire'));
    expect(new Set(kinds).size).toBe(kinds.length);
  });
});
