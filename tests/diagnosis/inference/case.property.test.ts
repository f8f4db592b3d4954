import { describe, expect, test } from 'vitest';
import { ISOLATED } from '../../../schemas/index.ts';
import {
  ANSWER_CODES,
  type Case,
  type LiveReading,
  next,
  type Observation,
  observe,
  openCase,
  questionOf,
  rank,
  reasons,
  remove,
  undo,
  verdict,
} from '../../../src/diagnosis/inference/index.ts';
import { ohms, volts } from '../../../src/units/index.ts';
import { property } from '../../support/property.ts';
import { detectable, job, live, look, modelOf, reported, some } from './jobs.ts';

const ID = 'combi-two-wire';
const dead = live('heating', 'E1.call return', 'E1.N', 'dead');
const burner = look('heating', 'E1.burner', false);
const display = look('heating', 'E1.display', true);

const reporting = (...observations: Observation[]): Case =>
  observations.reduce(observe, openCase(modelOf(ID)));

describe('a case is a value', () => {
  test('observing leaves the case before as it was', () => {
    const one = reporting(burner);
    const before = rank(one);
    const two = observe(one, dead);
    expect(one.observations).toEqual([burner]);
    expect(two.observations).toEqual([burner, dead]);
    expect(rank(one)).toBe(before);
    expect(two.mode).toBe('heating');
    expect([...two.opened]).toEqual(['E1/wiring cover']);
    expect([...one.opened]).toEqual([]);
  });

  test('the order of the reports changes nothing of what is believed', () => {
    const shares = (of: Case) =>
      new Map(rank(of).explanations.map(({ hypothesis, share }) => [hypothesis.id, share]));
    const [one, two] = [
      shares(reporting(burner, dead, display)),
      shares(reporting(display, burner, dead)),
    ];
    for (const [id, share] of one) expect(two.get(id)).toBeCloseTo(share, 12);
  });

  test('undoing gives the case before, and stops at the start', () => {
    const start = reporting();
    const one = observe(start, burner);
    expect(undo(one)).toBe(start);
    expect(undo(start)).toBe(start);
  });

  test('removing any report is as if it had never been made; undoing brings it back', () => {
    const all = reporting(burner, dead, display);
    const fewer = remove(all, 1);
    expect(fewer.observations).toEqual([burner, display]);
    const shares = (of: Case) => rank(of).explanations.map(({ share }) => share);
    expect(shares(fewer)).toEqual(shares(reporting(burner, display)));
    expect(undo(fewer)).toBe(all);
    expect(() => remove(all, 3)).toThrow(
      'no observation 3 to remove: the case has 3, the first is 0',
    );
  });

  test('shares add up to one', () => {
    for (const of of [reporting(), reporting(burner), reporting(burner, dead, display)]) {
      const { explanations, repairs, notAsShown } = rank(of);
      const sum = (list: readonly { share: number }[]) => list.reduce((s, e) => s + e.share, 0);
      expect(sum(explanations) + notAsShown).toBeCloseTo(1, 10);
      expect(sum(repairs) + notAsShown).toBeCloseTo(1, 10);
    }
  });
});

describe('what the system cannot have is refused with what it has', () => {
  test.each<[string, Observation, RegExp]>([
    ['a mode', { ...burner, mode: 'frost' }, /has no mode frost; it has standby, heating/],
    [
      'an outcome',
      look('heating', 'E1.fan', true),
      /has no outcome E1\.fan; it has F1\.up, E1\.display/,
    ],
    ['a point', live('heating', 'E1.SL', 'E1.N', 'live'), /has no point E1\.SL; it has E1\.L/],
    [
      'one point twice',
      live('heating', 'E1.L', 'E1.L', 'dead'),
      /needs two points; got E1\.L twice/,
    ],
    [
      'a dead test with the supply on',
      { kind: 'dead', mode: 'heating', from: 'B1.COM', to: 'B1.NO', answer: 'open' },
      /a dead test is made in mode isolated, proved dead; got heating/,
    ],
  ])('%s', (_, observation, message) => {
    expect(() => reporting(observation)).toThrow(message);
  });
});

