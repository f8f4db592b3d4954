import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import {
  type ComplaintFigures,
  mostChanged,
  SENSITIVITY,
  sensitivityRows,
} from '../../../src/components/about/sensitivity.ts';
import { OF_NO_SYMPTOM } from '../../../src/components/sequence/words.ts';
import { startsOf } from '../../../src/diagnosis/sequences/index.ts';
import { SEED } from '../../support/property.ts';
import { random } from '../../support/random.ts';
import { shippedSystems } from '../../support/shipped.ts';
import { symptoms } from '../../support/signatures.ts';
import { some } from '../inference/jobs.ts';
import { problemHash, STATES, sensitivityOf } from './sensitivity.ts';

const FILE = fileURLToPath(
  new URL('../../../src/components/about/sensitivity.json', import.meta.url),
);
/** Complaints worked out anew in each run: all of them take some six minutes of processor time. */
const TRIED = 8;

/** Every complaint of every shipped system, worked until now. */
const complaints = shippedSystems().flatMap((system) =>
  startsOf(symptoms, system.network, system.signatures)
    .filter(({ id }) => !OF_NO_SYMPTOM.includes(id))
    .map((start) => ({ system, start })),
);

/** The table as a file: a complaint a line, so that a change shows where it is. */
const written = (figures: readonly ComplaintFigures[]): string =>
  `{ "states": ${STATES}, "complaints": [\n${figures.map((one) => JSON.stringify(one)).join(',\n')}\n] }\n`;

const keptOf = ({ system, start }: (typeof complaints)[number]) =>
  SENSITIVITY.complaints.find((one) => one.system === system.id && one.complaint === start.id);

if (process.env.UPDATE_TABLES) {
  // `all` after a change of the search; otherwise only what is worked out from something else.
  test('the table is written anew', { timeout: 7_200_000 }, () => {
    const figures = complaints.map((one) => {
      const kept = process.env.UPDATE_TABLES === 'all' ? undefined : keptOf(one);
      return kept?.of === problemHash(one.system, one.start)
        ? kept
        : sensitivityOf(one.system, one.start);
    });
    writeFileSync(FILE, written(figures));
    expect(figures.length).toBe(complaints.length);
  });
} else {
  test('the table is of every complaint of every shipped system as it is now, and of no other', () => {
    expect(SENSITIVITY.states).toBe(STATES);
    const told = ({ system, complaint, of }: Omit<ComplaintFigures, 'changes'>) =>
      `${system}, ${complaint}: ${of}`;
    // A difference: UPDATE_TABLES=1, see DEVELOPERS.md.
    expect(SENSITIVITY.complaints.map(told)).toEqual(
      complaints.map(
        ({ system, start }) => `${system.id}, ${start.id}: ${problemHash(system, start)}`,
      ),
    );
  });

  test(`seed ${SEED}: ${TRIED} complaints are as the table says`, () => {
    // A difference: UPDATE_TABLES=all, see DEVELOPERS.md.
    for (const one of some(complaints, TRIED, random(SEED)))
      expect(sensitivityOf(one.system, one.start)).toEqual(keptOf(one));
  });

  test('twice or half of any figure: what changes', () => {
    const rows = sensitivityRows(SENSITIVITY);
    console.table(
      Object.fromEntries(
        rows.map(({ title, of, concerned, first, second, costs }) => [
          `${title} (${of})`,
          {
            complaints: concerned,
            'first ×2': first['×2'],
            'first ÷2': first['÷2'],
            'second ×2': second['×2'],
            'second ÷2': second['÷2'],
            'kept to, at most': `${(100 * costs).toFixed(1)} %`,
          },
        ]),
      ),
    );
    console.table(mostChanged(SENSITIVITY, 12));
    // A table in which nothing changes, or everything, would be of something else.
    expect(rows.some(({ first }) => first['×2'] + first['÷2'] > 0)).toBe(true);
    expect(rows.every(({ concerned, first }) => first['×2'] < concerned)).toBe(true);
  });
}
