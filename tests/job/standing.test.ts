import { describe, expect, test } from 'vitest';
import type { Findings, FoundRepair } from '../../src/job/findings.ts';
import { repairText, standingOf } from '../../src/job/standing.ts';
import { systemForJob } from './systems.ts';

const { engine } = systemForJob('combi-two-wire');

const repair = (title: string, share: number): FoundRepair => ({
  key: title,
  repair: 'Replace it.',
  share,
  causes: [{ title, family: 'valve', share, hazard: null, says: null }],
  more: 0,
  because: '',
  against: '',
  who: ['controls engineer'],
  proving: '',
  two: false,
  sound: false,
  asItIs: false,
  setByHand: false,
  safeguard: false,
});

const findings = (change: Partial<Findings>): Findings => ({
  repairs: [repair('Fuse blown', 0.7), repair('Switch off', 0.2)],
  foundThere: [],
  more: 0,
  notAsShown: 0.1,
  contradicted: false,
  found: false,
  doubted: [],
  refused: [],
  wantsPairs: false,
  withPairs: false,
  count: 3,
  ...change,
});

const request = {
  entries: [],
  mode: 'standby',
  history: 'worked until now',
  cannot: [],
  pairs: false,
} as const;
const next = engine.next(request)!;

describe('what the job has come to', () => {
  test('says what is found with its certainty', () => {
    const found = findings({ found: true, repairs: [repair('Fuse blown', 0.94)] });
    expect(standingOf(engine.sheet, found, next)).toEqual({
      title: 'Found',
      lines: [
        'Fuse blown: 94 %, very likely.',
        'A test would have come out differently had this not been the cause.',
      ],
    });
  });

  test('below that says what is left, the unmodelled with it, and what would tell', () => {
    const standing = standingOf(engine.sheet, findings({}), next)!;
    expect(standing.title).toBe('Not found yet');
    expect(standing.lines.slice(0, 2)).toEqual([
      'Likeliest: Fuse blown: 70 %, likely.',
      'Left beside it: switch off: 20 %, unlikely; something that is not on the drawing: 10 %, unlikely.',
    ]);
    expect(standing.lines[2]).toMatch(/^What would settle it: \S.*\.$/);
  });

  test('says that no listed test tells more, and nothing of it while one is chosen', () => {
    expect(standingOf(engine.sheet, findings({}), null)!.lines[2]).toMatch(/compare each core/);
    expect(standingOf(engine.sheet, findings({}), undefined)!.lines).toHaveLength(2);
  });

  test('puts what is not on the drawing first where it accounts best for it', () => {
    const standing = standingOf(
      engine.sheet,
      findings({ contradicted: true, notAsShown: 0.8, repairs: [repair('Fuse blown', 0.1)] }),
      next,
    );
    expect(standing).toEqual({
      title: 'Not as drawn',
      lines: [
        'Likeliest: something that is not on the drawing: 80 %, likely.',
        'Of what is drawn: Fuse blown: 10 %, unlikely.',
      ],
    });
  });

  test('says nothing of nothing, nor while pairs are looked for', () => {
    expect(standingOf(engine.sheet, findings({ count: 0 }), next)).toBeNull();
    expect(standingOf(engine.sheet, findings({ wantsPairs: true }), next)).toBeNull();
    expect(
      standingOf(engine.sheet, findings({ wantsPairs: true, withPairs: true }), next),
    ).not.toBeNull();
  });
});

test('the record says what was found, and of what was not found for certain that it was not', () => {
  expect(repairText(repair('Fuse blown', 0.94), true)).toBe('Fuse blown. Replaced it.');
  expect(repairText(repair('Fuse blown', 0.7), false)).toBe(
    'Fuse blown (not found for certain). Replaced it.',
  );
});
