import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type Entries, loadEntries } from '../../src/entries/index.ts';
import { type PageSources, systemPageKeys } from '../../src/reference/page-key.ts';

const { entries } = loadEntries(fileURLToPath(new URL('../../content', import.meta.url)));
const SOURCES: PageSources = { entries, firm: undefined, hidden: new Map(), shared: 'code' };
const keys = (change: Partial<PageSources> = {}) => {
  const keyOf = systemPageKeys({ ...SOURCES, ...change });
  return new Map([...entries.systems.keys()].map((id) => [id, keyOf(id)]));
};
const before = keys();
const changed = (change: Partial<PageSources>) =>
  [...keys(change)].flatMap(([id, key]) => (key === before.get(id) ? [] : [id]));

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
    expect(new Set(before.values()).size).toBe(ALL.length);
    expect([...before.values()].every((key) => /^[0-9a-f]{64}$/.test(key))).toBe(true);
  });

  it('changes for one system with its own words and figures, for all with its title', () => {
    const body = withEdited('systems', 'combi-two-wire', (e) => ({ ...e, body: 'Otherwise.' }));
    expect(changed({ entries: body })).toEqual(['combi-two-wire']);
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
      keys({ firm: firm(null, 'One') }),
      keys({ firm: firm(null, 'Two') }),
      keys({ firm: firm('logo.png', 'One') }),
      keys({ hidden: new Map([['symptom', new Set(['fuse-blows'])]]) as never }),
      keys({ hidden: new Map([['symptom', new Set(['fuse-blows', 'valve-swings'])]]) as never }),
      keys({ hidden: new Map([['device', new Set(['fuse-blows'])]]) as never }),
      before,
    ].map((all) => all.get('combi-two-wire'));
    expect(new Set(kinds).size).toBe(kinds.length);
  });
});
