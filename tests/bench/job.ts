/**
 * How long a job's answers take on a phone's processor: the engine's own work and the page's,
 * each on a main thread slowed four times in a real browser.
 *
 *     node tests/bench/job.ts [folder of a built site]
 */
import { build } from 'esbuild';
import type { Page } from 'playwright-core';
import { launch, openTab, serveFolder } from '../browser/harness.ts';
import { beginJob } from '../browser/job-steps.ts';
import { median, table } from './table.ts';

/** How many times slower than this machine the phone is taken to be. */
const SLOWER = 4;
const SYSTEM = 'heat-only-condensate-pump';

/** What is measured, milliseconds. */
interface Times {
  readonly what: string;
  readonly engine: readonly number[];
}

/** The engine as one script that hangs itself on the page. */
async function engineScript(): Promise<string> {
  const { outputFiles } = await build({
    stdin: {
      contents: "import { Engine } from './src/job/engine.ts'; globalThis.Engine = Engine;",
      resolveDir: process.cwd(),
      loader: 'ts',
    },
    bundle: true,
    minify: true,
    format: 'iife',
    target: 'es2022',
    write: false,
    treeShaking: true,
  });
  return outputFiles[0]!.text;
}

async function slow(page: Page): Promise<void> {
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
}

/** The engine alone: from an entry to its ranking, and to the next test. */
async function engineTimes(page: Page, site: string): Promise<Times[]> {
  await page.goto(`${site}job/`);
  await page.evaluate(await engineScript());
  await slow(page);
  return page.evaluate(async (system) => {
    type Entry = { id: string; observation: Record<string, unknown> };
    const { Engine } = globalThis as unknown as {
      Engine: new (
        data: unknown,
      ) => {
        find: (request: unknown) => unknown;
        next: (request: unknown) => { asked: Record<string, unknown> } | null | undefined;
        due: (asked: unknown) => { answer: string };
        warm: (asked: unknown) => Iterable<void>;
      };
    };
    const data = await (await fetch(`./${system}.json`)).json();
    const started = performance.now();
    const engine = new Engine(data);
    const opening = performance.now() - started;
    const ranking: number[] = [];
    const next: number[] = [];
    const entries: Entry[] = [];
    const timed = (observation: Record<string, unknown>, into: number[]) => {
      entries.push({ id: String(entries.length), observation });
      const request = { entries: [...entries], mode: observation.mode, pairs: false };
      const start = performance.now();
      engine.find(request);
      into.push(performance.now() - start);
      const ranked = performance.now();
      const proposed = engine.next(request);
      next.push(performance.now() - ranked);
      return proposed;
    };
    // A burner that stays out, then whatever is proposed, each answered as a sound system does.
    let proposed = timed(
      { kind: 'look', mode: 'heating', outcome: 'E1.burner', answer: 'not seen' },
      ranking,
    );
    while (proposed && entries.length < 20) {
      const { current, ...asked } = proposed.asked;
      const { answer } = engine.due(proposed.asked);
      proposed = timed({ ...asked, answer }, ranking);
    }
    // A reading that no list foresaw: worked out while the probes go on, then entered.
    const asked = {
      kind: 'live',
      mode: 'heating',
      from: 'X1.7',
      to: 'X1.2',
      instrument: 'multimeter',
      current: 'ac',
    };
    const preparing = performance.now();
    for (const _ of engine.warm(asked));
    const prepared = performance.now() - preparing;
    const { current, ...rest } = asked;
    const typed: number[] = [];
    timed({ ...rest, answer: { volts: 87, current: 'ac' } }, typed);
    return [
      { what: 'system opened', engine: [opening] },
      { what: 'entry to ranking', engine: ranking },
      { what: 'ranking to next test', engine: next },
      { what: 'preparing a reading on no list', engine: [prepared] },
      { what: 'that reading to its ranking', engine: typed },
    ];
  }, SYSTEM);
}

/** Acts measured on the page. */
const ACTS = 30;

/**
 * The page: from the tap that enters an answer to its ranking painted, worker and all. Looks
 * and readings are answered in the panel; answers alternate, so that rankings move.
 */
async function pageTimes(
  page: Page,
  site: string,
): Promise<{ looks: number[]; readings: number[] }> {
  await page.goto(`${site}job/?system=${SYSTEM}`);
  await beginJob(page);
  await page.waitForSelector('.panel[aria-busy=false]');
  await slow(page);
  const times = { looks: [] as number[], readings: [] as number[] };
  for (let i = 0; i < ACTS; i++) {
    await page.waitForSelector('.panel[aria-busy=false]', { timeout: 20_000 }).catch(() => null);
    const ready = page.locator('.panel[data-test] > .main-act');
    while (await ready.count()) await ready.click();
    if ((await page.locator('.answer-key:enabled').count()) === 0) break;
    const look = (await page.locator('.keys-look').count()) > 0;
    const entered = i + 1;
    const shown = await page.evaluate(
      ([selector, said]) =>
        new Promise<number>((resolve) => {
          const act = document.querySelector<HTMLElement>(selector!)!;
          const start = performance.now();
          const watch = () => {
            const status = document.querySelector('.so-far [role=status]');
            if (status?.textContent?.includes(said!))
              setTimeout(() => resolve(performance.now() - start));
            else requestAnimationFrame(watch);
          };
          act.click();
          watch();
        }),
      [
        look ? `.answer-key:nth-child(${1 + (i % 2)})` : '.answer-key',
        entered === 1 ? 'From one thing' : `From ${entered} things`,
      ],
    );
    (look ? times.looks : times.readings).push(shown);
    await page.waitForTimeout(300);
  }
  return times;
}

/** Measures everything and says it as a table. */
export async function jobTable(folder = 'dist'): Promise<string> {
  const server = await serveFolder(folder);
  const chromium = await launch();
  const tab = await openTab(chromium.browser, { bypassCSP: true, serviceWorkers: 'block' });
  const engine = await engineTimes(tab.page, server.address);
  const page = await pageTimes(await tab.page.context().newPage(), server.address);
  await chromium.close();
  await server.stop();
  const row = (what: string, times: readonly number[]) => [
    what,
    `${times.length}`,
    median(times).toFixed(0),
    (times.toSorted((a, b) => a - b)[Math.ceil(0.95 * times.length) - 1] ?? 0).toFixed(0),
    Math.max(0, ...times).toFixed(0),
  ];
  return `${table(
    ['job, processor slowed 4×', 'times', 'median ms', '95 % ms', 'most ms'],
    [
      ...engine.map(({ what, engine: times }) => row(what, times)),
      row('tap on what is seen to its ranking painted', page.looks),
      row('tap on a reading to its ranking painted', page.readings),
    ],
  )}

On ${SYSTEM}, the largest system. All but the last two rows: the engine
on a slowed main thread. Last two: the page slowed, its engine's worker not, for the browser
slows no worker; the first row's entry to ranking is what a slow worker adds.
`;
}

if (import.meta.main) process.stdout.write(await jobTable(process.argv[2]));
