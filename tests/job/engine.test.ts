import { describe, expect, test } from 'vitest';
import { HISTORIES, type Signature } from '../../src/diagnosis/index.ts';
import {
  ANSWER_CODES,
  askedBy,
  type Observation,
  questionKey,
  questionOf,
  rowText,
} from '../../src/diagnosis/inference/index.ts';
import { Engine, type Request } from '../../src/job/engine.ts';
import type { Asked } from '../../src/job/findings.ts';
import { mayBeAlike } from '../support/answers.ts';
import { systemForJob } from './systems.ts';

const ID = 'combi-two-wire';
const { simulation, signatures, data, engine } = systemForJob(ID);

const request = (
  observations: readonly Observation[],
  pairs = false,
  history: Request['history'] = 'worked until now',
): Request => ({
  history,
  cannot: [],
  entries: observations.map((observation, i) => ({ id: `e${i}`, observation })),
  mode: observations.at(-1)?.mode ?? 'standby',
  pairs,
});

/** What a fault's signature answers to what is asked. */
function answered({ answers }: Signature, asked: Asked): Observation {
  const key = questionKey(asked);
  const at = signatures.tests.findIndex((one) => questionKey(askedBy(one)) === key);
  const { current, ...rest } = { current: undefined, ...asked };
  // What nobody can tell beforehand shows one way or another on site.
  const shown = asked.kind === 'dead' ? 'resistance' : 'between';
  const answer = ['unsettled', 'no short'].includes(answers[at]!) ? shown : answers[at]!;
  return { ...rest, answer } as Observation;
}

/** What is asked after what was found, where the customer tells the history that such a fault has. */
const requestFor = ({ fault: { shares } }: Signature, found: readonly Observation[]): Request =>
  request(found, false, HISTORIES.toSorted((a, b) => shares[b] - shares[a])[0]);

/** Whether no answer that is certain tells two faults apart. */
const isAlike = (a: Signature['answers'], b: Signature['answers']) =>
  a.every((answer, i) => mayBeAlike(answer, b[i]!));

/** Does what the engine proposes, as one does who has a fault in front of him. */
function followed(signature: Signature, most: number): Observation[] {
  const own = new Engine(data);
  const request = (found: readonly Observation[]) => requestFor(signature, found);
  const found: Observation[] = [];
  while (found.length < most) {
    const next = own.next(request(found));
    const settled = own.find(request(found)).repairs[0]!.share >= 0.99;
    if (!next || settled || found.at(-1)?.answer === 'found') break;
    found.push(answered(signature, next.asked));
  }
  return found;
}

test('what cannot be done, and what is behind what cannot be opened, is not proposed', () => {
  const own = new Engine(data);
  const asked = (cannot: readonly string[]) => own.next({ ...request([]), cannot })!;
  const first = asked([]);
  expect(asked([first.id]).id).not.toBe(first.id);
  const places = new Set<string>();
  const cannot: string[] = [];
  for (let next = asked(cannot); next; next = asked(cannot)) {
    expect(cannot).not.toContain(next.id);
    expect(cannot).not.toContain(next.place);
    if (next.place && next.opens) places.add(next.place);
    cannot.push(next.opens && next.place ? next.place : next.id);
  }
  expect(places.size).toBeGreaterThan(1);
});

test('what is put right by hand, covers on, has nothing opened, and nothing else has', () => {
  const { repairs } = engine.find(request([]));
  const byHand = repairs.filter(({ setByHand }) => setByHand);
  // Common practice, no source: water is topped up, a dial set, cells changed, gas seen to with
  // every cover on and the supply as it is.
  expect(byHand.map(({ repair }) => repair.split(/[:;,]/)[0])).toEqual([
    'Cold',
    'Set the room stat B1',
    'Fit fresh batteries',
    'Credit on the meter',
  ]);
  const opening = repairs.filter(({ repair }) => /^Isolate|lock off|prove dead/.test(repair));
  expect(opening.length).toBeGreaterThan(0);
  expect(opening.filter(({ setByHand }) => setByHand)).toEqual([]);
});

