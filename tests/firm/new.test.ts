import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { entryText, extensionText } from '../../src/cli/new-entry.ts';
import { formatProblem, KINDS, type Kind } from '../../src/entries/index.ts';
import { CONTENT, checkFirm, filesOf, said } from './memory.ts';

/** Where a firm's schemas lie from its entries. */
const SCHEMAS = '../../schemas';
const kinds = Object.keys(KINDS) as Kind[];
const shipped = Object.keys(filesOf(CONTENT));
const read = (file: string) => readFileSync(`${CONTENT}/${file}`, 'utf8');

/** Every shipped entry with its kind and name. */
const entries = shipped.flatMap((file) => {
  const [folder = '', name = ''] = file.split('/');
  const kind = kinds.find((one) => KINDS[one].folder === folder);
  return kind ? [{ file, folder, kind, id: name.replace('.mdx', '') }] : [];
});

test('a new entry like any of the shipped ones is in order at once', () => {
  const made = entries.map(({ file, folder, kind, id }) => {
    const title = `House ${kind}: ${id} "quoted" # and ' odd`;
    const text = entryText({ kind, schemas: SCHEMAS, from: read(file), title });
    return [`content/${folder}/house-${id}.mdx`, text] as const;
  });
  const {
    problems,
    warnings,
    entries: found,
  } = checkFirm({
    'firm.yaml': 'name: House\n',
    ...Object.fromEntries(made),
  });
  // A system made like one that has an exception is told so, and may be given its own.
  const told = new Set(['standard-breached']);
  expect(said({ problems: problems.filter(({ code }) => !told.has(code)) })).toEqual([]);
  // A copy is reviewed by nobody, whatever the text that it was made from says.
  expect(made.filter(([, text]) => /^(review|checked):/m.test(text))).toEqual([]);
  const unreviewed = warnings.filter(({ code }) => code === 'review-missing');
  expect(unreviewed.map(({ file }) => file).toSorted()).toEqual(
    made.map(([file]) => `firm/${file}`).toSorted(),
  );
  const own = [...found.glossary.values()].filter(({ origin }) => origin === 'added');
  expect(own.length).toBe(entries.filter(({ kind }) => kind === 'term').length);
});

test('a copy is said to be unreviewed, and the reference as shipped is not', () => {
  const system = entries.find(({ id }) => id === 'combi-two-wire')!;
  const text = entryText({
    kind: 'system',
    schemas: SCHEMAS,
    from: read(system.file),
    title: 'Ours',
  });
  const told = (files: Readonly<Record<string, string>>) =>
    checkFirm({ 'firm.yaml': 'name: House\n', ...files })
      .warnings.filter(({ code }) => code === 'review-missing')
      .map(formatProblem);
  expect(told({})).toEqual([]);
  expect(told({ 'content/systems/ours.mdx': text })).toMatchInlineSnapshot(`
    [
      "firm/content/systems/ours.mdx:1:1  warning: review-missing
      nobody is said to have reviewed this entry
      mend     Read it through, then: npm run review -- system ours --by "your name"

      > 1 | ---
          | ^
        2 | # yaml-language-server: $schema=../../schemas/system.schema.json
        3 | title: Ours",
    ]
  `);
  const reviewed = text.replace(
    /^# Nobody.*$/m,
    'review: { by: A. Manager, on: "2026-11-25", due: "2027-11-25" }',
  );
  expect(told({ 'content/systems/ours.mdx': reviewed })).toEqual([]);
});

test('what is added to an entry does not inherit its review', () => {
  const { entries: found } = checkFirm({
    'firm.yaml': 'name: House\n',
    'content/systems/combi-two-wire.mdx': extensionText('system', 'combi-two-wire', SCHEMAS),
  });
  expect(found.systems.get('combi-two-wire')!.data).not.toHaveProperty('checked');
  expect(found.systems.get('combi-volt-free')!.data).toHaveProperty('checked');
});

test('an entry in the place of any shipped one, or adding to it, is in order at once', () => {
  for (const way of ['replaces', 'extends'] as const) {
    const made = entries.map(({ file, kind, id }) => [
      `content/${file}`,
      way === 'extends'
        ? extensionText(kind, id, SCHEMAS)
        : entryText({ kind, schemas: SCHEMAS, from: read(file), replaces: id }),
    ]);
    const { problems, entries: found } = checkFirm({
      'firm.yaml': 'name: House\n',
      ...Object.fromEntries(made),
    });
    const told = way === 'replaces' ? new Set(['standard-breached']) : new Set();
    expect(said({ problems: problems.filter(({ code }) => !told.has(code)) })).toEqual([]);
    const origins = new Set([...found.devices.values()].map(({ origin }) => origin));
    expect([...origins]).toEqual([way === 'extends' ? 'extended' : 'replaced']);
  }
});
