import { launch, openTab, serveFolder } from '../browser/harness.ts';
import { median, table } from './table.ts';

/** How many times slower than this machine the phone is taken to be. */
const SLOWER = 4;
const REPEATS = 7;
/** Words as they are typed: a name, a terminal, a symptom, a typing error. */
const QUERIES = ['mid-position', 'call feed', 'stone cold', 'thermastat'];

/**
 * From the last letter typed on the first page to the first result shown, with nothing loaded
 * before, beside the full-text index by itself: its script, the words, its first page's text.
 */
export async function searchTable(folder = 'dist'): Promise<string> {
  const server = await serveFolder(folder);
  const chromium = await launch();
  const rows: string[][] = [];
  const slowTab = async () => {
    const tab = await openTab(chromium.browser, { serviceWorkers: 'block', bypassCSP: true });
    const session = await tab.page.context().newCDPSession(tab.page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
    return tab;
  };
  try {
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
`;
}