describe('following what is proposed, from nothing,', () => {
  test.each(signatures.faults.map((one) => [one.fault.id, one] as const))(
    'ends with the repair of %s first',
    (_, signature) => {
      // What comes and goes is watched in every mode first, look by look.
      const found = followed(signature, 60);
      const { repairs } = new Engine(data).find(requestFor(signature, found));
      const last = found.at(-1)!;
      if (last.answer === 'found') {
        // Whoever finds something sees which: the list leads with what is found there.
        const at = signatures.tests.findIndex(
          (one) => questionKey(askedBy(one)) === questionKey(questionOf(last)),
        );
        const there = signatures.faults.filter(({ answers }) => answers[at] === 'found');
        expect(there).toContain(signature);
        expect(there.map(({ fault }) => fault.repairKey)).toContain(repairs[0]!.key);
        return;
      }
      const likeliest = repairs.filter(({ share }) => share > repairs[0]!.share * 0.9);
      const row = rowText(signature.answers);
      const same = [
        ...signatures.faults
          .filter((other) => isAlike(other.answers, signature.answers))
          .map(({ fault }) => fault.repairKey),
        // An isolator switched off shows what a dead pole shows.
        ...data.signatures.circumstances.flatMap(([id, own]) =>
          own === row ? `as it is ${id}` : [],
        ),
      ];
      // Faults with one signature cannot be told apart: the likelier of their repairs leads.
      const leading = repairs.slice(0, Math.max(likeliest.length, new Set(same).size));
      expect(leading.map(({ key }) => key).some((key) => same.includes(key))).toBe(true);
      expect(same).toContain(repairs[0]!.key);
    },
  );
});

test('a ranking does not depend on what was asked before', () => {
  const found = followed(signatures.faults[3]!, 6);
  const grown = new Engine(data);
  for (let count = 0; count <= found.length; count++) grown.find(request(found.slice(0, count)));
  expect(grown.find(request(found))).toEqual(new Engine(data).find(request(found)));
  // An entry taken out of the middle, and another order.
  const fewer = found.toSpliced(1, 1);
  expect(grown.find(request(fewer))).toEqual(new Engine(data).find(request(fewer)));
  expect(grown.next(request(fewer))).toEqual(new Engine(data).next(request(fewer)));
});

test('an entry that the system no longer has is left out and named', () => {
  const found = engine.find(
    request([
      { kind: 'look', mode: 'standby', outcome: 'Z9.nothing', answer: 'seen' },
      { kind: 'look', mode: 'heating', outcome: 'E1.burner', answer: 'not seen' },
    ]),
  );
  expect(found.refused.map(({ id }) => id)).toEqual(['e0']);
  expect(found.count).toBe(1);
});

test('what no fault and no two explain is not as the entry shows', () => {
  const outcomes = [...simulation.modes.get('heating')!.outcomes.keys()];
  const looks: Observation[] = outcomes.map((outcome) => ({
    kind: 'look',
    mode: 'heating',
    outcome,
    answer: 'comes and goes',
  }));
  expect(engine.find(request(looks.slice(0, 1))).contradicted).toBe(false);
  const found = engine.find(request(looks, true));
  expect([found.wantsPairs, found.contradicted]).toEqual([true, true]);
  expect(engine.find(request(looks)).contradicted).toBe(false);
});

test('one reading against many is doubted, not believed', () => {
  const sound = signatures.tests
    .filter(({ kind }) => kind === 'live')
    .slice(0, 8)
    .map((one) => {
      const { current, ...rest } = { current: undefined, ...askedBy(one) };
      return { ...rest, answer: signatures.sound[signatures.tests.indexOf(one)]! } as Observation;
    });
  const wrong = { ...sound[2]!, answer: sound[2]!.answer === 'live' ? 'between' : 'live' };
  const entries = sound.with(2, wrong as Observation);
  const found = engine.find(request(entries));
  expect([found.refused, found.doubted]).toEqual([[], ['e2']]);
});

test('what a sound system shows is the circuit’s own answer', () => {
  for (const [i, one] of signatures.tests.entries()) {
    const asked = askedBy(one);
    if (asked.kind === 'fuse') continue;
    expect([one.id, engine.due(asked as Asked).answer]).toEqual([one.id, signatures.sound[i]]);
  }
});

test('a prepared reading gives the ranking it would give unprepared', () => {
  const one = signatures.tests.find(({ kind }) => kind === 'live')!;
  const asked = askedBy(one) as Asked;
  const { current, ...rest } = { current: undefined, ...asked };
  const typed = { ...rest, answer: { volts: 112, current: 'ac' } } as unknown as Observation;
  const prepared = new Engine(data);
  for (const _ of prepared.warm(asked));
  expect(prepared.find(request([typed]))).toEqual(new Engine(data).find(request([typed])));
});

test('data of another version is refused in words', () => {
  const older = {
    ...data,
    signatures: { ...data.signatures, tests: data.signatures.tests.slice(1) },
  };
  expect(() => new Engine(older)).toThrow(
    /^combi-two-wire: its signatures have .*build the data anew$/,
  );
  expect(Object.keys(ANSWER_CODES)).toHaveLength(19);
});

