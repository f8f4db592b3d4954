import { describe, expect, it } from 'vitest';
import { Standard } from '../../schemas/index.ts';
import { simulate } from '../../src/circuit/index.ts';
import { checkEntries, formatProblems } from '../../src/entries/index.ts';
import { judge } from '../../src/standards/index.ts';
import { edited, inMemory, ROOT } from '../entries/fixture.ts';
import { circuit } from '../support/notation.ts';

const PLAIN = 'systems/plain-bench.mdx';
const FUSE = 'standards/small-fuse.mdx';

/** The bench with a fuse that its standard does not allow, and exceptions to it. */
const bench = (...exceptions: readonly string[]) =>
  edited(
    PLAIN,
    ['ratings: { fuse: 3 }', 'ratings: { fuse: 13 }'],
    ['checked: 2025-03-01', `exceptions: [${exceptions.join(', ')}]\nchecked: 2025-03-01`],
  );
/** The same, with a standard that is about some systems only. */
const about = (applies: string) => ({
  ...bench(),
  [FUSE]: edited(FUSE, ['review:', `applies: ${applies}\nreview:`])[FUSE]!,
});
const exception = (more: string) =>
  `{ standard: small-fuse, why: An older bench, by: The bench, ${more} }`;
const YEAR = 'from: "2026-01-01", until: "2026-12-31"';

const checked = (folder: ReturnType<typeof edited>, today: string) => {
  const { problems, warnings, judgements } = checkEntries(ROOT, inMemory(folder), { today });
  const [judgement] = judgements.get('plain-bench') ?? [];
  return {
    codes: problems.map(({ code }) => code),
    warned: warnings.map(({ code }) => code),
    judgement: judgement!,
  };
};

describe('an exception', () => {
  it.each(['2026-01-01', '2026-07-01', '2026-12-31'])('covers its breach on %s', (today) => {
    const { codes, warned, judgement } = checked(bench(exception(YEAR)), today);
    expect([codes, warned, judgement.state]).toEqual([[], [], 'excepted']);
    expect(judgement.excepted).toMatchObject([
      { at: 'Q1', exception: { why: 'An older bench', by: 'The bench', until: '2026-12-31' } },
    ]);
  });

  it.each(['2025-12-31', '2027-01-01'])('does not on %s', (today) => {
    const { codes, judgement } = checked(bench(exception(YEAR)), today);
    expect(codes).toEqual(['standard-breached', 'exception-out-of-date']);
    expect(judgement.state).toBe('breached');
  });

  it('is of its own standard alone', () => {
    const other = edited(FUSE, ['title: The bench', 'title: Every bench'], ['Thin leads', 'Leads'])[
      FUSE
    ]!;
    const folder = { ...bench(exception(YEAR)), 'standards/other-fuse.mdx': other };
    const { judgements } = checkEntries(ROOT, inMemory(folder), { today: '2026-07-01' });
    expect(
      judgements.get('plain-bench')!.map(({ standard, state, said }) => [standard, state, said]),
    ).toEqual([
      ['other-fuse', 'breached', ''],
      ['small-fuse', 'excepted', ''],
    ]);
  });

  it.each([
    ['2025-12-31', 'not begun'],
    ['2026-01-01', undefined],
    ['2026-12-31', undefined],
    ['2027-01-01', 'ended'],
  ])('on %s is of use or says why not: %s', (today, because) => {
    const { judgement } = checked(bench(exception(YEAR)), today);
    expect(judgement.idle.map((one) => one.because)).toEqual(because ? [because] : []);
  });

  it('may be followed by another, and the one that has ended is then no breach', () => {
    const next = exception('from: "2027-01-01", until: "2027-12-31"');
    const { codes, judgement } = checked(bench(exception(YEAR), next), '2027-06-01');
    expect([codes, judgement.state]).toEqual([[], 'excepted']);
  });

  it.each(['Q1', 'W3.BU', 'W3'])('may be narrowed, here to %s', (at) => {
    const { codes, warned } = checked(bench(exception(`at: [${at}], ${YEAR}`)), '2026-07-01');
    expect(codes).toEqual(at === 'Q1' ? [] : ['standard-breached']);
    expect(warned).toEqual(at === 'Q1' ? [] : ['exception-unneeded']);
  });

  it('that covers nothing is told, and does not fail', () => {
    const folder = edited(PLAIN, [
      'checked: 2025-03-01',
      `exceptions:\n  - ${exception(YEAR)}\nchecked: 2025-03-01`,
    ]);
    const { problems, warnings } = checkEntries(ROOT, inMemory(folder), { today: '2026-07-01' });
    expect(problems).toEqual([]);
    expect(
      formatProblems(warnings),
    ).toBe(`systems/plain-bench.mdx:65:17  warning: exception-unneeded
  this exception to small-fuse covers nothing: the system meets it
  at       exceptions[0].standard
  found    small-fuse

    63 |       E1.display: false
    64 | exceptions:
  > 65 |   - { standard: small-fuse, why: An older bench, by: The bench, from: "2026-01-01", until: "2026…
       |                 ^
    66 | checked: 2025-03-01
    67 | version: 1`);
  });
});