describe('verdicts', () => {
  test('nothing reported, and one fault that fits', () => {
    expect(verdict(reporting()).kind).toBe('nothing reported');
    expect(verdict(reporting(burner, dead, display))).toEqual({
      kind: 'fits',
      text: 'Not found yet: the likeliest explanation accounts for everything reported, and so may others.',
      against: [],
      found: null,
    });
  });

  test('a reading alone against the rest is read again; read again otherwise it stands no more', () => {
    const model = modelOf(ID);
    const fault = model.singles.find(({ id }) => id === 'W3.BN@1:loose')!;
    const found = job(model, fault.row!);
    const wrong = live('heating', 'E1.L', 'E1.N', 'dead', 'low-impedance');
    const misread = observe(found, wrong);
    expect(verdict(misread)).toMatchObject({
      kind: 'one reading against',
      against: [found.observations.length],
    });
    expect(reasons(misread, rank(misread).explanations[0]!).against).toBe(
      'Against it: L at the boiler E1 has no volts (Heating call).',
    );
    const proposed = next(misread)!;
    expect(proposed).toMatchObject({ again: true, test: { id: 'live:E1.L|E1.N@heating' } });
    expect(proposed.why).toMatch(
      /^Read again: L at the boiler E1 does not fit with everything else/,
    );
    const right = observe(misread, { ...wrong, answer: 'live' } as Observation);
    expect(verdict(right).kind).toBe(verdict(found).kind);
    expect(verdict(right).against).toEqual([]);
  });

  property('answers at random are not wired as the entry shows', 1, (pick) => {
    const model = modelOf(ID);
    const tests = some(model.tests, 90, pick);
    const at = (test: (typeof tests)[number]) => model.testAt.get(test.id)!;
    const found = tests.reduce(
      (of, test) => observe(of, reported(test, pick.pick(detectable(model)).row![at(test)]!)),
      openCase(model),
    );
    // Each answer is one that some fault gives: no one or two faults give all of them.
    const mostly = verdict(found);
    expect(mostly.kind).toBe('not as shown');
    expect(mostly.text).toMatch(/^Not as drawn: compare the wiring with its table\./);
  });
});

describe('readings that no list foresaw', () => {
  property('figures of any instrument speak for the fault they are of', 12, (pick) => {
    const model = modelOf(ID);
    const { network } = model.simulation;
    const items = ['E1', 'B1', 'Q1'];
    const fault = pick.pick(detectable(model));
    let of = openCase(model);
    for (let n = 0; n < 6; n++) {
      const item = pick.pick(items);
      const points = network.nodes.flatMap((node) =>
        node.item === item && node.terminal ? node.id : [],
      );
      const [from, to] = some(points, 2, pick) as [string, string];
      const asked: LiveReading = {
        kind: 'live',
        mode: pick.pick(['standby', 'heating']),
        from,
        to,
        instrument: pick.pick(['tester', 'multimeter', 'low-impedance']),
        answer: { volts: volts(0), current: 'ac' },
      };
      const figure = model.figure(fault, questionOf(asked));
      of = observe(of, { ...asked, answer: { volts: volts(figure), current: 'ac' } });
    }
    const { explanations } = rank(of);
    const truth = explanations.find(({ hypothesis }) => hypothesis === fault)!;
    expect(truth.against, fault.id).toEqual([]);
    // It may lie behind likelier faults that read alike, but never by being misweighed.
    const first = explanations[0]!;
    const odds = first.share / first.hypothesis.prior / (truth.share / fault.prior);
    // Where its own answer is unsettled it says nothing of one of four: who is sure gains by that.
    const open: readonly number[] = [ANSWER_CODES.unsettled, ANSWER_CODES['no short']];
    const unsettled = of.observations.filter((one) =>
      open.includes(model.predicted(fault, questionOf(one))),
    );
    expect(odds, fault.id).toBeLessThan(10 * 4 ** unsettled.length);
  });

  test('a typed voltage is its class, and near a limit either class', () => {
    const typed = (figure: number): Observation => ({
      ...(live('heating', 'E1.L', 'E1.N', 'live') as LiveReading),
      answer: { volts: volts(figure), current: 'ac' },
    });
    const sound = (of: Case) =>
      rank(of).explanations.find(({ hypothesis }) => hypothesis.id === 'sound')!;
    expect(sound(reporting(typed(232))).against).toEqual([]);
    expect(sound(reporting(typed(204))).against).toEqual([]);
    expect(sound(reporting(typed(110))).against).toEqual([0]);
    expect(sound(reporting(typed(0))).against).toEqual([0]);
  });

  test('typed ohms are their class', () => {
    const typed = (figure: number): Observation => ({
      kind: 'dead',
      mode: 'isolated',
      from: 'B1.COM',
      to: 'B1.NO',
      answer: { ohms: ohms(figure) },
    });
    const contact = (of: Case) =>
      rank(of).explanations.find(({ hypothesis }) => /^B1\/.*:open$/.test(hypothesis.id))!;
    // Through the boiler's call input and board, not open: the loop closes behind the contact.
    const model = modelOf(ID);
    const asked = questionOf(typed(0));
    const figure = model.figure(contact(reporting()).hypothesis, asked);
    expect(figure).toBeGreaterThan(1000);
    expect(contact(reporting(typed(figure))).against).toEqual([]);
    expect(contact(reporting(typed(0.4))).against).toEqual([0]);
  });
});

