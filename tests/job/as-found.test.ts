import { beforeEach, describe, expect, test } from 'vitest';
import type { Observation } from '../../src/diagnosis/inference/index.ts';
import { addressOf, fragmentOf } from '../../src/job/as-found/address.ts';
import {
  FoundDesk,
  type FoundEffects,
  type FoundJob,
  type FoundState,
} from '../../src/job/as-found/desk.ts';
import { FoundEngine } from '../../src/job/as-found/engine.ts';
import {
  addLink,
  coresAt,
  setCores,
  setEnd,
  setRating,
  toggleBridge,
} from '../../src/job/as-found/marks.ts';
import type { FromFound, ToFound } from '../../src/job/as-found/messages.ts';
import { readingsLink, readReadingsLink } from '../../src/job/as-found/readings-link.ts';
import { volts } from '../../src/units/index.ts';
import { AS_ENTRY, foundLink, seal } from '../../src/wiring/as-found/index.ts';
import { systemForJob } from './systems.ts';

const ID = 'combi-two-wire';
const { data, simulation } = systemForJob(ID);
const { network } = simulation;
const engine = new FoundEngine(data);
const LINKED = addLink(AS_ENTRY, 'E1.call feed', 'E1.call return');
const LINK = foundLink(network, LINKED)!;
const READINGS: readonly Observation[] = [
  { kind: 'look', mode: 'standby', outcome: 'E1.burner', answer: 'seen' },
  {
    kind: 'live',
    mode: 'standby',
    from: 'E1.call return',
    to: 'E1.N',
    instrument: 'tester',
    answer: { volts: volts(231), current: 'ac' },
  },
  { kind: 'look', mode: 'heating', outcome: 'E1.burner', answer: 'seen' },
];

describe('the fragment of the address', () => {
  test('comes back as it went', () => {
    const all = { marks: LINK, job: 'a-1', readings: seal(ID, 1, []) };
    expect(addressOf(`#${fragmentOf(all)}`)).toEqual({ ...all, foreign: '' });
    expect(fragmentOf(addressOf(''))).toBe('');
  });

  test('anything else is foreign, and a job is called by its id only', () => {
    expect(addressOf('#section').foreign).toBe('section');
    expect(addressOf('#x=1&y').foreign).toBe('x=1&y');
    expect(addressOf('#job=<b>').job).toBeNull();
    expect(addressOf('#job=').job).toBeNull();
  });
});

describe('readings in a link', () => {
  test('come back as they went', () => {
    expect(readReadingsLink(ID, readingsLink(ID, 1, READINGS)!)).toEqual({ readings: READINGS });
  });

  test('made while the system had another name are its own', () => {
    const text = readingsLink('of-old', 1, READINGS)!;
    expect(readReadingsLink(ID, text, ['of-old'])).toEqual({ readings: READINGS });
    const renamed = { ...data, system: { ...data.system, formerly: ['of-old'] } };
    const now = new FoundEngine(renamed);
    const marks = seal('of-old', 1, { x: ['E1.call feed>E1.call return'] });
    expect(engine.readLink(marks)).toMatchObject({ problem: 'other system' });
    expect(now.readLink(marks)).toEqual({ found: LINKED });
    expect(now.readReadings(text)).toEqual({ readings: READINGS });
  });

  test('of another system, damaged, or none at all, say so', () => {
    const said = (text: string) => {
      const read = readReadingsLink(ID, text);
      return 'message' in read ? read.message : null;
    };
    expect(said(readingsLink('combi-wireless', 1, READINGS)!)).toBe(
      'The readings of this link are of another system, combi-wireless. They were not taken over.',
    );
    expect(said(seal(ID, 1, [{ kind: 'look' }]))).toMatch(/^This link is damaged/);
    expect(said('rubbish')).toMatch(/^This link was not made here/);
    expect(
      readingsLink(
        ID,
        1,
        Array.from({ length: 61 }, () => READINGS[0]!),
      ),
    ).toBeNull();
  });
});

