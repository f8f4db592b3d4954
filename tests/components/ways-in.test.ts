import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { choicesOf } from '../../src/components/recognise/facets.ts';
import { questionStyles } from '../../src/components/recognise/questions.ts';
import { commonest, grouped } from '../../src/components/symptom/complaints.ts';
import { loadEntries } from '../../src/entries/index.ts';
import { symptomName } from '../../src/words/index.ts';

const { entries } = loadEntries(fileURLToPath(new URL('../../content', import.meta.url)));
const symptoms = [...entries.symptoms.values()];

describe('complaints', () => {
  test('each stand once, under a heading, in words of their own', () => {
    const groups = grouped(symptoms);
    expect(groups.flatMap((group) => group.symptoms).length).toBe(symptoms.length);
    expect(groups.map(({ id }) => id)).not.toContain('others');
    const words = symptoms.map(({ data }) => symptomName(data));
    expect(new Set(words).size).toBe(words.length);
  });

  test('without a heading come last; without words in a line, by title', () => {
    const [one, ...rest] = symptoms;
    const bare = { ...one!, data: { ...one!.data, group: undefined, complaint: undefined } };
    expect(grouped([bare, ...rest]).at(-1)).toEqual({
      id: 'others',
      title: 'Others',
      symptoms: [bare],
    });
    expect(symptomName(bare.data)).toBe(bare.data.title);
  });

  test('are six on the home page, in the order of their entries', () => {
    const first = commonest(symptoms.toReversed());
    expect(first.map(({ data }) => data.common)).toEqual([1, 2, 3, 4, 5, 6]);
    expect(commonest([...symptoms, ...symptoms])).toHaveLength(6);
  });
});

describe('questions about what is in front of you', () => {
  test('show what systems are recognised by only where three or fewer are left', () => {
    const systems = [...entries.systems.values()].map(({ data }) => data);
    const rules = questionStyles(systems).split('\n');
    const ids = (rule: string) =>
      [...rule.matchAll(/:has\(#([a-z-]+):checked\)/g)]
        .map(([, id]) => id!)
        .filter((id) => !id.endsWith('-unknown'));
    const left = (rule: string) =>
      systems.filter((one) => ids(rule).every((id) => choicesOf(one).includes(id))).length;
    const shown = rules.filter((rule) => rule.includes('--lines'));
    const asked = rules.filter((rule) => rule.includes('.question.'));
    expect(shown.length).toBeGreaterThan(5);
    expect(shown.map(left).filter((n) => n === 0 || n > 3)).toEqual([]);
    expect(asked.map(left).filter((n) => n <= 3)).toEqual([]);
  });
});
