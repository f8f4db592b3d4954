import { describe, expect, test } from 'vitest';
import { simulate } from '../../src/circuit/index.ts';
import { signaturesOf } from '../../src/diagnosis/index.ts';
import {
  ANSWERS,
  compactSignatures,
  Model,
  type Observation,
} from '../../src/diagnosis/inference/index.ts';
import { arrangementOf, NoArrangement } from '../../src/job/arrangement.ts';
import { ComposedEngine } from '../../src/job/composed-engine.ts';
import { Engine, type Request } from '../../src/job/engine.ts';
import type { Asked } from '../../src/job/findings.ts';
import { testPairs } from '../../src/wiring/index.ts';
import { parts } from '../composer/parts.ts';

const COMBI = 'v=1&heat=combi-mains-call&heating=wireless-receiver&additions=condensate-pump';
const LOOK: Observation = {
  kind: 'look',
  mode: 'heating',
  outcome: 'E1.burner',
  answer: 'not seen',
};

const request = (...observations: Observation[]): Request => ({
  history: 'worked until now',
  cannot: [],
  entries: observations.map((observation, i) => ({ id: `e${i}`, observation })),
  mode: observations.at(-1)?.mode ?? 'standby',
  pairs: false,
});

/** Works until something has come of it. */
function until(engine: ComposedEngine, wanted: Request, come: string): number {
  let steps = 0;
  for (const one of engine.work(wanted)) {
    steps += 1;
    if (one === come) return steps;
  }
  throw new Error(`${come} never came`);
}

/** The same system with its signatures worked out at once, as a build does it. */
function asBuilt(): { engine: Engine; model: Model } {
  const { data, simulation } = arrangementOf(COMBI, parts());
  const signatures = signaturesOf(simulation, testPairs(simulation.network));
  const compact = compactSignatures(simulation, signatures);
  return {
    engine: new Engine({ ...data, signatures: compact }),
    model: new Model(simulation, compact),
  };
}
const built = asBuilt();

