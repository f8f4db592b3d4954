import { afterEach, expect, test, vi } from 'vitest';
import { needsPairs, type Observation } from '../../src/diagnosis/inference/index.ts';
import { Engine, type Request } from '../../src/job/engine.ts';
import type { FromEngine, ToEngine } from '../../src/job/messages.ts';
import { modelOf, reported } from '../diagnosis/inference/jobs.ts';
import { systemForJob } from './systems.ts';

const ID = 'combi-two-wire';
const { data } = systemForJob(ID);

/** Reports of faults laid over one another until no one of them explains enough. */
function needingPairs(): Observation[] {
  const model = modelOf(ID);
  const sound = model.singles.at(-1)!.row!;
  const rows = model.singles.flatMap(({ row }) => row ?? []);
  for (const one of rows)
    for (const other of rows) {
      const observations = model.tests.map((test, at) =>
        reported(test, one[at] === sound[at] ? other[at]! : one[at]!),
      );
      if (needsPairs(model, observations)) return observations;
    }
  throw new RangeError('some single fault explains any two');
}
const observations = needingPairs();
const request = (count: number, pairs: boolean): Request => ({
  history: 'worked until now',
  cannot: [],
  entries: observations.slice(0, count).map((observation, i) => ({ id: `e${i}`, observation })),
  mode: observations[0]!.mode,
  pairs,
});

afterEach(() => vi.unstubAllGlobals());

test('a search for pairs is left off when another message comes, and the other is answered', async () => {
  const said: FromEngine[] = [];
  let tell: (message: ToEngine) => void = () => undefined;
  vi.stubGlobal('self', {
    postMessage: (message: FromEngine) => said.push(message),
    addEventListener: (_: string, listen: (event: { data: ToEngine }) => void) => {
      tell = (message) => listen({ data: message });
    },
  });
  vi.stubGlobal('fetch', async () => ({ ok: true, json: async () => data }));
  // By a clock a hundred times as fast, so that a search is paused often however fast it is.
  const now = performance.now.bind(performance);
  vi.spyOn(performance, 'now').mockImplementation(() => now() * 100);
  await import('../../src/job/worker.ts');
  tell({ type: 'open', address: 'https://site.test/data.json' });
  await vi.waitFor(() => expect(said.at(-1)?.type).toBe('opened'));
  const all = observations.length;
  tell({ type: 'find', number: 1, request: request(all, true) });
  await new Promise((resume) => setTimeout(resume, 20));
  expect(said).toHaveLength(1);
  tell({ type: 'find', number: 2, request: request(all - 1, false) });
  expect(said.at(-1)).toMatchObject({ type: 'found', number: 2 });
  vi.restoreAllMocks();
  tell({ type: 'find', number: 3, request: request(all, true) });
  await vi.waitFor(() => expect(said.at(-1)).toMatchObject({ type: 'next', number: 3 }), 60_000);
  expect(said.some((message) => 'number' in message && message.number === 1)).toBe(false);
});

test('found a little at a time, the pairs are those found at once', () => {
  const asked = request(observations.length, true);
  const bySteps = new Engine(data);
  let steps = 0;
  for (const _ of bySteps.seek(asked)) steps += 1;
  expect(steps).toBeGreaterThan(100);
  expect(bySteps.find(asked)).toEqual(new Engine(data).find(asked));
});

test('without pairs asked for, none is looked for', () => {
  const engine = new Engine(data);
  const asked = request(observations.length, false);
  const { wantsPairs, withPairs, repairs } = engine.find(asked);
  expect({ wantsPairs, withPairs }).toEqual({ wantsPairs: true, withPairs: false });
  expect(repairs.some(({ two }) => two)).toBe(false);
  expect(engine.next(asked)).toBeUndefined();
});
