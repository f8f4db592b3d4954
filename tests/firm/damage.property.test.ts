import { describe, expect, test } from 'vitest';
import { FIRM_CODES } from '../../src/entries/catalogue-firm.ts';
import { CATALOGUE } from '../../src/entries/index.ts';
import { property } from '../support/property.ts';
import {
  badBodies,
  badClaims,
  badFiles,
  badLogos,
  cutFile,
  type Damaged,
  hostileTexts,
  wrongValue,
} from './damage.ts';
import { FIXTURE_FIRM } from './fixture-firm.ts';
import { checkFirm, FIXTURE, said } from './memory.ts';
import { sealed } from './sealed.ts';

const CLASSES: Readonly<Record<string, readonly Damaged[]>> = {
  'files missing, linked, empty, huge or no text': badFiles(),
  'claims that cannot be met': badClaims(),
  'bodies that would run or load': badBodies(),
  'logos that are no picture': badLogos(),
  'markup in every text': hostileTexts(),
};
const ALL = Object.values(CLASSES).flat();

/** Checks a damaged folder: problems that an author can use, or entries that a page can show. */
function outcome({ files, code }: Damaged): string[] {
  const checked = checkFirm(files, FIXTURE);
  const wrong: string[] = [];
  for (const problem of [...checked.problems, ...checked.warnings]) {
    const { code, message, found = '', allowed = '', suggestion = '' } = problem;
    const text = `${code} ${message} ${found} ${allowed} ${suggestion}`;
    if (!Object.hasOwn(CATALOGUE, problem.code)) wrong.push(`unknown code ${problem.code}`);
    if (/\[object/.test(text) || /undefined|\bNaN\b|\w*Error:|node:internal/.test(message))
      wrong.push(`unclear: ${text}`);
    if (problem.position.line < 1 || problem.file === '') wrong.push(`nowhere: ${text}`);
  }
  if (code !== undefined && !checked.problems.some((problem) => problem.code === code))
    wrong.push(`no ${code} among: ${said(checked).join('; ') || 'nothing'}`);
  if (checked.problems.length === 0 && checked.entries.systems.size < 2)
    wrong.push('in order, and systems are lost');
  return wrong;
}

const isSound = (one: Damaged) => expect([one.name, ...outcome(one)]).toEqual([one.name]);

describe(`a damaged firm's folder, ${ALL.length} of them and any other`, () => {
  test('there are at least two hundred', () => {
    expect(ALL.length).toBeGreaterThanOrEqual(200);
  });

  test('undamaged it is in order', () => {
    const { problems, warnings, entries, firm } = checkFirm(sealed(FIXTURE_FIRM, FIXTURE), FIXTURE);
    expect(said({ problems: [...problems, ...warnings] })).toEqual([]);
    expect(firm?.logo?.type).toBe('image/svg+xml');
    expect(entries.glossary.has('call')).toBe(false);
  });

  test.each(Object.entries(CLASSES))(
    'ends in a clear error or in sound entries: %s',
    (_, cases) => {
      const wrong = cases.flatMap((one) => outcome(one).map((what) => `${one.name}: ${what}`));
      expect(wrong).toEqual([]);
    },
  );

  property('ends so with any value of a wrong kind', 50, (from) => isSound(wrongValue(from)));
  property('ends so with any file cut short or mixed with another', 30, (from) =>
    isSound(cutFile(from)),
  );

  test('brings about every code that is about a firm’s folder', () => {
    const codes = new Set(
      [...badFiles(), ...badClaims(), ...badLogos()].flatMap(({ code }) => code ?? []),
    );
    // Brought about by dates and by silence, in the tests of reviews.
    for (const code of ['review-missing']) codes.add(code);
    expect(Object.keys(FIRM_CODES).filter((code) => !codes.has(code))).toEqual([]);
  });
});
