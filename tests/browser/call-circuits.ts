import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type History, instrumentFor, type Test } from '../../src/diagnosis/index.ts';
import { ANSWERS, type Order, type OrderTree } from '../../src/diagnosis/inference/index.ts';
import { Engine } from '../../src/job/engine.ts';
import { type JobData, modelOf } from '../../src/job/job-data.ts';
import type { Sheet } from '../../src/job/sheet.ts';
import { isAnswer } from '../support/answers.ts';
import { DIST } from '../support/site-folder.ts';

/**
 * Calls, from the home page to what is found: the customer's words, since when, which
 * system; then what the panel asks, answered as the faulty circuit would answer. Invented calls.
 */
export const CALLS = [
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
  {
    complaint: 'boiler-display-dark',
    history: 'worked until now',
    system: 'heat-only-two-port',
    fault: 'E1:nothing lit',
  },
  {
    complaint: 'boiler-runs-pump-still',
    history: 'worked until now',
    system: 'heat-only-two-port',
    fault: 'E1:pump relay does not close',
  },
] as const;

/** A complaint, how long it has been so, the system, and by its id the fault that is there. */
export type Call = { readonly fault: string } & Pick<
  (typeof CALLS)[number],
  'complaint' | 'history' | 'system'
>;

/** A system, by its id the fault that is there, and how long it has been so. */
export interface Faulty {
  readonly system: string;
  readonly fault: string;
  readonly history: History;
}

/** The circuit with the call's fault: what it answers to each test, and the printed order. */
export function circuitOf({ system, fault, history }: Faulty) {
  const data: JobData = JSON.parse(readFileSync(join(DIST, `job/${system}.json`), 'utf8'));
  const model = modelOf(data, history);
  const { sheet } = new Engine(data);
  const found = model.singles.find(({ id }) => id === fault)!;
  const codeOf = (test: number) => found.row![test]!;
  const ofHistory = data.orders.filter((order) => order.history === history);
  /** Tests of a printed order, as this circuit answers them. */
  const way = ({ tree }: Order): string[] => {
    const tests = along(tree, codeOf).map((at) => model.tests[at]!);
    // A look at where a valve stands is asked once in a mode, and settles all its positions.
    const looks = tests.map((test) => lookOf(sheet, test));
    return tests.filter((_, i) => looks.indexOf(looks[i]!) === i).map(({ id }) => id);
  };
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
          return [instrumentFor(test.pair).title, 'prove dead; then restore'];
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
    /** The ways of the printed orders from the complaint. */
    printed: ofHistory
      .filter(({ shows }) => shows.some((all) => all.every(([at, code]) => codeOf(at) === code)))
      .map(way),
    /** The way of one published sequence. */
    wayOn: (sequence: string): string[] => way(ofHistory.find(({ id }) => id === sequence)!),
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
