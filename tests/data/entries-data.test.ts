import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { EntriesData, entriesData } from '../../src/data/index.ts';
import { sectionsOf } from '../../src/data/sections.ts';
import { checkFirm, EXAMPLE, filesOf } from '../firm/memory.ts';

describe('the open form of what entries say', () => {
  const { entries, firm } = checkFirm(filesOf(EXAMPLE));
  const data = entriesData({ entries, ...(firm ? { firm } : {}) });

  it('is what its schema says, and the schema can be written as JSON Schema', () => {
    expect(EntriesData.parse(JSON.parse(JSON.stringify(data)))).toEqual(data);
    expect(z.toJSONSchema(EntriesData)).toMatchObject({ type: 'object' });
  });

  it('holds steps, cautions, limits and the firm’s own names', () => {
    const { procedures, standards, devices } = data.entries;
    const { steps } = procedures!['handing-over']!.says as { steps: { do: string }[] };
    expect(steps.at(-1)?.do).toMatch(/^Photograph the boiler/);
    expect(standards!['volt-drop']!.says.rule).toEqual({ check: 'volt drop', most: 3 });
    expect(standards!['volt-drop']!.says.review).toEqual({
      by: 'R. Oakhanger',
      on: '2026-10-05',
      due: '2027-10-05',
    });
    const { terminals } = devices!['combi-boiler-mains-call']!.says as {
      terminals: Record<string, { aliases: string[] }>;
    };
    expect(terminals['call feed']?.aliases).toContain('OH 5');
    expect(data.firm?.cautions).toHaveLength(2);
  });
});

describe('prose by heading', () => {
  const TEXT =
    'One\nline. Two.\n\n- a point\n  of a list\n- another\n\n## Head\n\n| a | b |\n| - | - |\n| 1 | 2 |\n';
  it('is the same however its lines are broken', () => {
    const wrapped = TEXT.replace('One\nline. Two.', 'One line.\n  Two.').replace(
      '| 1 | 2 |',
      '|  1  | 2 |',
    );
    expect(sectionsOf(TEXT)).toEqual([
      { heading: '', prose: 'One line. Two.\n- a point of a list\n- another' },
      { heading: 'Head', prose: '| a | b |\n| 1 | 2 |' },
    ]);
    expect(sectionsOf(wrapped).map(({ heading }) => heading)).toEqual(['', 'Head']);
    expect(sectionsOf(wrapped)).toEqual(sectionsOf(TEXT));
  });

  it('says a component by what it is of', () => {
    expect(
      sectionsOf('At <Term at="E1.L" /> it reads <Reading at="E1.L" mode="standby" />.'),
    ).toEqual([{ heading: '', prose: 'At E1.L it reads [E1.L, standby].' }]);
  });
});
