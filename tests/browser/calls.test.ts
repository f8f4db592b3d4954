import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { instrumentFor, type Test } from '../../src/diagnosis/index.ts';
import { ANSWERS, type OrderTree } from '../../src/diagnosis/inference/index.ts';
import { Engine } from '../../src/job/engine.ts';
import { type JobData, modelOf } from '../../src/job/job-data.ts';
import type { Sheet } from '../../src/job/sheet.ts';
import { isAnswer } from '../support/answers.ts';
import { DIST } from '../support/site-folder.ts';
import { launch, PHONE, type TestBrowser } from './harness.ts';
import { isSound, offlinePhone } from './phone.ts';

/**
 * Calls, from the list of jobs to what is found: the customer's words, since when, which
 * system; then what the panel asks, answered as the faulty circuit would answer. Invented calls.
 */
const CALLS = [
  {
    complaint: 'no-heating-hot-water-works',
    history: 'worked until now',
    system: 'combi-two-wire',
    fault: 'B1/contact:open',
  },
  {
    complaint: 'control-display-blank',
    history: 'worked until now',
    system: 'combi-two-wire',
    fault: 'B1:battery flat on',
  },
  {
    complaint: 'no-heating-hot-water-works',
    history: 'since work',
    system: 'combi-wireless',
    fault: 'W3.BN@1:loose',
  },
  {
    complaint: 'heating-only-with-hot-water',
    history: 'worked until now',
    system: 'heat-only-two-port',
    fault: 'Q2/end switch:open',
  },
  {
    complaint: 'no-hot-water-heating-works',
    history: 'worked until now',
    system: 'system-boiler-internal-pump',
    fault: 'Q3/motor:dead',
  },
  {
    complaint: 'boiler-runs-pump-still',
    history: 'worked until now',
    system: 'heat-only-two-port',
    fault: 'M1/motor:dead',
  },
  {
    complaint: 'heating-only-with-hot-water',
    history: 'worked until now',
    system: 'heat-only-mid-position',
    fault: 'Q2/grey switch:open',
  },
  {
    complaint: 'boiler-display-dark',
    history: 'worked until now',
    system: 'combi-two-wire',
    fault: 'E1:no display',
  },
  {
    complaint: 'boiler-ignores-call',
    history: 'worked until now',
    system: 'combi-wireless-condensate-pump',
    fault: 'K1/make contact:open',
  },
] as const;

type Call = (typeof CALLS)[number];

/** Most acts that any of these calls takes. */
const MOST_ACTS = 15;

/** The circuit with the call's fault: what it answers to each test, and the printed order. */
function circuitOf({ system, fault, history }: Call) {
  const data: JobData = JSON.parse(readFileSync(join(DIST, `job/${system}.json`), 'utf8'));
  const model = modelOf(data, history);
  const { sheet } = new Engine(data);
  const found = model.singles.find(({ id }) => id === fault)!;
  const codeOf = (test: number) => found.row![test]!;
  return {
    /** Its title, and those of what one repair puts right with it and no test made tells from it. */
    titlesAfter: (made: readonly string[]): string[] =>
      model.singles
        .filter(
          ({ repairKey, row }) =>
            repairKey === found.repairKey &&
            made.every((id) => row?.[model.testAt.get(id)!] === codeOf(model.testAt.get(id)!)),
        )
        .map(({ title }) => title),
    /** What the panel must say of a test before it is answered, beside where and what. */
    saidOf(id: string): string[] {
      const test = model.tests[model.testAt.get(id)!]!;
      switch (test.kind) {
        case 'act': {
          const { act, caution } = sheet.acts.find((one) => one.id === id)!;
          // Nobody says that it is proved dead before proving it.
          return [caution, ...(act === 'prove' ? ['Until it is proved dead it is live'] : [])];
        }
        case 'look':
          return [sheet.outcomes.find((outcome) => outcome.id === test.outcome)!.care];
        case 'live': {
          return [instrumentFor(test.pair).title, 'Isolate and prove dead'];
        }
        case 'fuse':
          return ['Switch Q1 off', '3 A belongs there'];
        default:
          return ['Isolate, lock off', 'ohms'];
      }
    },
    /** Where one look asks in which of several positions something stands: the one it is in. */
    positionAt(id: string): string | undefined {
      const test = model.tests[model.testAt.get(id)!]!;
      if (test.kind !== 'look') return undefined;
      const { oneOf } = sheet.outcomes.find((outcome) => outcome.id === test.outcome)!;
      return oneOf.find((outcome) => {
        const look = model.testAt.get(`look:${outcome}@${test.mode}`);
        return ANSWERS[codeOf(look!)] === 'seen';
      });
    },
    answerTo(id: string): string {
      const answer = ANSWERS[codeOf(model.testAt.get(id)!)]!;
      // Through a board a meter shows ohms of some kind: no short is no key.
      return answer === 'no short' ? 'resistance' : answer;
    },
    /** Tests of the printed orders from the complaint, as this circuit answers them. */
    printed: data.orders
      .filter((order) => order.history === history)
      .filter(({ shows }) => shows.some((all) => all.every(([at, code]) => codeOf(at) === code)))
      .map(({ tree }) => along(tree, codeOf).map((at) => model.tests[at]!))
      // A look at where a valve stands is asked once in a mode, and settles all its positions.
      .map((tests) => {
        const looks = tests.map((test) => lookOf(sheet, test));
        return tests.filter((_, i) => looks.indexOf(looks[i]!) === i).map(({ id }) => id);
      }),
  };
}

