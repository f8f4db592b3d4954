import { globSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { jsonSchemaOf, KINDS, type Kind } from '../../src/entries/index.ts';
import { copiedIn } from '../../src/form/copied.ts';
import { withWritten, writtenIn } from '../../src/form/document.ts';
import { emptyOf, fieldOf } from '../../src/form/schema.ts';
import { withAt } from '../../src/form/ui/scope.ts';
import { property } from '../support/property.ts';

const entries = globSync('content/*/*.mdx').toSorted();

const TEXT = `---
# The editor finds its schema by this.
title: A box
items:
  F1: { device: fuse, place: Hall } # where it always was
  E1: { device: boiler, place: Loft }
labels: { 1: live, 2: neutral }
notes:
  - One.
  - Two. # the second
---

Prose.
`;
const written = (path: readonly (string | number)[], value: unknown) => {
  const { values, body } = writtenIn(TEXT);
  return withWritten(TEXT, { values: withAt(values, path, value) as typeof values, body });
};

describe('an entry written anew', () => {
  test('is as it was where nothing is other than it was: every shipped entry', () => {
    for (const file of entries) {
      const text = readFileSync(file, 'utf8');
      expect([file, withWritten(text, writtenIn(text))]).toEqual([file, text]);
    }
  });

  test('keeps comments, style and order round what is changed', () => {
    expect(written(['items', 'E1', 'place'], 'Garage')).toBe(TEXT.replace('Loft', 'Garage'));
    const shipped = readFileSync('content/systems/combi-two-wire.mdx', 'utf8');
    const { values, body } = writtenIn(shipped);
    const moved = withAt(values, ['cables', 'W2', 'length'], 2) as typeof values;
    expect(withWritten(shipped, { values: moved, body })).toBe(
      shipped.replace('length: 1.5', 'length: 2'),
    );
    expect(written(['labels', '1'], 'earth')).toBe(TEXT.replace('1: live', '1: earth'));
  });

  test('calls an item otherwise where it stood', () => {
    const { values, body } = writtenIn(TEXT);
    const { F1, E1 } = values.items as Record<string, unknown>;
    const text = withWritten(TEXT, { values: { ...values, items: { F2: F1, E1 } }, body });
    expect(text).toBe(TEXT.replace('F1:', 'F2:'));
  });

  test('adds at the end, and takes away', () => {
    expect(written(['items', 'Q1'], { device: 'spur', place: 'Hall' })).toContain(
      '  Q1: { device: spur, place: Hall }\nlabels',
    );
    expect(written(['items', 'F1'], undefined)).not.toContain('F1');
    expect(written(['notes', 1], undefined)).not.toContain('Two.');
  });

  test('holds prose as it is typed, and none', () => {
    const { values } = writtenIn(TEXT);
    expect(withWritten(TEXT, { values, body: '\nOther.\n\n\n' })).toMatch(/---\n\nOther\.\n$/);
    expect(withWritten(TEXT, { values, body: '  ' })).toMatch(/---\n$/);
  });

  property('reads back as what was written, whatever that is', 40, (from) => {
    const text = readFileSync(from.pick(entries), 'utf8');
    const { values, body } = writtenIn(text);
    const paths: (string | number)[][] = [];
    const walk = (value: unknown, path: (string | number)[]) => {
      if (path.length > 0) paths.push(path);
      if (typeof value !== 'object' || value === null) return;
      for (const [key, one] of Object.entries(value))
        walk(one, [...path, Array.isArray(value) ? Number(key) : key]);
    };
    walk(values, []);
    const odd = ['a: b', '# none', '“x”', "it's", '- x', 'yes', '1', ' ', 'two\nlines', 'ω: [}'];
    const next = withAt(values, from.pick(paths), from.pick([undefined, 0.5, true, ...odd]));
    const again = withWritten(text, { values: next as typeof values, body });
    expect(writtenIn(again)).toEqual({ values: next, body });
  });
});

test('what is copied word for word is named, names and labels are not', () => {
  const one = { title: 'A box in the hall, old', items: { E1: { place: 'Kitchen wall' } } };
  const other = { ...one, title: 'Another title of four words', notes: ['A box in the hall, old'] };
  expect(copiedIn(one, other)).toEqual(['title']);
  expect(copiedIn({ notes: ['Never by a link across it.'] }, { notes: [] })).toEqual([]);
});

/** What is entered as YAML in the form: rules that nest, and what is a name or more than that. */
const AS_YAML: Readonly<Record<Kind, readonly string[]>> = {
  system: ['compose', 'cables.*.cores.*'],
  device: ['elements.*.closed', 'mechanism.moves[].when', 'outcomes.*.when'],
  symptom: ['shows[].signs[]'],
  procedure: [],
  standard: [],
  term: [],
  module: ['items.*.lead.*', 'stands.*', 'open', 'sees.*'],
};

test.each(Object.keys(KINDS) as Kind[])(
  'the form of a %s has a field for everything that may be written',
  (kind) => {
    const yaml = new Set<string>();
    const walk = (schema: ReturnType<typeof jsonSchemaOf>, path: string) => {
      const field = fieldOf(schema);
      const at = (key: string) => (path === '' ? key : `${path}.${key}`);
      if (field.kind === 'yaml') yaml.add(path.replace(/^compose\..*/, 'compose'));
      if (field.kind === 'list') walk(field.item, `${path}[]`);
      if (field.kind === 'record') walk(field.value, at('*'));
      if (field.kind === 'group')
        for (const [key, value] of Object.entries(field.of)) walk(value, at(key));
      if (field.kind === 'variant') for (const value of Object.values(field.of)) walk(value, path);
      // A new one has what it must have.
      if (field.kind === 'group')
        expect(Object.keys(emptyOf(schema) as object)).toEqual(field.required);
    };
    walk(jsonSchemaOf(kind), '');
    expect([...yaml]).toEqual(AS_YAML[kind]);
  },
);
