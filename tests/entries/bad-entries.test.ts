import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { FIRM_CODES } from '../../src/entries/catalogue-firm.ts';
import {
  CATALOGUE,
  checkEntries,
  formatProblem,
  formatProblems,
  type Problem,
} from '../../src/entries/index.ts';
import { BAD_BODIES } from './bad-bodies.ts';
import { BAD_DEVICES } from './bad-devices.ts';
import { BAD_FILES } from './bad-files.ts';
import { BAD_MODULES } from './bad-modules.ts';
import { BAD_STANDARDS } from './bad-standards.ts';
import { BAD_SYMPTOMS } from './bad-symptoms.ts';
import { BAD_SYSTEMS } from './bad-systems.ts';
import { BAD_VALUES } from './bad-values.ts';
import { inMemory, ROOT, valid } from './fixture.ts';

const ALL = [
  ...BAD_FILES,
  ...BAD_VALUES,
  ...BAD_DEVICES,
  ...BAD_SYSTEMS,
  ...BAD_SYMPTOMS,
  ...BAD_STANDARDS,
  ...BAD_MODULES,
  ...BAD_BODIES,
];

/** Codes that no edit of the fixture can bring about; other tests here do. */
const ELSEWHERE = [
  'folder-missing',
  'composition-refused',
  'file-unreadable',
  'circuit-refused',
  'exception-unneeded',
  'wiring-differs',
  'standard-conflicts',
  'review-missing',
  'review-stale',
  'review-own',
  'review-altered',
  'review-ahead',
  'review-overdue',
  'word-not-used',
  'text-colour',
  'text-item',
  'text-cores',
  'text-fuse',
  'text-terminal',
  'text-ways',
  'text-feature',
  'text-figure',
  'text-limit',
  'text-link',
  'text-copied',
  'file-link',
  ...Object.keys(FIRM_CODES),
];

/** The whole text of each case as it must be printed, one file a case. */
const SAID = new URL('../fixtures/entries/said/', import.meta.url);
const fileOf = ({ name }: { readonly name: string }) =>
  `${name.toLowerCase().replaceAll(' ', '-')}.txt`;

const line = ({ file, position, code, message }: Problem) =>
  `${file}:${position.line}:${position.column} ${code}: ${message}`;

describe('a bad entry', () => {
  it.each(ALL)('is reported where it is bad: $name', async ({ name, folder, problems }) => {
    const found = checkEntries(ROOT, inMemory(folder)).problems;
    expect(found.map(line)).toEqual(problems);
    const text = `${formatProblems(found)}\n`;
    expect(text).not.toMatch(/node:|node_modules|\.[jt]s:\d|Error:/);
    await expect(text).toMatchFileSnapshot(fileURLToPath(new URL(fileOf({ name }), SAID)));
  });

  it('has a text of its own among those kept, and there is none without a case', () => {
    expect(readdirSync(SAID).toSorted()).toEqual(ALL.map(fileOf).toSorted());
  });

  it('brings about every code of the catalogue, and only those', () => {
    const codes = ALL.flatMap(({ problems }) =>
      problems.map((problem) => /:\d+ ([a-z0-9-]+): /.exec(problem)?.[1]),
    );
    const brought = [...new Set([...codes, ...ELSEWHERE])];
    expect(brought.toSorted()).toEqual(Object.keys(CATALOGUE).toSorted());
  });
});

describe('every problem of a run', () => {
  it('is reported at once, in order of file and place', () => {
    const several = {
      ...valid,
      ...Object.fromEntries(
        [...BAD_SYSTEMS, ...BAD_DEVICES]
          .filter(({ name }) =>
            ['unknown item', 'rule on a link', 'unknown glossary entry'].includes(name),
          )
          .flatMap(({ folder }) =>
            Object.entries(folder).filter(([file, text]) => valid[file] !== text),
          ),
      ),
    };
    expect(checkEntries(ROOT, inMemory(several)).problems.map(line)).toEqual([
      'devices/bench-heater.mdx:27:81 element-not-felt: “call link” is a link; only a load, motor or sensing input is energised',
      'glossary/call.mdx:4:7 term-unknown: there is no glossary entry “spurr”',
      'systems/plain-bench.mdx:29:22 item-unknown: this system has no item E2',
    ]);
  });
});

