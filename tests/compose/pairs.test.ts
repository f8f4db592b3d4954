import { expect, it } from 'vitest';
import { nameOf, pairwise } from './combinations.ts';
import { countsIn } from './refusals.ts';
import { tried } from './tried.ts';

/**
 * One combination for each pair of choices: quick enough for every change. The proofs try all,
 * and hold how many are refused and why.
 */
const chosen = pairwise();
const verdicts = chosen.map((one) => ({ name: nameOf(one), ...tried(one) }));

it('tries any two choices together', () => {
  expect(chosen.length).toBeGreaterThan(150);
});

it('has circuits that are as the demand table says, and keep every standard', () => {
  const sound = verdicts.filter(({ refused }) => refused === undefined);
  expect(sound.length).toBeGreaterThan(40);
  for (const { settled, name } of sound) expect(settled, name).toBeGreaterThan(30);
});

it('composes nothing that an entry’s own checks refuse', () => {
  expect(verdicts.filter(({ refused }) => refused?.startsWith('content:'))).toEqual([]);
});

it('refuses for no reason that the list of all combinations does not have', () => {
  const known = countsIn('refusals.md');
  for (const { refused, name } of verdicts)
    if (refused !== undefined) expect([...known.keys()], name).toContain(refused);
});
