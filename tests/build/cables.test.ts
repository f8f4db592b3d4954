import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { IndexData, SystemData } from '../../src/data/index.ts';
import { DIST } from '../support/site-folder.ts';

const index = readFileSync(join(DIST, 'data/index.json'), 'utf8');
const ids = IndexData.parse(JSON.parse(index)).systems.map(({ id }) => id);

/** Words of a piece of a page, without its tags. */
const words = (html: string) =>
  html
    .replace(/<[^>]+>/g, ' ')
    .replaceAll('&#39;', "'")
    .replaceAll('&quot;', '"')
    .replace(/\s+/g, ' ');

describe.each(ids)('cables and protection of %s, as built', (id) => {
  const html = readFileSync(join(DIST, 'systems', id, 'wiring/index.html'), 'utf8');
  const section = /<section id="?cables"?[\s\S]*?<\/section>/.exec(html)?.[0] ?? '';
  const data = SystemData.parse(
    JSON.parse(readFileSync(join(DIST, 'data/systems', `${id}.json`), 'utf8')),
  ).cables;
  const shown = words(section);

  test('shows every cable with its cores, capacity and what protects it', () => {
    for (const { cable, needed, there, capacity, kind, size } of data.cables) {
      expect(shown).toContain(`${cable} ${size} mm² ${kind}`);
      expect(shown).toContain(`${needed} needed, ${there} there`);
      if (capacity !== null) expect(shown).toContain(`${capacity}\u00a0A`.replace(/\s/g, ' '));
    }
    expect(data.cables.length).toBeGreaterThan(1);
  });

  test('shows the loop and what clears the fault at every item that has one', () => {
    for (const { loop, protection } of data.faults) {
      expect(shown).toContain(`${loop.toFixed(2)} Ω`);
      expect(shown).toContain(`${protection.rating} A ${protection.title}`);
    }
  });

  test('names every source its values rest on, and says which are from memory', () => {
    const sources = [
      ...data.cables.flatMap(({ source }) => source ?? []),
      ...data.faults.flatMap(({ source }) => source ?? []),
      ...data.fuses.map(({ source }) => source),
      ...Object.values(data.sources),
    ];
    for (const { cite, standing } of sources) {
      const at = shown.indexOf(cite);
      expect([cite, at >= 0]).toEqual([cite, true]);
      if (standing === 'from memory')
        expect(shown.slice(at, at + cite.length + 16)).toContain('from memory');
    }
  });

  test('defers loop impedance, a live test, to the procedure', () => {
    expect(section).toContain('/procedures/live-tests/');
    expect(shown).toContain('Loop impedance is a live test');
  });
});
