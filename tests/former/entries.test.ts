import { describe, expect, test } from 'vitest';
import { checkEntries, formerNamesIn, loadEntries, type Problem } from '../../src/entries/index.ts';
import { edited, inMemory, ROOT } from '../entries/fixture.ts';
import { CONTENT, checkFirm, said } from '../firm/memory.ts';

const PLAIN = 'systems/plain-bench.mdx';
const SWITCH = 'devices/room-switch.mdx';
const renamed = (line: string) => edited(PLAIN, ['arrangement:', `${line}\narrangement:`]);
const line = ({ file, position, code, message }: Problem) =>
  `${file}:${position.line} ${code}: ${message}`;
const problemsOf = (folder: Parameters<typeof inMemory>[0]) =>
  checkEntries(ROOT, inMemory(folder)).problems.map(line);

describe('the former names of an entry', () => {
  test('lead to it, in its own folder', () => {
    const { entries, problems } = loadEntries(
      ROOT,
      inMemory({
        ...renamed('formerly: [bench-of-old, older-bench]'),
        ...{ [SWITCH]: edited(SWITCH, ['family:', 'formerly: [bench-of-old]\nfamily:'])[SWITCH]! },
      }),
    );
    expect(problems).toEqual([]);
    expect(formerNamesIn(entries)).toEqual({
      systems: { 'bench-of-old': 'plain-bench', 'older-bench': 'plain-bench' },
      devices: { 'bench-of-old': 'room-switch' },
    });
  });

  test.each([
    [
      'formerly: [lit-bench]',
      'former-name-live: there is a system of this name: systems/lit-bench.mdx',
    ],
    ['formerly: [plain-bench]', 'former-name-live: this system is called “plain-bench” now'],
    ['formerly: [a, a]', 'former-name-twice: this former name stands here twice'],
    ['formerly: [A Bench]', 'value-form: an entry name is lower-case words joined by hyphens'],
    ['formerly: []', 'value-range: name at least one, or leave it out'],
    ['formerly: old-bench', 'value-type: this is text; a list stands here'],
  ])('are refused where they are no such thing: %s', (written, told) => {
    const found = problemsOf(renamed(written));
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(new RegExp(`^systems/plain-bench\\.mdx:\\d+ ${told.slice(0, 40)}`));
  });

  test('are claimed by one entry only; it is said where the other claims it', () => {
    const lit = edited('systems/lit-bench.mdx', ['arrangement:', 'formerly: [old]\narrangement:']);
    const both = { ...lit, [PLAIN]: renamed('formerly: [old]')[PLAIN]! };
    expect(problemsOf(both)).toEqual([
      'systems/plain-bench.mdx:4 former-name-twice: systems/lit-bench.mdx was called so before already',
    ]);
  });

  test('are not inherited by a device that extends another', () => {
    const folder = {
      ...edited(SWITCH, ['family:', 'formerly: [knob]\nfamily:']),
      'devices/our-switch.mdx':
        '---\nextends: room-switch\ntitle: Our switch\nsummary: Ours.\n---\n',
    };
    expect(problemsOf(folder)).toEqual([]);
  });
});

describe('a firm’s folder that is older than a renaming', () => {
  const firm = (files: Readonly<Record<string, string>>) =>
    checkFirm({ 'firm.yaml': 'name: Bench Firm\n', ...files });
  const told = (checked: ReturnType<typeof firm>) =>
    checked.problems.map(({ code, suggestion, mend }) => [code, suggestion, mend]);
  const RENAMED = 'It was renamed: write the name it has now.';
  const OLD = 'system-boiler-two-port';
  const NOW = 'heat-only-two-port';

  test('is told the name of now, whatever it does with the old one', () => {
    expect(
      told(firm({ [`content/systems/${OLD}.mdx`]: `---\nreplaces: ${OLD}\n---\n` })),
    ).toContainEqual(['replaces-unknown', NOW, RENAMED]);
    expect(
      told(firm({ 'firm.yaml': `name: Bench Firm\nhide: [systems/${OLD}]\n` })),
    ).toContainEqual(['entry-unknown', `systems/${NOW}`, RENAMED]);
    expect(
      told(
        firm({
          'content/devices/ours.mdx':
            '---\ntitle: Ours\nsummary: Ours.\nextends: system-boiler\n---\n',
        }),
      ),
    ).toContainEqual(['device-unknown', 'heat-only-boiler', RENAMED]);
  });

  test('may not take a former name for an entry of its own', () => {
    const own = {
      'content/glossary/regular-boiler.mdx': '---\ntitle: Ours\nsummary: Ours.\n---\n',
    };
    expect(said(firm(own))).toEqual([
      'firm/content/glossary/regular-boiler.mdx:1 former-name-live: the reference’s glossary term “heat-only-boiler” was called so before, and its old addresses lead there',
    ]);
  });

  test('keeps the former names of what it replaces or extends', () => {
    const { entries, problems } = firm({
      'content/glossary/heat-only-boiler.mdx':
        '---\nreplaces: heat-only-boiler\ntitle: Ours\nsummary: Ours.\n---\n',
      [`content/systems/${NOW}.mdx`]: `---\nextends: ${NOW}\nformerly: [${OLD}, our-old-one]\n---\n`,
    });
    expect(problems).toEqual([]);
    const former = formerNamesIn(entries);
    expect(former.glossary).toEqual({ 'regular-boiler': 'heat-only-boiler' });
    expect(former.systems).toMatchObject({ [OLD]: NOW, 'our-old-one': NOW });
  });

  test('has no address lead to what it hides', () => {
    const { entries } = firm({ 'firm.yaml': `name: Bench Firm\nhide: [systems/${NOW}]\n` });
    expect(formerNamesIn(entries).systems).not.toHaveProperty(OLD);
  });
});

test('the shipped entries that were renamed', () => {
  const systems = ['two-port', 'mid-position', 'condensate-pump'];
  expect(formerNamesIn(loadEntries(CONTENT).entries)).toEqual({
    systems: Object.fromEntries(systems.map((id) => [`system-boiler-${id}`, `heat-only-${id}`])),
    devices: { 'system-boiler': 'heat-only-boiler' },
    glossary: { 'regular-boiler': 'heat-only-boiler' },
  });
});