describe('an arrangement that nobody worked out beforehand', () => {
  test('once all is worked out, ranks and chooses as one that a build worked out', () => {
    const own = new ComposedEngine(COMBI, parts());
    until(own, request(LOOK), 'whole');
    for (const wanted of [request(), request(LOOK)]) {
      expect(own.engine.find(wanted)).toEqual(built.engine.find(wanted));
      expect(own.engine.next(wanted)).toEqual(built.engine.next(wanted));
    }
    // What went through a file and another worker is the same too.
    const sent = new Engine(JSON.parse(JSON.stringify(own.data)));
    expect(sent.find(request(LOOK))).toEqual(built.engine.find(request(LOOK)));
  });

  test('its first ranking comes of a glance, and is the one that the whole comes to', () => {
    const own = new ComposedEngine(COMBI, parts());
    until(own, request(LOOK), 'ranked');
    const { done, of } = own.progress;
    expect(done).toBe(0);
    expect(of).toBeGreaterThan(300);
    const first = own.engine.find(request(LOOK)).repairs;
    const last = built.engine.find(request(LOOK)).repairs;
    expect(first.slice(0, 3).map(({ key }) => key)).toEqual(last.slice(0, 3).map(({ key }) => key));
    expect(first[0]!.share).toBeCloseTo(last[0]!.share, 1);
  });

  test('nothing counts as found before all is worked out', () => {
    const own = new ComposedEngine(COMBI, parts());
    until(own, request(LOOK), 'enough');
    const { found, wantsPairs } = own.engine.find(request(LOOK));
    expect({ found, wantsPairs }).toEqual({
      found: false,
      wantsPairs: false,
    });
    expect(own.engine.next(request(LOOK))).not.toBeNull();
  });

  test('a hidden fault answered truthfully is found, from the first look on', () => {
    const { model } = built;
    for (const id of ['K1/make contact:open', 'W4.BN@2:loose', 'K1:sender battery flat on']) {
      const truth = model.singles.find((one) => one.id === id)!;
      const told = (asked: Asked | Observation, code: number) =>
        ({
          ...asked,
          answer: ANSWERS[code] === 'no short' ? 'resistance' : ANSWERS[code],
        }) as Observation;
      const own = new ComposedEngine(COMBI, parts());
      const made: Observation[] = [
        told(LOOK, truth.row![model.testAt.get('look:E1.burner@heating')!]!),
      ];
      for (let acts = 0; acts < 25; acts++) {
        // The first test that can be chosen is made; where none can be yet, all is waited for.
        const isWhole = () => own.progress.done === own.progress.of;
        until(own, request(...made), isWhole() ? 'all' : 'enough');
        let next = own.engine.next(request(...made));
        if (!next && !isWhole()) {
          until(own, request(...made), 'whole');
          next = own.engine.next(request(...made));
        }
        if (!next) break;
        const { current: _, ...asked } = { current: null, ...next.asked };
        const answer = told(asked as Asked, truth.row![model.testAt.get(next.id)!]!);
        made.push(answer);
        if (answer.answer === 'found') break;
      }
      until(own, request(...made), own.progress.done === own.progress.of ? 'all' : 'whole');
      const { repairs } = own.engine.find(request(...made));
      const first = repairs.filter(({ share }) => share > repairs[0]!.share * 0.9);
      expect(
        first.map(({ key }) => key),
        id,
      ).toContain(truth.repairKey);
    }
  });

  test('says what is proven of it, and that nobody has reviewed it', () => {
    const own = new ComposedEngine(COMBI, parts());
    expect(own.sheet.composed!.standing).toMatch(
      /^Composed from parts\. Circuit computed; \d+ house standards met; what must happen is still being compared\. No person has reviewed/,
    );
    until(own, request(), 'standing');
    expect(own.sheet.composed).toMatchObject({
      wrong: [],
      standing: expect.stringMatching(/[\d,]+ combinations of conditions agree with what must/),
    });
  });

  test('a complaint shows there what it shows in the entry of the same arrangement', () => {
    const { shows } = new ComposedEngine(COMBI, parts());
    expect(shows['no-heating-hot-water-works']).toEqual(
      expect.arrayContaining([
        { mode: 'heating', outcome: 'E1.radiators', answer: 'not seen' },
        { mode: 'hot-tap', outcome: 'E1.hot tap', answer: 'seen' },
      ]),
    );
    expect(shows['one-zone-cold']).toBeUndefined();
  });
});

describe('an arrangement whose parts have changed', () => {
  const { data } = arrangementOf(COMBI, parts());

  test('is known again whatever is only said of its parts', () => {
    const now = structuredClone(parts()) as ReturnType<typeof parts>;
    const said = now.devices['condensate-pump'] as { title: string; cautions: string[] };
    said.title = 'Another name';
    said.cautions = [];
    expect(arrangementOf(COMBI, now).data.id).toBe(data.id);
  });

  test('bears another mark once a part is wired otherwise', () => {
    const now = structuredClone(parts()) as ReturnType<typeof parts>;
    const pump = now.modules['condensate-pump']!.items.pump as { length: number };
    pump.length += 1;
    expect(arrangementOf(COMBI, now).data.id).not.toBe(data.id);
    expect(simulate(arrangementOf(COMBI, now).simulation.network).modes.size).toBeGreaterThan(3);
  });

  test('without one of them is none, and says which and what is allowed', () => {
    const now = structuredClone(parts()) as { modules: Record<string, unknown> };
    delete now.modules['condensate-pump'];
    const open = () => arrangementOf(COMBI, now as ReturnType<typeof parts>);
    expect(open).toThrow(NoArrangement);
    expect(open).toThrow(/“condensate-pump” is no part that can stand here\. Allowed there: /);
  });
});
