import { describe, expect, test } from 'vitest';
import { blownInAll, HISTORIES, seenInAll } from '../../src/diagnosis/index.ts';
import { ANSWERS } from '../../src/diagnosis/inference/index.ts';
import type { Next, Step, TestSequence } from '../../src/diagnosis/sequences/index.ts';
import { addEntry, type Job, newJob } from '../../src/job/job.ts';
import { Job as JobSchema } from '../../src/job/job-schema.ts';
import { reported } from '../diagnosis/inference/jobs.ts';
import { isAnswer } from '../support/answers.ts';
import { tried } from '../support/property.ts';
import { shippedSystem, shippedSystems } from '../support/shipped.ts';
import { systemForJob } from './systems.ts';

const SYSTEMS = tried(
  shippedSystems().map(({ id }) => id),
  2,
);
/** Faults of each start that are walked: the first, the last and those between, evenly. */
const FAULTS = 3;

/** Tests that a published sequence asks of a circuit that answers so, to its end. */
function printed(sequence: TestSequence, answerOf: (test: string) => string): string[] {
  const asked: string[] = [];
  for (let at: Next | undefined = sequence.first; at?.kind === 'step'; ) {
    const { test: made, answers }: Step = sequence.steps[at.number - 1]!;
    asked.push(made.id);
    const own = answerOf(made.id);
    const taken: Next | undefined = answers.find(({ answer }) => isAnswer(answer, own))?.next;
    at = own === 'found' ? undefined : taken;
  }
  return asked;
}

describe.each(SYSTEMS)('a visit begun on a published sequence of %s', (id) => {
  const system = shippedSystem(id);
  const { engine } = systemForJob(id);
  const { tests } = system.signatures;
  const placeOf = new Map(tests.map((one, place) => [one.id, place]));
  const { sheet } = engine;

  /** What the engine asks next of a visit as it stands; pairs of faults where they are needed. */
  const nextOf = ({ entries, mode, history, cannot, sequence }: Job) => {
    const request = { entries, mode, history, cannot, sequence, pairs: false };
    const next = engine.next(request);
    return (next === undefined ? engine.next({ ...request, pairs: true }) : next)?.id;
  };

  test.each([
    [HISTORIES[0], system.starts, system.sequences],
    [HISTORIES[1], system.startsSinceWork, system.sequencesSinceWork],
  ] as const)('%s: asks what is printed, whatever the answers', (history, starts, sequences) => {
    let walked = 0;
    starts.forEach(({ id: sequence, open, shows, mode }, i) => {
      const begun = newJob(
        { id: sheet.id, title: sheet.title, wiring: sheet.wiring, mode },
        {
          name: '',
          place: '',
          history,
          sequence,
          seen: seenInAll(shows, tests),
          blown: blownInAll(shows, tests),
        },
      );
      expect(JobSchema.parse(begun)).toEqual(begun);
      const told = new Set(begun.entries.map(({ observation }) => JSON.stringify(observation)));
      const every = Math.ceil(open.length / FAULTS);
      for (const { answers } of open.filter((_, k) => k % every === 0)) {
        const answerOf = (test: string) => answers[placeOf.get(test)!]!;
        let job = begun;
        for (const asked of printed(sequences[i]!, answerOf)) {
          const made = tests[placeOf.get(asked)!]!;
          const answer = reported(made, ANSWERS.indexOf(answerOf(asked)));
          // What the complaint says is not asked again.
          if (told.has(JSON.stringify(answer))) continue;
          expect(nextOf(job), `${sequence}, after ${job.entries.length} answers`).toBe(asked);
          job = addEntry(job, answer);
          walked += 1;
        }
      }
    });
    expect(walked).toBeGreaterThan(50);
  });

  test('leaves it where a step cannot be done, and goes round it', () => {
    const begun = newJob(
      { id: sheet.id, title: sheet.title, wiring: sheet.wiring, mode: system.starts[0]!.mode },
      { name: '', place: '', sequence: 'fuse-blows' },
    );
    const first = nextOf(begun)!;
    const round = nextOf({ ...begun, cannot: [first] });
    expect(round).toBeDefined();
    expect(round).not.toBe(first);
  });
});
