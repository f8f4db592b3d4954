import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { readManifest } from './harness.ts';
import { isSound, offlinePhone, phone } from './phone.ts';
import { siteInBrowser } from './site.ts';

const site = siteInBrowser();

const COMBI = '#v=1&heat=combi-mains-call&heating=wireless-receiver&additions=condensate-pump';
/** A control that sends its own live, on a boiler’s extra-low-voltage pair. */
const MAINS_ON_A_PAIR = '#v=1&heat=combi-volt-free&heating=room-stat-mains';

/** The key of an answer by its title. */
const key = (page: Page, title: string) =>
  page.locator('.part-key', { has: page.locator(`b:text-is("${title}")`) });

/** Taps answers one after another, each once its question is there. */
async function answer(page: Page, ...steps: readonly (readonly [asks: string, title: string])[]) {
  for (const [asks, title] of steps) {
    await page.locator('h1', { hasText: asks }).waitFor();
    await key(page, title).tap();
  }
}

const TO_A_COMBI = [
  ['Which kind of boiler', 'Combi boiler'],
  ['How is the boiler called', 'Combi boiler, mains call'],
  ['What makes the call', 'The controls themselves'],
  ['hot-water cylinder', 'No cylinder'],
  ['How many heating zones', 'One'],
  ['Which valve opens', 'No valve of its own'],
  ['programmer or time switch', 'None'],
] as const;

const standing = (page: Page) => page.locator('.standing-line').textContent();
const title = (page: Page) => page.locator('h1:visible').textContent();

/** A phone of a fresh profile at an address of the page. */
async function opened(address: string, options: Parameters<typeof phone>[1] = {}) {
  const { context, said } = await phone(site.chromium, { serviceWorkers: 'block', ...options });
  const page = await context.newPage();
  await page.goto(`${site.server.address}compose/${address}`);
  const heard = () => said.filter((line) => !/service ?worker/i.test(line));
  return { page, heard, close: () => context.close() };
}