describe('a breach', () => {
  it('of advice is told, and does not fail', () => {
    const folder = {
      ...bench(),
      [FUSE]: edited(FUSE, ['severity: danger', 'severity: advice'])[FUSE]!,
    };
    const { codes, warned, judgement } = checked(folder, '2026-07-01');
    expect([codes, warned]).toEqual([[], ['standard-breached']]);
    expect(judgement.state).toBe('breached');
  });

  it.each([
    ['{ arrangements: [system, heat-only] }', 'it is about system or heat-only boilers'],
    [
      '{ controls: [wireless control, volt-free control] }',
      'it is about wireless control or volt-free control',
    ],
    [
      '{ features: [condensate pump, wiring centre] }',
      'it is about systems with condensate pump or wiring centre',
    ],
    [
      '{ arrangements: [combi], features: [wiring centre] }',
      'it is about systems with wiring centre',
    ],
  ])('is none in a system the standard is not about: %s', (applies, said) => {
    const { codes, judgement } = checked(about(applies), '2026-07-01');
    expect(codes).toEqual([]);
    expect(judgement).toMatchObject({ state: 'does not apply', said });
  });

  it.each([
    '{ arrangements: [heat-only, combi] }',
    '{ controls: [wireless control, two-wire control] }',
    '{ features: [condensate pump, wiring centre] }',
  ])('is one in a system that has one of each list: %s', (applies) => {
    const folder = {
      ...about(applies),
      [PLAIN]: edited(
        PLAIN,
        ['ratings: { fuse: 3 }', 'ratings: { fuse: 13 }'],
        ['control: two-wire control', 'control: two-wire control\nfeatures: [wiring centre]'],
      )[PLAIN]!,
    };
    expect(checked(folder, '2026-07-01').judgement.state).toBe('breached');
  });

  it('is none where nothing is fed', () => {
    const dark = simulate(
      circuit('B1 contact: contact COM NO { closed: calling }\n mode standby:'),
    );
    const rule = { check: 'volt drop', most: 5 };
    const standard = Standard.parse({
      title: 'Little is lost',
      summary: 'Motors want their volts',
      severity: 'fault',
      rule,
      sources: ['common practice, no source'],
    });
    expect(judge([{ id: 'drop', standard }], dark, '2026-07-01')).toMatchObject([
      { standard: 'drop', state: 'does not apply', said: 'the circuit has no supply' },
    ]);
  });

  it('names what it is found at as the entry does', () => {
    const folder = edited(PLAIN, ['BN: [Q1.L out, E1.L]', 'BN: [Q1.L in, E1.L]']);
    const { judgement } = checked(folder, '2026-07-01');
    expect(judgement.findings).toMatchObject([
      { at: 'E1', mend: 'Feed the bench heater E1 from the load side of a fused spur' },
    ]);
  });
});

describe('a review that is overdue', () => {
  const folder = edited(FUSE, ['2095-03-01', '2026-03-01']);
  const on = (today: string, overdue?: 'warn' | 'fail') =>
    checkEntries(ROOT, inMemory(folder), { today, ...(overdue ? { overdue } : {}) });

  it('is told from the day after it was due', () => {
    expect(on('2026-03-01').warnings).toEqual([]);
    expect(on('2026-03-02').problems).toEqual([]);
    expect(
      formatProblems(on('2026-03-02').warnings),
    ).toBe(`standards/small-fuse.mdx:8:49  warning: review-overdue
  the review was due on 2026-03-01; The bench made the last one on 2025-03-01
  at       review.due
  found    2026-03-01
  allowed  2026-03-02 or later

     6 |   check: fuse rating
     7 |   ratings: [3]
  >  8 | review: { by: The bench, on: "2025-03-01", due: "2026-03-01" }
       |                                                 ^
     9 | sources:
    10 |   - common practice, no source`);
  });

  it('fails where that is asked for', () => {
    const { problems, warnings } = on('2026-03-02', 'fail');
    expect(problems.map(({ code }) => code)).toEqual(['review-overdue']);
    expect(warnings).toEqual([]);
  });
});
