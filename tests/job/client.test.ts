import { afterEach, expect, test, vi } from 'vitest';
import { startEngine } from '../../src/job/client.ts';
import type { Request } from '../../src/job/engine.ts';
import type { Findings } from '../../src/job/findings.ts';
import type { FromEngine, ToEngine } from '../../src/job/messages.ts';
import { systemForJob } from './systems.ts';

const { engine } = systemForJob('combi-two-wire');

/** A worker that answers what and when the test says. */
class Told {
  static made: Told[] = [];
  readonly heard: ToEngine[] = [];
  #listen: ((event: { data: FromEngine }) => void) | undefined;
  constructor() {
    Told.made.push(this);
  }
  addEventListener(type: string, listen: (event: { data: FromEngine }) => void): void {
    if (type === 'message') this.#listen = listen;
  }
  postMessage(message: ToEngine): void {
    this.heard.push(message);
  }
  terminate(): void {}
  says = (data: FromEngine): void => this.#listen!({ data });
}

const looking = (answer: 'seen' | 'not seen'): Omit<Request, 'pairs'> => ({
  history: 'worked until now',
  cannot: [],
  entries: [
    {
      id: 'e1',
      observation: { kind: 'look', mode: 'heating', outcome: 'E1.burner', answer },
    },
  ],
  mode: 'heating',
});
const findings = (wantsPairs: boolean, withPairs = false): Findings => ({
  ...engine.find({
    history: 'worked until now',
    cannot: [],
    entries: [],
    mode: 'heating',
    pairs: false,
  }),
  wantsPairs,
  withPairs,
});

/** A client whose second worker is looking for pairs. */
function seeking() {
  Told.made = [];
  vi.stubGlobal('Worker', Told);
  const found: Findings[] = [];
  const client = startEngine(
    { address: 'https://site.test/data.json' },
    {
      opened: () => undefined,
      standing: () => undefined,
      drawn: () => undefined,
      failed: (reason) => expect.unreachable(reason),
      found: (own) => found.push(own),
      next: () => undefined,
      due: () => undefined,
      path: () => undefined,
      shown: () => undefined,
    },
  );
  const [singles] = Told.made as [Told];
  singles.says({ type: 'opened', sheet: engine.sheet });
  client.find(looking('seen'));
  singles.says({ type: 'found', number: 1, findings: findings(true) });
  const pairs = Told.made[1]!;
  pairs.says({ type: 'opened', sheet: engine.sheet });
  return { client, found, singles, pairs };
}

afterEach(() => vi.unstubAllGlobals());

test('what a repair leaves is asked of the worker that ranked it', () => {
  const { client, singles, pairs } = seeking();
  const asked = (worker: Told) => worker.heard.filter(({ type }) => type === 'path').length;
  client.path('one');
  expect([asked(singles), asked(pairs)]).toEqual([1, 0]);
  pairs.says({ type: 'found', number: 1, findings: findings(true, true) });
  client.path('one');
  expect([asked(singles), asked(pairs)]).toEqual([1, 1]);
  client.find(looking('not seen'));
  singles.says({ type: 'found', number: 2, findings: findings(false) });
  client.path('one');
  expect([asked(singles), asked(pairs)]).toEqual([2, 1]);
});

test('while pairs are looked for, the next reading is ranked by a worker that is free', () => {
  const { client, found, singles, pairs } = seeking();
  expect(pairs.heard.at(-1)).toEqual({
    type: 'find',
    number: 1,
    request: { ...looking('seen'), pairs: true },
  });
  client.find(looking('not seen'));
  expect(singles.heard.at(-1)).toEqual({
    type: 'find',
    number: 2,
    request: { ...looking('not seen'), pairs: false },
  });
  const ranked = findings(false);
  singles.says({ type: 'found', number: 2, findings: ranked });
  expect(found.at(-1)).toBe(ranked);
  expect(Told.made).toHaveLength(2);
});

test('a search that nobody waits for is dropped, and its answer is not shown', () => {
  const { client, found, singles, pairs } = seeking();
  client.find(looking('not seen'));
  expect(pairs.heard.at(-1)).toEqual({ type: 'drop' });
  const before = found.length;
  pairs.says({ type: 'found', number: 1, findings: findings(true, true) });
  expect(found).toHaveLength(before);
  // The next search begins at once, and is the one that is heard.
  singles.says({ type: 'found', number: 2, findings: findings(true) });
  expect(pairs.heard.at(-1)).toEqual({
    type: 'find',
    number: 2,
    request: { ...looking('not seen'), pairs: true },
  });
  pairs.says({ type: 'found', number: 1, findings: findings(true, true) });
  expect(found.at(-1)!.withPairs).toBe(false);
  pairs.says({ type: 'found', number: 2, findings: findings(true, true) });
  expect(found.at(-1)!.withPairs).toBe(true);
});
