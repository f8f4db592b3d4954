import { launch, openTab, serveFolder } from '../browser/harness.ts';
import { median, table } from './table.ts';

/** How many times slower than this machine the phone is taken to be. */
const SLOWER = 4;
const REPEATS = 7;
/** Words as they are typed: a name, a terminal, a symptom, a typing error. */
const QUERIES = ['mid-position', 'call feed', 'stone cold', 'thermastat'];

/** Phrases typed letter by letter, the field in use and the names read. */
const TYPED = [
  'mid posi valve stuck',
  'no hw',
  'rads cold',
  'orange live valve shut',
  'thermastat',
];
/** Most that the slowest key in twenty may take until its first result, milliseconds. */
const KEY_BOUND_MS = 50;

/** How the keys of all phrases together fared: from the key to its first result in the page. */
async function keysTable(address: string, open: () => ReturnType<typeof openTab>): Promise<string> {
  const times: number[] = [];
  for (let i = 0; i < REPEATS; i++) {
    const tab = await open();
    await tab.page.goto(address, { waitUntil: 'load' });
    times.push(...(await tab.page.evaluate(typeAll, TYPED)));
    await tab.close();
  }
  const sorted = times.toSorted((a, b) => a - b);
  const at = (share: number) => sorted[Math.ceil(sorted.length * share) - 1]!;
  const p95 = at(0.95);
  const rows = [
    [String(times.length), at(0.5).toFixed(1), p95.toFixed(1), at(1).toFixed(1), `${KEY_BOUND_MS}`],
  ];
  const head = ['keys answered', 'median ms', '95th in 100 ms', 'slowest ms', 'bound ms'];
  const verdict = p95 <= KEY_BOUND_MS ? 'within the bound' : 'OVER THE BOUND';
  return `${table(head, rows)}\n95th in 100: ${verdict}.\n`;
}

/** Types each phrase in the page; for each key that shows results, the time until they stand there. */
async function typeAll(phrases: readonly string[]): Promise<number[]> {
  const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
  const field = document.querySelector<HTMLInputElement>('input[name="q"]')!;
  field.focus();
  // The names are fetched and read when the field is gone to, before a thumb finds the first key.
  await pause(1500);
  const times: number[] = [];
  for (const phrase of phrases)
    for (let end = 1; end <= phrase.length; end++) {
      const list = document.querySelector('.search-panel ul')!;
      field.value = phrase.slice(0, end);
      let shown: number | undefined;
      const started = performance.now();
      const watch = new MutationObserver(() => {
        shown ??= performance.now() - started;
      });
      watch.observe(list, { childList: true });
      field.dispatchEvent(new Event('input', { bubbles: true }));
      await pause(80);
      watch.disconnect();
      if (shown !== undefined) times.push(shown);
    }
  return times;
}

/**
 * From the last letter typed on the first page to the first result shown, with nothing loaded
 * before, beside the full-text index by itself: its script, the words, its first page's text.
 */
export async function searchTable(folder = 'dist'): Promise<string> {
  const server = await serveFolder(folder);
  const chromium = await launch();
  const rows: string[][] = [];
  let keys = '';
  const slowTab = async () => {
    const tab = await openTab(chromium.browser, { serviceWorkers: 'block', bypassCSP: true });
    const session = await tab.page.context().newCDPSession(tab.page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
    return tab;
  };
  try {
    keys = await keysTable(server.address, slowTab);
    for (const query of QUERIES) {
      const own: number[] = [];
      const alone: number[] = [];
      for (let i = 0; i < REPEATS; i++) {
        const site = await slowTab();
        await site.page.goto(server.address, { waitUntil: 'load' });
        own.push(
          await site.page.evaluate(
            (words) =>
              new Promise<number>((resolve) => {
                const field = document.querySelector<HTMLInputElement>('input[name="q"]')!;
                const started = performance.now();
                const watch = () => {
                  const result = document.querySelector('.search-panel a.result');
                  if (result) resolve(performance.now() - started);
                  else requestAnimationFrame(watch);
                };
                field.focus();
                field.value = words;
                field.dispatchEvent(new Event('input', { bubbles: true }));
                watch();
              }),
            query,
          ),
        );
        await site.close();

        const bare = await slowTab();
        await bare.page.route('**/plain/', (route) =>
          route.fulfill({ contentType: 'text/html', body: '<!doctype html><title>plain</title>' }),
        );
        await bare.page.goto(`${server.address}plain/`);
        const took = await bare.page.evaluate(async (words) => {
          const started = performance.now();
          const script = '/pagefind/pagefind.js';
          const index = await import(script);
          const { results } = await index.search(words);
          await results[0]?.data();
          return { found: results.length, ms: performance.now() - started };
        }, query);
        if (took.found > 0) alone.push(took.ms);
        await bare.close();
      }
      const ours = median(own);
      const theirs = alone.length > 0 ? median(alone) : null;
      rows.push([
        query,
        ours.toFixed(0),
        theirs?.toFixed(0) ?? 'nothing found',
        theirs === null ? '–' : `${(ours / theirs).toFixed(2)}×`,
      ]);
    }
  } finally {
    await chromium.close();
    await server.stop();
  }
  return `${table(['words', 'first result ms', 'index alone ms', 'ratio'], rows)}

Medians of ${REPEATS}, the two taking turns, processor slowed ${SLOWER}×, nothing loaded before.

Each key of ${TYPED.length} phrases, ${REPEATS} times over, processor slowed ${SLOWER}×, the field in use:

${keys}`;
}
