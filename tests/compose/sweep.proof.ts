import { describe, expect, it } from 'vitest';
import { AXES, combinations, nameOf } from './combinations.ts';
import { heldTo } from './refusals.ts';
import { tried } from './tried.ts';

/** Why combinations are refused, how many are, and the first of them. */
const refusals = new Map<string, { count: number; example: string }>();
const all = combinations();
let sound = 0;

/**
 * Every combination that is asked for: composed, judged by every house standard, and settled under
 * every set of conditions, from new and again after each demand.
 */
describe('every combination is sound, or refused for a reason that is known', () => {
  it.each(AXES.heat)('with a %s', (heat) => {
    const before = sound;
    for (const one of all) {
      if (one.heat !== heat) continue;
      const { refused } = tried(one);
      if (refused === undefined) sound++;
      else {
        const known = refusals.get(refused);
        refusals.set(refused, {
          count: (known?.count ?? 0) + 1,
          example: known?.example ?? nameOf(one),
        });
      }
    }
    expect(sound).toBeGreaterThan(before + 50);
  });

  it('is counted by reason', () => {
    expect(sound).toBeGreaterThanOrEqual(1500);
    const rows = [...refusals].toSorted(([a], [b]) => (a < b ? -1 : 1));
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
});