describe('a system from its parts, on a phone', () => {
  test('is composed to a reading without a signal, and stands in the address', async () => {
    const { page, said, context, site: home } = await offlinePhone(site.chromium, {});
    await page.goto(home);
    await page.getByText('From its parts', { exact: true }).tap();
    await page.getByText('before one comes off').waitFor();
    await isSound(page);
    await answer(page, ...TO_A_COMBI, ['What calls for heating', 'Wireless receiver']);
    await page.locator('h1', { hasText: 'condensate pump' }).waitFor();
    await isSound(page);
    await key(page, "Condensate pump in the boiler's supply").tap();
    await page.getByText('Nothing more, the rest as usual').tap();
    await page.locator('.standing-line').waitFor();
    expect(new URL(page.url()).hash).toBe(COMBI);
    await expect
      .poll(() => standing(page))
      .toMatch(
        /^Composed from parts\. Circuit computed; \d+ house standards met; [\d,]+ combinations of conditions agree with what must happen\. No person has reviewed/,
      );
    await isSound(page);
    await page.getByRole('button', { name: /^Readings/ }).tap();
    // Cautions stand before the first reading.
    const order = await page.locator('.cautions:visible, .readings-table').all();
    expect(await order[0]!.textContent()).toMatch(/prove dead.*GS38/s);
    const feed = page.locator('#readings tr', { hasText: 'live to stat to N' }).locator('.chosen');
    expect(await feed.textContent()).toContain('230 live');
    const call = page.locator('#readings tr', { hasText: 'switched live back to N' });
    expect(await call.first().locator('.chosen').textContent()).toContain('no volts');
    await isSound(page);
    // With heating called the switched live comes back.
    await page.locator('.page-bar-open', { hasText: 'Mode' }).tap();
    await page.getByLabel('Heating call', { exact: true }).check();
    expect(await call.first().locator('.chosen').textContent()).toContain('230 live');
    expect(said).toEqual([]);
    await context.close();
  });

  test('every other way in leads to its first question, and a job stays where it was', async () => {
    const { context, said } = await phone(site.chromium, { serviceWorkers: 'block' });
    const page = await context.newPage();
    const first = page.locator('h1', { hasText: 'Which kind of boiler' });
    await page.goto(`${site.server.address}systems/`);
    await page.getByText('Not here? Put it together from its parts').tap();
    await first.waitFor();

    await page.goto(`${site.server.address}job/?complaint=no-heating-hot-water-works`);
    await page.tap('text=It worked until now');
    await page.tap('text=I do not know this system yet');
    await page.getByText('Not among them? Put it together from its parts').tap();
    await first.waitFor();
    await page.goBack();
    await page.getByText('Not among them?').waitFor();
    expect(await title(page)).toBe('No heating, hot water is fine');
    expect(said.filter((line) => !/service ?worker/i.test(line))).toEqual([]);
    await context.close();
  });

  test('is opened from its address in a fresh profile: drawing, live path and wiring too', async () => {
    const { page, heard, close } = await opened(COMBI);
    await page.locator('.standing-line').waitFor();
    for (const [name, what] of [
      ['Live path', '.path[open] .row-terminal .v:visible'],
      ['Diagram', '.pan .circuit.narrow:visible'],
      ['Wiring', '.wiring-table:visible .core-code'],
    ] as const) {
      await page.locator('.composed-ways').getByRole('button', { name }).tap();
      await page.locator(what).first().waitFor();
      expect(await title(page)).toBe(name);
      await isSound(page);
      await page.goBack();
      await page.locator('.standing-line:visible').waitFor();
    }
    expect(heard()).toEqual([]);
    await close();
  });

  test('its drawing answers as a system’s own: terminals, cores, loads, a mode played', async () => {
    const { page, heard, close } = await opened(COMBI);
    await page.locator('.composed-ways').getByRole('button', { name: 'Diagram' }).tap();
    const line = page.locator('#drawing-line');
    // The drawing across comes last: what answers is of both by then.
    await page.locator('.circuit.landscape').waitFor({ state: 'attached' });
    await page.locator('#drawing-load option').nth(2).waitFor({ state: 'attached' });
    const terminal = page.locator('.narrow a[data-terminal="E1.call return"]');
    await terminal.tap();
    const sheet = page.locator('#terminal-sheet[open]');
    await sheet.waitFor();
    expect(await sheet.textContent()).toMatch(/Switched live back at the boiler E1/i);
    expect(await sheet.locator('.sheet-reading').textContent()).toContain('no volts');
    await isSound(page);
    await sheet.getByRole('button', { name: 'Close' }).tap();
    expect(await page.locator('.narrow .lit').count()).toBeGreaterThan(1);
    // How the mode chosen comes about, step by step, and back.
    await page.locator('.page-bar-open', { hasText: 'Mode' }).tap();
    await page.getByLabel('Heating call', { exact: true }).check();
    await page.locator('#drawing-play').tap();
    expect(await line.textContent()).toMatch(/^1 of \d/);
    await page.locator('#drawing-play').tap();
    expect(await line.textContent()).toMatch(/^2 of \d/);
    await page.locator('#drawing-back').tap();
    expect(await line.textContent()).toMatch(/^1 of \d/);
    const { value, name } = await page
      .locator('#drawing-load option')
      .nth(1)
      .evaluate((one) => ({
        value: (one as HTMLOptionElement).value,
        name: one.textContent,
      }));
    await page.locator('#drawing-load').selectOption(value);
    expect(await line.textContent()).toContain(name);
    // The sheet says what the mode reads, and leads to the terminal’s row.
    await terminal.tap();
    expect(await sheet.locator('.sheet-reading').textContent()).toContain('230 V');
    await sheet.getByRole('button', { name: 'Its place among the readings' }).tap();
    await page.locator('#readings tr.sought', { hasText: 'switched live back' }).waitFor();
    await page.goBack();
    await page.locator('#drawing-full').tap();
    await page.locator('#drawing-dialog[open] .circuit.narrow').waitFor();
    await isSound(page);
    await page.locator('#drawing-close').tap();
    await page.locator('#diagram > .pan .circuit.narrow').waitFor();
    expect(heard()).toEqual([]);
    await close();
  });

  test('a device is put in place of another, core by core, on the same circuit', async () => {
    const { page, heard, close } = await opened(COMBI);
    await page.locator('.composed-ways').getByRole('button', { name: 'Replace a device' }).tap();
    const receiver = page.locator('.replace section', { hasText: 'K1' });
    await receiver.waitFor();
    await isSound(page);
    await receiver.getByText('Another of the same kind').tap();
    await page.locator('.comes-to', { hasText: 'Same result' }).waitFor();
    const cores = page.locator('.core-steps tbody tr');
    expect(await cores.count()).toBeGreaterThanOrEqual(5);
    // Isolating stands before the first core.
    const order = await page.locator('.replace :is(.steps a, .core-steps)').all();
    expect(await order[0]!.textContent()).toContain('Isolate, lock off and prove dead');
    expect(await page.locator('.proving').textContent()).toContain('Heating call');
    await isSound(page);
    await page.getByRole('button', { name: 'All items' }).tap();
    await receiver.waitFor();
    expect(heard()).toEqual([]);
    await close();
  });

  test('the drawing shows the mode chosen', async () => {
    const { page, close } = await opened(COMBI);
    await page.locator('.composed-ways').getByRole('button', { name: 'Diagram' }).tap();
    const terminal = page.locator('.narrow [data-terminal="E1.call return"]');
    await terminal.waitFor();
    expect(await terminal.getAttribute('data-live')).toBeNull();
    await page.locator('.page-bar-open', { hasText: 'Mode' }).tap();
    await page.getByLabel('Heating call', { exact: true }).check();
    await expect.poll(() => terminal.getAttribute('data-live')).toBe('*');
    await close();
  });

  test('the Back key goes one step back, from parts and from questions', async () => {
    const { page, close } = await opened('');
    await answer(page, ...TO_A_COMBI.slice(0, 2));
    await page.locator('h1', { hasText: 'What makes the call' }).waitFor();
    await page.goBack();
    await page.locator('h1', { hasText: 'How is the boiler called' }).waitFor();
    // A page loaded anew asks where it was.
    await page.reload();
    await page.locator('h1', { hasText: 'How is the boiler called' }).waitFor();
    await page.getByRole('button', { name: 'Back' }).tap();
    await page.locator('h1', { hasText: 'Which kind of boiler' }).waitFor();
    await answer(page, ...TO_A_COMBI, ['What calls for heating', 'Room stat, two-wire']);
    await page.getByText('Nothing more, the rest as usual').tap();
    await page.locator('.standing-line').waitFor();
    await page.goBack();
    await page.locator('h1', { hasText: 'condensate pump' }).waitFor();
    await close();
  });

  test('one part is changed, and the others stay', async () => {
    const { page, close } = await opened(COMBI);
    await page.getByText('Parts, and what to know of them').tap();
    // What a part’s own entry says stands at the part.
    await page.locator('.part-note', { hasText: 'Its contact is its own' }).waitFor();
    await page.getByRole('button', { name: 'Change Heating', exact: true }).tap();
    await answer(page, ['What calls for heating', 'Room stat, two-wire']);
    await page.locator('.standing-line').waitFor();
    expect(new URL(page.url()).hash).toBe(COMBI.replace('wireless-receiver', 'room-stat-two-wire'));
    await close();
  });

  test('a damaged address says why, what was found and what is allowed, and harms nothing', async () => {
    const { page, close } = await opened(COMBI);
    await page.locator('.standing-line').waitFor();
    const damaged = `${COMBI.replace('mains-call', 'mains-cal')}&x=<b>`;
    await page.goto(`${site.server.address}compose/${damaged}`);
    const alert = page.getByRole('alert');
    await alert.waitFor();
    expect(await alert.textContent()).toContain('“x” is nothing that this address can say');
    expect(await page.locator('.allowed-here').textContent()).toContain('heat');
    expect(await page.locator('.found-address').textContent()).toContain('combi-mains-cal');
    expect(await page.locator('.readings-table').count()).toBe(0);
    await isSound(page);
    await page.getByRole('button', { name: /^Open the last one here/ }).tap();
    await page.locator('.standing-line').waitFor();
    await page.goBack();
    await page.getByRole('button', { name: 'Choose the parts' }).tap();
    await page.locator('h1', { hasText: 'Which kind of boiler' }).waitFor();
    await close();
  });

  test('a hazardous part is refused with its reason and what is in order instead', async () => {
    const { page, close } = await opened('');
    const [boiler, , ...rest] = TO_A_COMBI;
    await answer(
      page,
      boiler,
      ['How is the boiler called', 'Combi boiler, volt-free call'],
      ...rest,
    );
    const mains = key(page, 'Room stat, three-wire');
    await mains.getByText('Not in order').waitFor();
    const nothing = key(page, 'Nothing more');
    expect(await nothing.textContent()).toContain('a service with neither control nor clock');
    expect(await nothing.evaluate((one) => one.tagName)).toBe('DIV');
    await mains.tap();
    const doubt = page.getByRole('alert');
    expect(await doubt.textContent()).toMatch(
      /Against “No mains reaches an extra-low-voltage terminal”: with this part call 1 at the boiler E1 .* stands at 2\d\d V/,
    );
    expect(await doubt.textContent()).toMatch(/In order here: .*Room stat, volt-free/);
    await isSound(page);
    // Found so all the same: what is wrong is said before anything else.
    await page.getByText('It is wired so').tap();
    await page.getByText('Not in order already').waitFor();
    await page.getByText('Nothing more, the rest as usual').tap();
    await page.locator('.not-in-order').waitFor();
    expect(new URL(page.url()).hash).toBe(MAINS_ON_A_PAIR);
    await close();
  });

  test('no reading of a circuit that is not in order is shown as normal', async () => {
    const { page, close } = await opened(MAINS_ON_A_PAIR);
    const wrong = page.locator('.not-in-order');
    await wrong.waitFor();
    expect(await wrong.textContent()).toContain('Danger. Found: call 1 at the boiler E1');
    expect(await standing(page)).toContain('1 not met');
    for (const name of ['Readings', 'Live path', 'Diagram']) {
      await page.locator('.composed-ways').getByRole('button', { name }).tap();
      await page.locator('.not-as-it-should:visible').waitFor();
      await isSound(page);
      await page.goBack();
      await page.locator('.standing-line:visible').waitFor();
    }
    await close();
  });

  test('keys are as high as a gloved thumb asks: 56 px', async () => {
    const { page, close } = await opened('');
    await answer(page, ...TO_A_COMBI);
    await page.locator('h1', { hasText: 'What calls for heating' }).waitFor();
    for (const one of await page.locator('button.part-key').all())
      expect((await one.boundingBox())!.height).toBeGreaterThanOrEqual(56);
    await close();
  });

  test('on paper stands all of it, with the sentence that nobody has reviewed it', async () => {
    const { page, close } = await opened(COMBI);
    await expect.poll(() => standing(page)).toContain('agree with what must happen');
    await page.locator('.wiring-table').waitFor({ state: 'attached' });
    await page.emulateMedia({ media: 'print' });
    for (const what of ['.standing-line', '.readings-table', '.wiring-table', '.pan'])
      expect(await page.locator(what).isVisible(), what).toBe(true);
    expect(await page.locator('.cautions', { hasText: 'GS38' }).isVisible()).toBe(true);
    expect(await page.locator('.page-bar').isVisible()).toBe(false);
    await close();
  });

  test.each(['light', 'dark'] as const)('axe finds nothing, %s', async (colorScheme) => {
    const { page, close } = await opened('', { colorScheme });
    await page.getByText('Covers on.').waitFor();
    await isSound(page);
    await page.goto(`${site.server.address}compose/${COMBI}`);
    await page.reload();
    await page.locator('.standing-line').waitFor();
    await isSound(page);
    await close();
  });

  test('without a script the parts stand there with what is said of them', async () => {
    const { page, close } = await opened('', { javaScriptEnabled: false });
    await page.getByText('This needs the page’s script').waitFor();
    await page.locator('.every-part > summary').tap();
    expect(await page.locator('#part-wireless-receiver').textContent()).toContain(
      'Its contact is its own',
    );
    await close();
  });
});

test('the parts are kept with the pages, under a name that is theirs alone', () => {
  const files = readManifest().packs.flatMap((pack) => pack.files);
  expect(files).toContain('compose/index.html');
  expect(files.filter((file) => /^compose\/parts\.[0-9a-f]{8}\.json$/.test(file))).toHaveLength(1);
});
