import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { said, schemaOf } from '../../src/cli/form-facts.ts';
import { entryText, extensionText } from '../../src/cli/new-entry.ts';
import { KINDS, type Kind } from '../../src/entries/index.ts';
import { writtenIn } from '../../src/form/document.ts';
import { guideFields } from '../../src/form/guide-fields.ts';
import { AUTHORS, checkAuthors } from '../entries/authors-firm.ts';
import { CONTENT } from '../firm/memory.ts';
import { typed } from './typed-lines.ts';

/** An entry as `npm run new` begins it, like one of the reference. */
const begunAs = (kind: Kind, like: string) =>
  entryText({
    kind,
    schemas: '../../schemas',
    from: readFileSync(`${CONTENT}/${KINDS[kind].folder}/${like}.mdx`, 'utf8'),
    title: 'Our new one',
  });

/** Somebody who goes through an entry with these lines. */
const typing = (kind: Kind, begun: string, ...lines: readonly string[]) =>
  typingAs('our-new-one', kind, begun, ...lines);

async function typingAs(id: string, kind: Kind, begun: string, ...lines: readonly string[]) {
  const path = `content/${KINDS[kind].folder}/${id}.mdx`;
  const problemsOf = (text: string) =>
    checkAuthors({ ...AUTHORS, [path]: text }).problems.filter(
      ({ file }) => file === `firm/${path}`,
    );
  const schema = schemaOf(kind, writtenIn(begun).values, undefined);
  const done = await typed(begun, lines, (desk) =>
    guideFields(begun, { ...desk, check: (words) => said(problemsOf(words)), schema }),
  );
  return { ...done, problems: problemsOf(done.text) };
}

const LIKE: Readonly<Record<Exclude<Kind, 'system'>, string>> = {
  device: 'room-thermostat-wired',
  symptom: 'no-heating-hot-water-works',
  procedure: 'dead-tests',
  standard: 'fuse-3-amp',
  term: 'isolation',
  module: 'room-stat-two-wire',
};

describe('a new entry gone through at a terminal', () => {
  test.each(Object.entries(LIKE) as [Kind, string][])(
    '%s: what nobody changes stays as it was, to the letter',
    async (kind, like) => {
      const begun = begunAs(kind, like);
      const { text, over, told } = await typing(kind, begun, '', '');
      expect([over, text]).toEqual([true, begun]);
      // Every field of the form is there to be written, or to be added.
      for (const name of Object.keys(schemaOf(kind, {}, undefined).properties ?? {}))
        expect(told).toMatch(new RegExp(`(^ {2}|[:,] )${name}\\b`, 'm'));
    },
  );

  test('a term: words left, put anew, added and taken out', async () => {
    const { text, over, problems } = await typing(
      'term',
      begunAs('term', 'isolation'),
      ...['summary', ''],
      ...['summary', 'How a circuit is made dead, and kept so.'],
      ...['aliases', 'making dead', '+', 'lock and tag', '-1', ''],
      ...['-see', ''],
      ...['+', 'On our vans it is the *red kit*.', ''],
    );
    expect([over, problems]).toEqual([true, []]);
    expect(text).toContain('summary: How a circuit is made dead, and kept so.\n');
    expect(text).toContain('aliases: [lock and tag]\n');
    expect(text).not.toMatch(/^see:/m);
    expect(text).toMatch(/---\n\nOn our vans it is the \*red kit\*\.\n$/);
  });

  test('a system that adds to the reference’s: what is added is judged over what stands there', async () => {
    const { text, over, told, problems } = await typingAs(
      'combi-two-wire',
      'system',
      extensionText('system', 'combi-two-wire', '../../schemas'),
      ...['cautions', 'Nobody opens the boiler alone.', ''],
      ...['items', 'B9', 'room-thermostat-wired', 'Attic', 'no'],
      ...['', ''],
    );
    expect([over, problems]).toEqual([true, []]);
    expect(text).toContain('extends: combi-two-wire\ncautions: [Nobody opens the boiler alone.]\n');
    expect(told).toContain('no cable reaches B9 (room-thermostat-wired)');
    expect(text).not.toContain('B9');
  });

  test('a rule by its check: its own limits are asked for, and each is judged', async () => {
    const { text, told, problems } = await typing(
      'standard',
      begunAs('standard', 'fuse-3-amp'),
      ...['rule', 'minimum conductor size', '0.7', '0.75', 'extraLow', '0.5', ''],
    );
    expect(told).toMatch(
      /^rule\.smallest\n {2}There is no “0\.7” here\n {2}allowed {2}0\.5, 0\.75/m,
    );
    expect(text).toContain(
      'rule:\n  check: minimum conductor size\n  smallest: 0.75\n  extraLow: 0.5\n',
    );
    expect(problems).toEqual([]);
  });

  test('a procedure: a further step stands as a whole, then what may be said beside', async () => {
    const { text, told, problems } = await typing(
      'procedure',
      begunAs('procedure', 'dead-tests'),
      ...['order', 'ten', 'no', '12'],
      ...['steps', '+', 'Hang the key on the board.', 'caution', 'Isolated first.', ''],
    );
    expect(problems).toEqual([]);
    expect(told).toMatch(/^ {2}order: .*number/m);
    expect(text).toContain('order: 12\n');
    expect(text).toMatch(/do: Hang the key on the board\./);
    expect(text).toMatch(/caution: Isolated first\./);
  });

  test('a name that is not there is asked for again, with what is meant', async () => {
    const { told } = await typing(
      'device',
      begunAs('device', LIKE.device),
      'terminal',
      'terminals',
      '-KOM',
    );
    expect(told).toContain('There is no “terminal” here');
    expect(told).toContain('did you mean terminals?');
  });
});