test('which cores are under a terminal follows what is marked', () => {
  const at = (found: typeof AS_ENTRY, point: string) => coresAt(engine.sheet, found, point);
  expect(at(AS_ENTRY, 'E1.L')).toEqual(['BN of W2']);
  expect(at(AS_ENTRY, 'E1.E')).toEqual(['GNYE of W2', 'GNYE of W3']);
  const moved = setEnd(AS_ENTRY, { cable: 'W2', colour: 'BN', end: 1 }, 'E1.call feed');
  expect(at(moved, 'E1.L')).toEqual([]);
  expect(at(moved, 'E1.call feed')).toEqual(['BN of W2', 'BN of W3']);
  expect(at(setCores(moved, 'W3', ['BU']), 'E1.call feed')).toEqual(['BN of W2']);
});

describe('the engine', () => {
  test('holds readings against both circuits', () => {
    const strange: Observation = {
      kind: 'look',
      mode: 'standby',
      outcome: 'Z9.lamp',
      answer: 'seen',
    };
    const dark: Observation = {
      kind: 'look',
      mode: 'heating',
      outcome: 'E1.display',
      answer: 'not seen',
    };
    const out: Observation = {
      kind: 'look',
      mode: 'standby',
      outcome: 'E1.burner',
      answer: 'not seen',
    };
    const stands = (found = AS_ENTRY) =>
      engine.work(found, [...READINGS, strange, dark, out]).readings.map(({ stand }) => stand);
    expect(stands()).toEqual(['neither', 'neither', 'entry', 'refused', 'neither', 'entry']);
    expect(stands(LINKED)).toEqual([
      'explained',
      'explained',
      'entry',
      'refused',
      'neither',
      'against',
    ]);
  });

  test('says what a bridged fuse and a missing item are when they are looked at', () => {
    const fuse: Observation = {
      kind: 'fuse',
      mode: 'isolated',
      branch: 'Q1/fuse',
      answer: 'wrong rating',
    };
    const stand = (found: typeof AS_ENTRY) => engine.work(found, [fuse]).readings[0]!;
    expect(stand(AS_ENTRY).stand).toBe('neither');
    expect(stand(setRating(AS_ENTRY, 'Q1/fuse', 13)).stand).toBe('explained');
    expect(stand(toggleBridge(AS_ENTRY, 'Q1/fuse')).found).toBe('bridged');
    const gone = { ...AS_ENTRY, absent: ['B1'] };
    const calling: Observation = {
      kind: 'look',
      mode: 'heating',
      outcome: 'B1.calling',
      answer: 'seen',
    };
    expect(engine.work(gone, [calling]).readings[0]).toMatchObject({
      found: 'not there',
      stand: 'against',
    });
  });

  test('offers the wiring mistakes that readings speak for, and each explains them', () => {
    const suggestions = engine.suggest(READINGS);
    expect(suggestions.map(({ title }) => title)).toContain(
      'Link left in at the boiler E1, between live to stat and switched live back',
    );
    for (const { found } of suggestions) {
      const stands = engine.work(found, READINGS).readings.map(({ stand }) => stand);
      expect(stands).not.toContain('neither');
      expect(stands).not.toContain('against');
    }
    expect(engine.suggest([])).toEqual([]);
  });

  test('says what still works beside what does not, and nothing of what is not there', () => {
    const { modes } = engine.work(setEnd(AS_ENTRY, { cable: 'W3', colour: 'BN', end: 0 }, 'loose'));
    const of = (id: string) => modes.find((mode) => mode.id === id)!;
    expect(of('heating').changed.map(({ found }) => found)).toContain('Boiler not firing');
    expect(of('hot-tap').changed).toEqual([]);
    expect(of('hot-tap').works).toContain('E1 Tap runs hot');
    const gone = engine.work({ ...AS_ENTRY, absent: ['B1'] }).modes;
    expect(JSON.stringify(gone)).not.toMatch(/B1 /);
  });

  test('changes that need an item only somebody else opens name it; others none', () => {
    expect(engine.work(LINKED).othersCovers).toEqual([]);
    expect(engine.work(setCores(AS_ENTRY, 'W3', ['BN', 'BU'])).othersCovers).toEqual([]);
    expect(engine.work(setCores(AS_ENTRY, 'W2', ['BN', 'BU'])).othersCovers).toEqual([
      'Q1: electrician',
    ]);
  });
});