describe('the whole text of a problem', () => {
  const textOf = (name: string) => {
    const found = ALL.find((one) => one.name === name);
    return checkEntries(ROOT, inMemory(found?.folder ?? {}))
      .problems.map(formatProblem)
      .join('\n\n');
  };

  it('of a wrong expectation says expected and computed', () => {
    expect(textOf('wrong expectation')).toBe(`systems/plain-bench.mdx:49:16  expectation-differs
  in mode “Room calls” this expects “Heater stays cold”; the circuit gives “Heater warms”
  at       modes.calling.expect.E1.warm
  found    false

    47 |       S1.calling: true
    48 |     expect:
  > 49 |       E1.warm: false
       |                ^
    50 |   tripped:
    51 |     title: Cut-out has tripped`);
  });

  it('of an undeclared terminal proposes the nearest', () => {
    expect(textOf('undeclared terminal')).toBe(`systems/plain-bench.mdx:36:26  terminal-undeclared
  S1 (room-switch) has no terminal “call fed”
  at       cables.W3.cores.BN[1]
  found    S1.call fed
  allowed  call feed, call return
  did you mean S1.call feed?

    34 |     length: 8
    35 |     cores:
  > 36 |       BN: [E1.call feed, S1.call fed]
       |                          ^
    37 |       BU: { ends: [E1.call return, S1.call return], sleeve: BN }
    38 | modes:`);
  });

  it('of a core used twice names the first use', () => {
    expect(textOf('core used twice')).toBe(`systems/plain-bench.mdx:37:7  core-used-twice
  core BN of W3 is used twice; it is joined on line 36
  at       cables.W3.cores.BN
  found    BN

    35 |     cores:
    36 |       BN: [E1.call feed, S1.call feed]
  > 37 |       BN: [E1.call return, S1.call return]
       |       ^
    38 |     spare: [BU]
    39 | modes:`);
  });

  it('of an unknown colour gives its code', () => {
    expect(textOf('unknown core colour')).toBe(`systems/plain-bench.mdx:21:7  colour-unknown
  “blue” is no IEC 60757 colour code
  at       cables.W1.cores.blue
  found    blue
  allowed  BK, BN, RD, OG, YE, GN, BU, VT, GY, WH, PK, GD, TQ, SR, GNYE
  did you mean BU?

    19 |     cores:
    20 |       BN: [G1.L, Q1.L in]
  > 21 |       blue: [G1.N, Q1.N in]
       |       ^
    22 |       GNYE: [G1.E, Q1.E]
    23 |   W2:`);
  });

  it('of a missing mode says which', () => {
    expect(textOf('missing mode')).toBe(`systems/plain-bench.mdx:58:3  mode-missing
  this system has no mode “isolated”, its isolator off
  at       modes.isolatd
  found    standby, calling, tripped, isolatd
  allowed  isolated and at least one more
  did you mean isolated?

    56 |     expect:
    57 |       E1.warm: false
  > 58 |   isolatd:
       |   ^
    59 |     title: Fused switch off
    60 |     conditions:`);
  });

  it('of YAML that does not parse points at the bracket left open', () => {
    expect(textOf('unclosed bracket')).toBe(`systems/plain-bench.mdx:30:13  yaml-syntax
  the frontmatter is not YAML: this [ has no closing ]

    28 |       BN: [Q1.L out, E1.L]
    29 |       BU: [Q1.N out, E1.N]
  > 30 |       GNYE: [Q1.E, E1.E
       |             ^
    31 |   W3:
    32 |     kind: flex`);
  });

  it('of a device cycle gives the whole round', () => {
    expect(textOf('device cycle')).toBe(`devices/lit-switch.mdx:6:10  device-cycle
  these devices extend one another in a circle: lit-switch → room-switch → third-switch → lit-switch
  at       extends
  found    room-switch

    4 | aliases:
    5 |   - lamp knob
  > 6 | extends: room-switch
      |          ^
    7 | terminals:
    8 |   N: { function: Neutral for the lamp, carries: neutral }`);
  });
});