/** Minutes of each act: common practice, no source. */
const MINUTES = { look: 0, live: 0.5, dead: 0.5, fuse: 2 / 3 };
const ISOLATING = 4;
const RESTORING = 2;
const SWITCHING = 0.25;
const LINK = 1;
const LONG_LEAD = 1.5;
const INSULATION = 2;

test('a proposal costs what its mode, its cover and its reading take from where one stands', () => {
  const model = modelOf(ID);
  const { network } = model.simulation;
  const change = (from: string, to: string) => {
    if (from === to) return 0;
    if (to === ISOLATED) return ISOLATING;
    return network.system.modes[to]!.minutes + (from === ISOLATED ? RESTORING : 0);
  };
  const fault = detectable(model).at(-1)!;
  let open = openCase(model);
  let covers = 0;
  for (let proposed = next(open); proposed; proposed = next(open)) {
    const { test, minutes } = proposed;
    const { place, kind, mode } = test;
    const opens = kind !== 'fuse' && place !== null && !open.opened.has(place);
    if (opens) covers++;
    const [item = '', opening = ''] = place?.split('/') ?? [];
    const terminals = Object.keys(network.items.get(item)?.device.terminals ?? {});
    const cores = Object.values(network.system.cables)
      .flatMap(({ cores: own }) => Object.values(own).flatMap(({ ends }) => ends))
      .filter((point) => terminals.some((name) => point === `${item}.${name}`)).length;
    // Opening a box: the cover, twenty seconds of looking, five for each core that is tugged.
    const openBox = () =>
      network.items.get(item)!.device.openings[opening]!.minutes + 20 / 60 + (cores * 5) / 60;
    const linked = test.kind === 'act' && test.act === 'link';
    const setup =
      kind === 'fuse'
        ? open.mode === ISOLATED
          ? 0
          : SWITCHING
        : linked
          ? change(open.mode, ISOLATED) + (opens ? openBox() : 0) + LINK + change(ISOLATED, mode)
          : opens
            ? change(open.mode, ISOLATED) + openBox() + change(ISOLATED, mode)
            : change(open.mode, mode);
    const own =
      test.kind !== 'act'
        ? test.kind === 'dead' && test.pair.kind === 'earth continuity'
          ? LONG_LEAD
          : MINUTES[test.kind]
        : test.act === 'compare'
          ? cores / 6
          : test.act === 'core' || test.act === 'part'
            ? 1
            : test.act === 'insulation'
              ? INSULATION + (test.points[0]!.includes('@') ? 1 : 0)
              : 0;
    expect(minutes).toBeCloseTo(own + setup, 9);
    open = observe(open, reported(test, fault.row![model.tests.indexOf(test)]!));
  }
  expect(covers).toBeGreaterThan(0);
});
