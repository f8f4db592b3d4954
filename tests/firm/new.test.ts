import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { entryText, extensionText } from '../../src/cli/new-entry.ts';
import { KINDS, type Kind } from '../../src/entries/index.ts';
import { CONTENT, checkFirm, filesOf, said } from './memory.ts';

const review = { by: 'A. "Quoted" Manager: checked', on: '2026-11-25', due: '2027-11-25' };
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
    const text = entryText({ kind, from: read(file), review, title });
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
  expect(warnings.filter(({ code }) => code.startsWith('review'))).toEqual([]);
  const own = [...found.glossary.values()].filter(({ origin }) => origin === 'added');
  expect(own.length).toBe(entries.filter(({ kind }) => kind === 'term').length);
  expect(own[0]?.data.review).toEqual(review);
});

test('an entry in the place of any shipped one, or adding to it, is in order at once', () => {
  for (const way of ['replaces', 'extends'] as const) {
    const made = entries.map(({ file, kind, id }) => [
      `content/${file}`,
      way === 'extends'
        ? extensionText(kind, id, review)
        : entryText({ kind, from: read(file), review, replaces: id }),
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
