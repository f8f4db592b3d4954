import type { PartsData } from '../composer/parts-data.ts';
import type { JobData } from '../job/job-data.ts';
import { compared } from './compare.ts';
import { composedSide, entrySide, type Side } from './first-acts.ts';
import type { FromComparing, SideSource, ToComparing } from './messages.ts';

/** Complaints of which the first act is said, the commonest first. */
const MOST_COMPLAINTS = 6;

let latest = 0;
const say = (message: FromComparing) => self.postMessage(message);
const turn = () => new Promise<void>((resolve) => setTimeout(resolve));

self.addEventListener('message', ({ data }: MessageEvent<ToComparing>) => {
  latest = data.number;
  void answer(data).catch((failure: unknown) =>
    say({
      type: 'failed',
      number: data.number,
      reason: failure instanceof Error ? failure.message : String(failure),
    }),
  );
});

async function fetched<T>(address: string): Promise<T> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address} answered ${response.status}`);
  return (await response.json()) as T;
}

async function sideOf(source: SideSource, parts: PartsData): Promise<Side> {
  return 'specification' in source
    ? composedSide(source.specification, parts)
    : entrySide(await fetched<JobData>(source.address), parts);
}

async function answer({ number, a, b, parts: address }: ToComparing): Promise<void> {
  const parts = await fetched<PartsData>(address);
  const [one, two] = [await sideOf(a, parts), await sideOf(b, parts)];
  say({
    type: 'compared',
    number,
    comparison: compared(one.simulation, two.simulation),
    standing: [one.standing, two.standing],
    wrong: [one.wrong, two.wrong],
  });
  const shared = Object.entries(parts.symptoms)
    .filter(([id]) => one.shows[id]?.length && two.shows[id]?.length)
    .toSorted(([, x], [, y]) => rank(x.common) - rank(y.common))
    .slice(0, MOST_COMPLAINTS);
  for (const [id, { words }] of shared) {
    await turn();
    if (latest !== number) return;
    const act = { what: words, a: one.first(one.shows[id]!), b: two.first(two.shows[id]!) };
    say({ type: 'first', number, act });
  }
  say({ type: 'done', number });
}

const rank = (common: number): number => common || Number.POSITIVE_INFINITY;
