import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { checkEntries, type Effects, fileSystem, formatProblem } from '../../src/entries/index.ts';

const CONTENT = fileURLToPath(new URL('../../content', import.meta.url));
const GUIDE = readFileSync(new URL('../../DEVELOPERS.md', import.meta.url), 'utf8');

/** Entries printed whole in the contributors' guide, in order. */
const printed = [...GUIDE.matchAll(/^```yaml\n(---\n[\s\S]*?)^```$/gm)].map(([, text]) => text!);

/** The shipped content with further files in it. */
function withFiles(files: Readonly<Record<string, string>>): Effects {
  const added = new Map(Object.entries(files).map(([file, text]) => [join(CONTENT, file), text]));
  return {
    list(folder) {
      const inside = [...added.keys()].filter((file) => join(file, '..') === folder);
      const names = inside.map((file) => ({ name: file.slice(folder.length + 1), folder: false }));
      const listed = fileSystem.list(folder);
      return listed && [...listed, ...names];
    },
    read: (file) => {
      const text = added.get(file);
      return text === undefined ? fileSystem.read(file) : new TextEncoder().encode(text);
    },
  };
}

describe('the entries printed in the contributors’ guide', () => {
  const [device = '', system = ''] = printed;
  const files = {
    'devices/frost-thermostat.mdx': device,
    'systems/combi-frost-thermostat.mdx': system,
  };

  it('are a device and a system with it', () => {
    expect(printed.length).toBe(2);
    expect(system).toContain('device: frost-thermostat');
  });

  it('are in order as printed: read, simulated, and judged by every house standard', () => {
    const { entries, problems } = checkEntries(CONTENT, withFiles(files));
    expect(problems).toEqual([]);
    expect(entries.systems.has('combi-frost-thermostat')).toBe(true);
  });

  it('breach the interlock when the device does not say what frost wants', () => {
    const silent = device.replace(', wants: frost protection', '');
    expect(silent).not.toBe(device);
    const { problems } = checkEntries(
      CONTENT,
      withFiles({ ...files, 'devices/frost-thermostat.mdx': silent }),
    );
    expect(problems.map(formatProblem).join('\n')).toMatchInlineSnapshot(`
      "systems/combi-frost-thermostat.mdx:11:3  standard-breached
        “Boiler firing” at E1 and “Boiler pump running” at E1 with nothing asking for heat, when B2.frost (house standard boiler-interlock)
        at       items.E1
        mend     Take the call of E1 through the contacts that answer a demand, and through nothing beside them; where B2.frost is a demand itself, its device says what it wants, as in wants: heating

           9 |   F1: { device: supply-circuit, place: Consumer unit, ratings: { breaker: 32 } }
          10 |   Q1: { device: fused-connection-unit, place: Beside the boiler }
        > 11 |   E1: { device: combi-boiler-mains-call, place: Garage wall }
             |   ^
          12 |   B1: { device: room-control-two-wire, place: Hall }
          13 |   B2: { device: frost-thermostat, place: Garage }"
    `);
  });
});
