import { expect, it } from 'vitest';
import { combinations, nameOf } from './combinations.ts';
import { heldTo } from './refusals.ts';
import { tried } from './tried.ts';

/**
 * Every combination that is asked for: composed, judged by every house standard, and settled under
 * every set of conditions, from new and again after each demand.
 */
it('is sound, or refused for a reason that is known', () => {
  const all = combinations();
  const first = new Map<string, { count: number; example: string }>();
  let sound = 0;
  for (const one of all) {
    const { refused } = tried(one);
    if (refused === undefined) sound++;
    else {
      const before = first.get(refused);
      first.set(refused, {
        count: (before?.count ?? 0) + 1,
        example: before?.example ?? nameOf(one),
      });
    }
  }
  expect(sound).toBeGreaterThanOrEqual(1500);
  const rows = [...first].toSorted(([a], [b]) => (a < b ? -1 : 1));
  heldTo(
    'refusals.md',
    `${[
      '# Why combinations are refused',
      '',
      `Of ${all.length} combinations asked for, ${sound} are sound: they settle, keep every house standard,`,
      'and do what the demand table says under every set of conditions, from new and after each demand.',
      'The others, each by the first that refuses it: no terminal to go to, then a house standard, then',
      'the demand table alone. Made by `sweep.proof.ts`; `UPDATE_TABLES=1 npm run proofs -- sweep` writes it anew.',
      '',
      '| reason | combinations | the first of them |',
      '| --- | --- | --- |',
      ...rows.map(([reason, { count, example }]) => `| ${reason} | ${count} | ${example} |`),
    ].join('\n')}\n`,
  );
});