describe('the page', () => {
  let shown: FoundState;
  let fragment: string;
  let kept: string | null;
  const jobs = new Map<string, FoundJob>([
    ['own', { id: 'own', title: 'Mill Lane', system: ID, readings: READINGS }],
    ['other', { id: 'other', title: 'Elsewhere', system: 'combi-wireless', readings: [] }],
  ]);
  beforeEach(() => {
    fragment = '';
    kept = null;
  });

  /** The engine in place of its worker: it answers at once, in order. */
  function worker(listen: (message: FromFound) => void) {
    const waiting: ToFound[] = [];
    const answer = (message: ToFound): FromFound => {
      switch (message.type) {
        case 'open':
          return { type: 'opened', sheet: engine.sheet };
        case 'read':
          return { type: 'read', text: message.text, link: engine.readLink(message.text) };
        case 'read readings':
          return { type: 'readings', readings: engine.readReadings(message.text) };
        case 'work':
          return {
            type: 'worked',
            number: message.number,
            result: engine.work(message.found, message.readings),
          };
        case 'suggest':
          return { type: 'suggested', suggestions: engine.suggest(message.readings) };
      }
    };
    return (message: ToFound) => {
      waiting.push(message);
      queueMicrotask(() => listen(answer(waiting.shift()!)));
    };
  }

  async function open(at: string): Promise<FoundDesk> {
    fragment = at;
    const effects: FoundEffects = {
      data: { address: '' },
      startWorker: worker,
      fragment: () => fragment,
      setFragment: (text) => {
        fragment = text;
      },
      isPlace: (text) => text === 'main',
      kept: () => kept,
      keep: (text) => {
        kept = text;
      },
      job: async (id) => jobs.get(id) ?? null,
    };
    const desk = new FoundDesk(effects, (state) => {
      shown = state;
    });
    await settled();
    return desk;
  }
  const settled = () => new Promise((resume) => setTimeout(resume, 5));
  const differences = () => shown.result?.differences;

  test('opens a link, and its address is left alone until something is marked', async () => {
    const desk = await open(`as=${LINK}`);
    expect(shown.marks).toEqual(LINKED);
    expect(fragment).toBe(`as=${LINK}`);
    expect(kept).toBeNull();
    desk.mark((marks) => setRating(marks, 'Q1/fuse', 13));
    await settled();
    expect(differences()).toHaveLength(2);
    expect(kept).toBe(shown.result!.link);
    expect(fragment).toBe(`as=${kept}`);
    expect(desk.link('https://x/')).toBe(`https://x/#as=${kept}`);
    desk.undo();
    await settled();
    expect(shown.marks).toEqual(LINKED);
    desk.clear();
    await settled();
    expect([differences(), kept, fragment]).toEqual([[], null, '']);
  });

  test('takes up what was marked here before', async () => {
    kept = LINK;
    await open('');
    expect(shown.marks).toEqual(LINKED);
    expect(shown.undoable).toBe(false);
  });

  test('shows a link in place of what was marked, and goes back to it', async () => {
    kept = foundLink(network, setRating(AS_ENTRY, 'Q1/fuse', 13))!;
    const desk = await open(`as=${LINK}`);
    expect(shown.marks).toEqual(LINKED);
    expect(shown.offer?.kind).toBe('before');
    desk.takeOffer();
    await settled();
    expect(differences()).toEqual(['Fuse of Q1 is 13 A instead of 3 A']);
  });

  test.each([
    ['damaged', `as=${LINK.slice(0, -1)}`],
    ['of another system', `as=${seal('combi-wireless', 1, {})}`],
    ['too long', `as=${LINK}${'A'.repeat(5000)}`],
    ['foreign', 'anything'],
  ])('a link that is %s says so and changes nothing', async (_, bad) => {
    kept = LINK;
    await open(bad);
    expect(shown.message).toMatch(/^This link /);
    expect(shown.marks).toEqual(LINKED);
    expect([kept, fragment]).toEqual([LINK, bad]);
  });

  test('an outdated link is shown when the reader asks', async () => {
    const desk = await open(`as=${seal(ID, 7, { x: ['E1.call feed>E1.call return'] })}`);
    expect(shown.message).toMatch(/version 7 of the wiring/);
    expect(differences()).toEqual([]);
    desk.takeOffer();
    await settled();
    expect(shown.marks).toEqual(LINKED);
  });

  test('what was kept for an earlier wiring is shown when the reader asks', async () => {
    kept = seal(ID, 7, { x: ['E1.call feed>E1.call return'] });
    const desk = await open('');
    expect(shown.message).toBe(
      'What was marked here before was on an earlier version of the wiring.',
    );
    expect(differences()).toEqual([]);
    expect(kept).toContain(`${ID}.7.`);
    desk.takeOffer();
    await settled();
    expect(shown.marks).toEqual(LINKED);
  });

  test('what was kept and can no longer be read is said, and stays until something is marked', async () => {
    kept = 'rubbish';
    const desk = await open('');
    expect(kept).toBe('rubbish');
    expect(shown.message).toBe(
      'What was marked here before cannot be shown: it was not made here. It is kept until something is marked here.',
    );
    desk.mark(() => LINKED);
    await settled();
    expect(kept).toBe(LINK);
  });

  test('what a newer version kept is said, and never written over', async () => {
    kept = `2${LINK.slice(1)}`;
    const newer = kept;
    const desk = await open('');
    expect(shown.message).toBe(
      'What was marked here before was kept by a newer version of these pages, and stays as it is: load the newer version to see it. What you mark now is kept in the address only.',
    );
    desk.mark(() => LINKED);
    await settled();
    expect([kept, fragment]).toEqual([newer, `as=${LINK}`]);
    desk.clear();
    await settled();
    expect(kept).toBe(newer);
  });

  test('a place on the page is no link, and the address keeps its marks', async () => {
    const desk = await open('');
    desk.mark(() => LINKED);
    await settled();
    fragment = 'main';
    desk.follow();
    expect(fragment).toBe(`as=${LINK}`);
    fragment = `as=${foundLink(network, AS_ENTRY)}`;
    desk.follow();
    await settled();
    expect(differences()).toEqual([]);
  });

  test('a job brings its readings, and they go out with the link', async () => {
    const desk = await open('job=own');
    expect(shown.job?.title).toBe('Mill Lane');
    expect(shown.result!.readings.map(({ stand }) => stand)).toEqual([
      'neither',
      'neither',
      'entry',
    ]);
    desk.mark(() => shown.suggestions[0]!.found);
    await settled();
    expect(fragment).toMatch(/^as=.*&job=own$/);
    const sent = new URL(desk.link('https://x/')!).hash.slice(1);
    expect(sent).not.toContain('job=');
    const marked = shown.result!.readings;
    kept = null;
    await open(sent);
    expect(shown.result!.readings).toEqual(marked);
  });

  test('another address in the same tab brings no readings of the job before', async () => {
    const desk = await open('job=own');
    fragment = `as=${LINK}`;
    desk.follow();
    await settled();
    expect([shown.job, shown.readings, shown.marks]).toEqual([null, [], LINKED]);
  });

  test.each([
    ['other', 'That job is on another system: its readings are not shown.'],
    ['gone', 'That job is not kept in this browser: its readings are not shown.'],
  ])('a job that is %s says so', async (id, text) => {
    await open(`job=${id}`);
    expect(shown.message).toBe(text);
    expect(shown.readings).toEqual([]);
  });
});
