import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type Rung, upgrade } from '../../src/cli/package/upgrade-firm.ts';

const CONTENT = 'content';
let firm: string;
beforeEach(() => {
  firm = join(mkdtempSync(join(tmpdir(), 'upgrade-')), 'firm');
  cpSync('tests/example-firm', firm, { recursive: true });
});
afterEach(() => rmSync(join(firm, '..'), { recursive: true }));

const read = (file: string) => readFileSync(join(firm, file), 'utf8');
const write = (file: string, text: string) => writeFileSync(join(firm, file), text);
const climb = (to = '0.1.0', ladder?: readonly Rung[]) =>
  upgrade({ firm, content: CONTENT }, to, ladder);

describe('a firm’s folder brought to a version', () => {
  test('says which version its entries are for, once', () => {
    expect(read('firm.yaml')).not.toContain('proveline:');
    expect(climb()).toEqual([]);
    expect(read('firm.yaml')).toContain('\nname: Ottermere Heating\nproveline: 0.1.0\n');
    climb('0.3.0', []);
    expect(read('firm.yaml').match(/proveline: \S+/g)).toEqual(['proveline: 0.3.0']);
  });

  test('climbs the rungs between its version and the new one, in order', () => {
    write('firm.yaml', read('firm.yaml').replace(/^name:/m, 'proveline: "0.2.9"\nname:'));
    const said = (to: string | null): Rung => ({ to, climb: () => [to ?? 'every time'] });
    const ladder = ['0.2.0', '0.2.9', '0.2.10', '0.10.0', '1.0.0', null].map(said);
    expect(climb('0.10.0', ladder)).toEqual(['0.2.10', '0.10.0', 'every time']);
    expect(climb('0.10.0', ladder)).toEqual(['every time']);
  });

  test('is left alone by an older version', () => {
    write('firm.yaml', `${read('firm.yaml')}proveline: 0.4.0\n`);
    const before = read('firm.yaml');
    expect(() => climb('0.3.12')).toThrow(
      'firm.yaml says that its entries are for Proveline 0.4.0, and this is 0.3.12: an older one cannot read them for sure. Install 0.4.0 or later: npm install proveline@0.4.0',
    );
    expect(read('firm.yaml')).toBe(before);
  });
});

/** What the reference's own entries say that they were called before (`formerly`). */
describe('what the reference renamed', () => {
  test('is written by its present name in settings, entries and links', () => {
    write(
      'firm.yaml',
      read('firm.yaml').replace('systems/combi-volt-free', 'systems/system-boiler-mid-position'),
    );
    write(
      'content/procedures/handing-over.mdx',
      `${read('content/procedures/handing-over.mdx')}\nSee [it](/systems/system-boiler-two-port/#wiring).\n`,
    );
    const system = 'content/systems/combi-joint-box.mdx';
    write(system, read(system).replace(/device: combi-boiler[a-z-]*/, 'device: system-boiler'));
    const changes = climb();
    expect(read('firm.yaml')).toContain('- systems/heat-only-mid-position\n');
    expect(read('content/procedures/handing-over.mdx')).toContain(
      '(/systems/heat-only-two-port/#wiring)',
    );
    expect(read(system)).toContain('device: heat-only-boiler');
    expect(changes.map((line) => line.replace(/:\d+:/, ':'))).toEqual([
      'content/procedures/handing-over.mdx: link to /systems/system-boiler-two-port/#wiring, now /systems/heat-only-two-port/#wiring',
      'firm.yaml: systems/system-boiler-mid-position, now systems/heat-only-mid-position',
      `${system}: system-boiler, now heat-only-boiler`,
    ]);
    expect(climb()).toEqual([]);
  });

  test('gives its name to a file that stands over it, and to nothing else of the firm', () => {
    write(
      'content/devices/system-boiler.mdx',
      '---\nextends: system-boiler\naliases: [ours]\n---\n',
    );
    write('content/glossary/regular-boiler.mdx', '---\ntitle: Ours\n---\n');
    expect(climb()).toEqual([
      'content/devices/system-boiler.mdx: now content/devices/heat-only-boiler.mdx, as the entry that it stands over was renamed',
    ]);
    expect(read('content/devices/heat-only-boiler.mdx')).toContain('extends: heat-only-boiler\n');
    expect(existsSync(join(firm, 'content/devices/system-boiler.mdx'))).toBe(false);
    expect(existsSync(join(firm, 'content/glossary/regular-boiler.mdx'))).toBe(true);
  });

  test('overwrites no file that is there already', () => {
    for (const name of ['system-boiler', 'heat-only-boiler'])
      write(`content/devices/${name}.mdx`, `---\nextends: ${name}\naliases: [ours]\n---\n`);
    expect(climb()[0]).toContain(
      'not renamed, since content/devices/heat-only-boiler.mdx is there too',
    );
    expect(existsSync(join(firm, 'content/devices/system-boiler.mdx'))).toBe(true);
  });
});