test('what one handing over covers says of each cause what is handed over', () => {
  const { repairs } = engine.find(request([]));
  const boiler = repairs.find(({ causes }) => causes.some(({ title }) => /^Boiler/.test(title)))!;
  const [top, ...others] = boiler.causes;
  expect(top!.says).toBeNull();
  expect(others.length).toBeGreaterThan(0);
  for (const { title, says } of others) {
    expect([title, says]).toEqual([title, expect.stringMatching(/Gas Safe registered engineer/)]);
    expect(says).not.toBe(boiler.repair);
  }
});

// By inspection of the wiring: all that lies behind an open part is without volts, and nothing
// before it (common practice, no source).
describe('what each terminal shows as the likeliest cause leaves it', () => {
  const pathOf = (id: string) => {
    const signature = signatures.faults.find(({ fault }) => fault.id === id)!;
    const found = followed(signature, 60);
    const own = new Engine(data);
    const request = requestFor(signature, found);
    const [top] = own.find(request).repairs;
    expect(top!.causes[0]!.title).toBe(signature.fault.title);
    return own.path(request, top!.key)!;
  };

  const BLOWN = signatures.faults.find(({ fault }) => /^Q1\/fuse:/.test(fault.id))!.fault.id;

  test('a blown fuse: live up to it, nothing behind it', () => {
    const { shows } = pathOf(BLOWN);
    const live = shows.flatMap(([id, reading]) => (reading === 'live' ? id : []));
    expect(live.toSorted()).toEqual(['F1.L', 'Q1.supply L']);
    expect(shows.filter(([, reading]) => reading !== 'live').length).toBeGreaterThan(4);
    expect(shows.every(([, reading]) => reading === 'live' || reading === 'dead')).toBe(true);
  });

  test('a stat that does not close: live at its common, nothing at its output', () => {
    const { mode, shows } = pathOf('B1/contact:open');
    expect(mode).toBe('heating');
    expect(Object.fromEntries(shows)).toEqual({
      'F1.L': 'live',
      'Q1.supply L': 'live',
      'Q1.load L': 'live',
      'E1.L': 'live',
      'E1.call feed': 'live',
      'E1.call return': 'dead',
      'B1.COM': 'live',
      'B1.NO': 'dead',
    });
  });

  test('contacts stand as they do then, and what is fed is no further than that', () => {
    const { parts } = pathOf('B1/contact:open');
    expect(parts.closed).toEqual(expect.arrayContaining(['Q1/line pole', 'Q1/fuse', 'F1/switch']));
    // It calls, and its contact does not close: that is the fault.
    expect(parts.closed).not.toContain('B1/contact');
    expect(parts.live).toEqual(expect.arrayContaining(['W3.BN', 'B1.COM', 'E1.L']));
    expect(parts.live).not.toContain('B1.NO');
    expect(parts.on).toContain('E1/board');
    expect(parts.on).not.toContain('E1/call input');
  });

  test('is not told before anything was found, nor of a repair that is not ranked', () => {
    const [top] = engine.find(request([])).repairs;
    expect(engine.path(request([]), top!.key)).toBeNull();
    const signature = signatures.faults.find(({ fault }) => fault.id === BLOWN)!;
    expect(engine.path(requestFor(signature, followed(signature, 60)), 'no such')).toBeNull();
  });
});

// A blown fuse shows in every mode, a stat that never closes where it calls (common practice, no source).
test('a cause shows in the modes in which it changes what is seen', () => {
  const shownIn = (id: string, said?: string) => {
    const signature = signatures.faults.find(({ fault }) => fault.id === id)!;
    const found = requestFor(signature, followed(signature, 60));
    return new Engine(data).shownIn(found, said ?? `${signature.fault.title} (found). Replaced.`);
  };
  const brought = engine.sheet.modes.filter(({ testable, isolated }) => testable && !isolated);
  const fuse = signatures.faults.find(({ fault }) => /^Q1\/fuse:/.test(fault.id))!.fault.id;
  expect(shownIn(fuse)).toEqual(brought.map(({ id }) => id));
  const stat = shownIn('B1/contact:open');
  expect(stat).toContain('heating');
  expect(stat).not.toContain('standby');
  expect(stat).not.toContain('hot-tap');
  // Said in words of one's own, the likeliest is meant.
  expect(shownIn('B1/contact:open', 'New stat fitted')).toEqual(stat);
  expect(engine.shownIn(request([]), 'New stat fitted')).toEqual([]);
});
