import { readFileSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { rank, SOUND, verdict } from '../../../src/diagnosis/inference/index.ts';
import { certaintyText } from '../../../src/published/index.ts';
import { random } from '../../support/random.ts';
import { brier, type Decile, deciles, logScore } from '../../support/scores.ts';
import { endedJob, modelOf } from './jobs.ts';
import { isAt, type Unmodelled, unmodelledOf } from './unmodelled.ts';
import { type Visit, Visits } from './visits.ts';

/** Seed of the table that the contributors' guide publishes: the same visits for everyone. */
const SEED = 20_260_228;

/** Faults of each of four kinds outside the model, by system. */
const OUTSIDE = [
  ['combi-two-wire', 8],
  ['combi-wireless', 5],
  ['heat-only-mid-position', 3],
] as const;

/** The surest word of the scale that a wrong cause may be given: likely, up to 90 %. */
const SURE = 0.9;

interface Outcome {
  readonly fault: Unmodelled;
  readonly how:
    | 'not as shown'
    | 'not sure'
    | 'no fault found'
    | 'right repair'
    | 'confidently wrong';
  readonly told: string;
}

function outcomeOf(id: string, fault: Unmodelled): Outcome {
  const open = endedJob(modelOf(id), fault.row);
  const ranking = rank(open);
  const top = ranking.repairs[0]!;
  const said = `${top.explanations[0]!.hypothesis.id}: ${certaintyText(top.share)}`;
  const how = isAt(top, fault.at)
    ? 'right repair'
    : verdict(open).kind === 'not as shown'
      ? 'not as shown'
      : top.share <= SURE
        ? 'not sure'
        : top.key === SOUND
          ? 'no fault found'
          : 'confidently wrong';
  const beyond = `not modelled: ${certaintyText(ranking.notAsShown)}`;
  return { fault, how, told: `${id}, ${fault.kind}, ${fault.title}: ${how} (${said}; ${beyond})` };
}

test('of at least 60 faults outside the model none is confidently taken for another', () => {
  const outcomes = OUTSIDE.flatMap(([id, each]) =>
    unmodelledOf(modelOf(id), each).map((fault) => outcomeOf(id, fault)),
  );
  console.info(outcomes.map(({ told }) => told).join('\n'));
  expect(outcomes.length).toBeGreaterThanOrEqual(60);
  expect(new Set(outcomes.map(({ fault }) => fault.kind)).size).toBe(4);
  expect(outcomes.filter(({ how }) => how === 'confidently wrong').map(({ told }) => told)).toEqual(
    [],
  );
});

/** Visits by system: most on small ones, which are quick, a share on the largest. */
const VISITS = [
  { id: 'combi-two-wire', count: 2200, pool: { unmodelled: 15, doubles: 6 } },
  { id: 'combi-volt-free', count: 2400, pool: { unmodelled: 15, doubles: 6 } },
  { id: 'combi-wireless', count: 350, pool: { unmodelled: 5, doubles: 4 } },
  { id: 'heat-only-condensate-pump', count: 50, pool: { unmodelled: 1, doubles: 1 } },
] as const;
/** Visits drawn one after the other from one seed. */
const AT_ONCE = 200;
/** Visits that a tenth must hold to be judged, and how far it may be off. */
const ENOUGH = 100;
const CLOSE = 0.05;

const GUIDE = new URL('../../../DEVELOPERS.md', import.meta.url);
const [BEGIN, END] = ['<!-- certainty -->\n', '<!-- /certainty -->'];

test('over 5,000 visits what is stated is so at least as often as it is stated', () => {
  const visits = VISITS.flatMap(({ id, count, pool }) => {
    const place = new Visits(id, pool, random(SEED));
    let pick = random(SEED);
    return Array.from({ length: count }, (_, i) => {
      if (i % AT_ONCE === 0) pick = random(SEED + i + 1);
      return place.visit(pick);
    });
  });
  const table = tableOf(visits);
  console.info(table);
  expect(visits.length).toBe(5000);
  expect(share(visits, ({ unmodelled }) => unmodelled)).toBeGreaterThan(0.18);
  expect(share(visits, ({ misread }) => misread)).toBeGreaterThan(0.14);
  // Too sure misleads; too modest costs a reading. The tables show both.
  const tooSure = deciles(visits).filter(
    ({ count, stated, right }) => count >= ENOUGH && stated - right > CLOSE,
  );
  expect(tooSure).toEqual([]);
  // Of what the entry does model, it is neither: what is stated is within chance of what was so.
  const off = deciles(modelled(visits)).filter(
    ({ count, stated, low, high }) =>
      count >= ENOUGH && (stated < low - CLOSE || stated > high + CLOSE),
  );
  expect(off).toEqual([]);
  if (process.env.WRITE_GUIDE) writeGuide(table);
  expect(published()).toBe(table);
});

const share = (visits: readonly Visit[], of: (visit: Visit) => boolean): number =>
  visits.filter(of).length / visits.length;

const percent = (value: number): string => `${(100 * value).toFixed(1)} %`;

const modelled = (visits: readonly Visit[]): Visit[] =>
  visits.filter(({ unmodelled }) => !unmodelled);

const rowsOf = (visits: readonly Visit[]): string[] => [
  '| stated | visits | mean stated | was so | 95 % interval |',
  '| --- | --- | --- | --- | --- |',
  ...deciles(visits).map(
    ({ tenth, count, stated, right, low, high }: Decile) =>
      `| ${10 * tenth} to ${10 * tenth + 10} % | ${count} | ${percent(stated)} | ${percent(right)} | ${percent(low)} to ${percent(high)} |`,
  ),
];

function tableOf(visits: readonly Visit[]): string {
  return [
    'All visits:',
    '',
    ...rowsOf(visits),
    '',
    'Of them those with what the entry models:',
    '',
    ...rowsOf(modelled(visits)),
    '',
    `${visits.length} visits; in ${percent(share(visits, ({ unmodelled }) => unmodelled))} of them something that no entry models, in ${percent(share(visits, ({ misread }) => misread))} a misreading. Brier score ${brier(visits).toFixed(3)}, log score ${logScore(visits).toFixed(3)}.`,
    '',
  ].join('\n');
}

function published(): string {
  const text = readFileSync(GUIDE, 'utf8');
  return text.slice(text.indexOf(BEGIN) + BEGIN.length, text.indexOf(END));
}

function writeGuide(table: string): void {
  const text = readFileSync(GUIDE, 'utf8');
  const [from, to] = [text.indexOf(BEGIN) + BEGIN.length, text.indexOf(END)];
  writeFileSync(GUIDE, text.slice(0, from) + table + text.slice(to));
}
