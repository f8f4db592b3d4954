import { launch } from '../src/publish/browser.ts';
import { serve } from '../src/cli/serve.ts';
import { mkdirSync, readFileSync } from 'node:fs';
const [,, out='/tmp/walk', query='?system=combi-two-wire'] = process.argv;
mkdirSync(out,{recursive:true});
const server = await serve({ root: 'dist', port: 0 });
const ob = await launch();
const ctx = await ob.browser.newContext({ viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true, colorScheme: process.env.DARK ? 'dark' : 'light', serviceWorkers: 'block' });
const page = await ctx.newPage();
page.on('console', (m) => ['error','warning'].includes(m.type()) && console.log('CONSOLE', m.text()));
page.on('pageerror', (e) => console.log('ERROR', e.message));
let n = 0; const files: string[] = [];
const shot = async (label='') => { const f = `${out}/${String(n++).padStart(2,'0')}.png`; await page.screenshot({ path: f }); files.push(f); const h = await page.evaluate(()=>[document.documentElement.scrollHeight, scrollY]); console.log(n-1, label, h.join(' ')); };
await page.goto(`${server.address}job/${query}`); await page.waitForTimeout(600); await shot('begin');
for (const step of process.argv.slice(4)) {
  try {
    if (step === 'shot') { await shot(step); continue; }
    if (step.startsWith('scroll')) { await page.evaluate((y) => scrollTo(0, y), Number(step.slice(6))); await page.waitForTimeout(200); await shot(step); continue; }
    await page.locator(step).first().tap({ timeout: 3000 }); await page.waitForTimeout(500); await shot(step);
  } catch (e) { console.log('FAILED', step, String(e).slice(0, 200)); await shot('failed'); break; }
}
const sheet = await ctx.newPage();
const cols = 6; const rows = Math.ceil(files.length / cols);
await sheet.setViewportSize({ width: Math.min(files.length, cols) * 366, height: rows * 746 });
await sheet.setContent(`<body style="margin:0;display:flex;flex-wrap:wrap;background:#888">${files.map((f) => `<img style="width:360px;height:740px;margin:3px" src="data:image/png;base64,${readFileSync(f).toString('base64')}">`).join('')}`);
await sheet.screenshot({ path: `${out}/sheet.png` });
await ob.close(); await server.stop();