/** What tells one look from another: a test by its id, a valve's position by its first and its mode. */
function lookOf(sheet: Sheet, test: Test): string {
  if (test.kind !== 'look') return test.id;
  const { oneOf } = sheet.outcomes.find((outcome) => outcome.id === test.outcome)!;
  return oneOf.length === 0 ? test.id : `${oneOf[0]}@${test.mode}`;
}

function along(tree: OrderTree, codeOf: (test: number) => number): number[] {
  if (tree === 0) return [];
  const [at, ...branches] = tree;
  const next = branches.find(([code]) => isAnswer(ANSWERS[code]!, ANSWERS[codeOf(at)]!))?.[1] ?? 0;
  return [at, ...along(next, codeOf)];
}

/** Taps what is on the screen already, under nothing else. */
async function tapInView(page: Page, selector: string): Promise<void> {
  const target = page.locator(selector).first();
  await target.waitFor();
  const seen = await target.evaluate((element) => {
    const { left, right, top, bottom } = element.getBoundingClientRect();
    const there = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
    return { top, bottom, height: bottom - top, isOver: element.contains(there) };
  });
  expect({ selector, ...seen }).toMatchObject({ isOver: true });
  expect(seen.top).toBeGreaterThanOrEqual(0);
  expect(seen.bottom).toBeLessThanOrEqual(PHONE.height);
  expect(seen.height).toBeGreaterThanOrEqual(48);
  await target.tap();
}

let chromium: TestBrowser;
let tab: Awaited<ReturnType<typeof offlinePhone>>;
let page: Page;
let site: string;
beforeAll(async () => {
  chromium = await launch();
  tab = await offlinePhone(chromium, { colorScheme: 'light' });
  ({ page, site } = tab);
});
afterAll(() => chromium.close());

describe('a call, offline, one thumb', () => {
  test.each(CALLS)('$complaint: $fault in $system', async (call) => {
    const circuit = circuitOf(call);
    await page.goto(`${site}job/#new`);
    // One tap from the question to the first thing to do: look, while asking since when.
    await complain(page, call.complaint);
    await page.waitForSelector('.look-first, .caution');
    await since(page, call.history);
    await page.tap('.choose-system .fold > summary');
    await page.fill('#system-query', titleOf(call.system));
    await page
      .locator('.choose-system .fold .pick-list button', {
        has: page.locator(`strong:text-is("${titleOf(call.system)}")`),
      })
      .tap();

    const asked: string[] = [];
    const ticked = new Set<string>();
    for (;;) {
      await page.waitForSelector('.panel[aria-busy="false"], .panel.found');
      if (await page.locator('.panel.found').count()) break;
      const id = (await page.locator('.panel').getAttribute('data-test'))!;
      expect(asked.length, `${asked.join(', ')} and still not found`).toBeLessThan(MOST_ACTS);
      asked.push(id);
      if (asked.length === 1) await isSound(page);
      const answer = circuit.answerTo(id);
      const panel = page.locator('.panel');
      let said = (await panel.textContent())!;
      // The caution, where there is one, is its first tap; the answer the second.
      const ready = '.panel > .main-act';
      if (await page.locator(ready).count()) await tapInView(page, ready);
      // Ticked once, the caution of isolating holds for what follows there; all others stand again.
      said += await panel.textContent();
      for (const words of circuit.saidOf(id).filter((one) => !ticked.has(one)))
        expect(said.toLowerCase()).toContain(words.toLowerCase());
      for (const words of ['Isolate and prove dead', 'Isolate, lock off']) ticked.add(words);
      const at = circuit.positionAt(id);
      const key = at ? `[data-outcome="${at}"]` : `[data-answer="${answer}"]`;
      await tapInView(page, `.answer-key${key}`);
      await page.waitForFunction(
        (before) =>
          document.querySelector('.panel.found, .panel:not([data-test])') ||
          document.querySelector('.panel')?.getAttribute('data-test') !== before,
        id,
      );
    }
    expect(await page.locator('.panel.found h2').textContent()).toBe('Found');
    const cause = await page.locator('.panel.found .next-what').textContent();
    expect(circuit.titlesAfter(asked)).toContain(cause);
    // The drawing stands as the cause leaves it, and shows up to where it is live.
    await page.locator('.panel.found .fold > summary').tap();
    await page.waitForSelector('.panel.found .conductor[data-live="*"]');
    expect(await page.locator('.panel.found [data-closed="*"]').count()).toBeGreaterThan(0);
    await isSound(page);
    // It went by a printed order as far as it went.
    const kept = circuit.printed.map((ids) => asked.findIndex((id, i) => ids[i] !== id));
    expect(kept.some((at, i) => at === -1 || at >= circuit.printed[i]!.length)).toBe(true);
    await page.locator('.panel.found > .main-act').tap();
    await page.waitForSelector('#record-title');
  });

  test('says nothing on the console', () => {
    expect(tab.said).toEqual([]);
  });
});

const titleOf = (system: string): string =>
  (JSON.parse(readFileSync(join(DIST, `job/${system}.json`), 'utf8')) as JobData).system.title;

/** Names the complaint: among the commonest, or under the rest. */
async function complain(on: Page, id: string): Promise<void> {
  const words = await on.locator(`[data-complaint="${id}"] > strong`).textContent();
  const key = on.locator('.answer-key', { has: on.locator(`b:text-is("${words}")`) });
  await key.waitFor({ state: 'attached' });
  if (!(await key.isVisible())) await on.tap('.fold > summary');
  await key.tap();
}

const SINCE = {
  'worked until now': 'It worked until now',
  'since work': 'somebody worked on it',
} as const;

const since = (on: Page, history: keyof typeof SINCE) =>
  on.tap(`.answer-key:has-text("${SINCE[history]}")`);
