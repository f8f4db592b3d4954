import { ISOLATED } from '../../../schemas/index.ts';
import type { Network } from '../../circuit/index.ts';
import { placeNamed, readsAt } from '../../site/index.ts';
import { type Minutes, minutes } from '../../units/index.ts';
import { coreEnds } from '../../wiring/index.ts';
import { takesOut } from './act-answer.ts';
import type { Test } from './kinds.ts';

/** Time of each act of a test, in minutes (common practice, no source). */
export const ACT_MINUTES = {
  /** A glance at what works and what does not, on the way to whatever comes next. */
  look: minutes(0),
  /** A voltage between two points of an open item, the tester in hand. */
  live: minutes(0.5),
  /** A resistance between two points of an open item, isolated. */
  dead: minutes(0.5),
  /** The same by a long lead, walked to the earth of the supply. */
  longLead: minutes(1.5),
  /** Proving dead is part of isolating; looking inside and tugging each core of opening. */
  prove: minutes(0),
  inside: minutes(0),
  lookInside: minutes(20 / 60),
  tug: minutes(5 / 60),
  /** Each core with the wiring table. */
  compare: minutes(10 / 60),
  /** A core or a part disconnected, tested, and put back. */
  core: minutes(1),
  part: minutes(1),
  /** An insulation tester set up, the live and its neutral joined, discharged, the join taken out. */
  insulation: minutes(2),
  /** The spindle of a valve turned with pliers, its head off. */
  spindle: minutes(20 / 60),
  /** A link laid once isolated, and taken out again. */
  link: minutes(1),
  /** A fuse link out of its carrier, its rating read, its continuity tested. */
  fuse: minutes(2 / 3),
  /** A switch thrown on the way to a fuse that draws out from the front, or back. */
  switchOff: minutes(0.25),
  /** Isolate, lock off, prove dead with a proved tester. */
  isolate: minutes(4),
  /** Remove the lock, close up what must be closed, put the supply back. */
  restore: minutes(2),
} as const;

/** Time of a test itself, without the change of mode or the opening of an item. */
export function baseMinutes(network: Network, test: Test): Minutes {
  if (test.kind === 'dead' && test.pair.kind === 'earth continuity') return ACT_MINUTES.longLead;
  if (test.kind !== 'act') return ACT_MINUTES[test.kind];
  if (test.act === 'link') return ACT_MINUTES.look;
  if (test.act === 'compare') return comparingMinutes(network, test.place);
  if (test.act === 'insulation' && takesOut(test))
    return minutes(ACT_MINUTES.insulation + ACT_MINUTES.core);
  return ACT_MINUTES[test.act];
}

/** Time to compare each core at a place with the wiring table, minutes. */
export const comparingMinutes = (network: Network, place: string): Minutes =>
  minutes(coresAt(network, place) * ACT_MINUTES.compare);

const counted = new WeakMap<Network, Map<string, number>>();

/** Core ends that come in at a place: asked for each test again and again, counted once. */
function coresAt(network: Network, place: string): number {
  const counts = counted.get(network) ?? new Map<string, number>();
  counted.set(network, counts);
  const known = counts.get(place);
  if (known !== undefined) return known;
  const terminals = new Set(placeNamed(network, place).terminals);
  const count = coreEnds(network.system).filter(({ point }) => terminals.has(point)).length;
  counts.set(place, count);
  return count;
}

/** Time to bring a mode about from another, minutes. */
export function modeMinutes(network: Network, from: string, to: string): Minutes {
  if (from === to) return minutes(0);
  if (to === ISOLATED) return ACT_MINUTES.isolate;
  const own = network.system.modes[to]?.minutes ?? 1;
  return minutes(from === ISOLATED ? own + ACT_MINUTES.restore : own);
}

/** Whether a test needs no more than its own item's switch off, and no cover off. */
export const fromTheFront = (network: Network, { kind, place }: Test): boolean =>
  kind === 'fuse' && place !== null && placeNamed(network, place).opening.needs !== 'isolated';

/** How an engineer stands: the mode brought about, the places open. */
export interface Standing {
  readonly mode: string;
  /** Ids of places. */
  readonly opened: ReadonlySet<string>;
}

/**
 * Time of a test from where the engineer stands, minutes. A place that is closed is opened
 * isolated, and the supply is put back for a reading that needs it.
 */
export function minutesFrom(network: Network, { mode, opened }: Standing, test: Test): Minutes {
  const own = baseMinutes(network, test);
  if (fromTheFront(network, test))
    return minutes(mode === ISOLATED ? own : own + ACT_MINUTES.switchOff);
  if (test.kind === 'act' && test.act === 'link')
    return minutes(
      own +
        modeMinutes(network, mode, ISOLATED) +
        (opened.has(test.place) ? 0 : openingMinutes(network, test.place)) +
        ACT_MINUTES.link +
        modeMinutes(network, ISOLATED, test.mode),
    );
  if (test.place === null || opened.has(test.place))
    return minutes(own + modeMinutes(network, mode, test.mode));
  return minutes(
    own +
      modeMinutes(network, mode, ISOLATED) +
      openingMinutes(network, test.place) +
      modeMinutes(network, ISOLATED, test.mode),
  );
}

/** Time to open a place, to look inside and to tug each core that comes in there, minutes. */
export function openingMinutes(network: Network, id: string): Minutes {
  const place = placeNamed(network, id);
  const { minutes: own, needs } = place.opening;
  if (needs !== 'isolated' || readsAt(place) === 'none') return minutes(own);
  return minutes(own + ACT_MINUTES.lookInside + coresAt(network, id) * ACT_MINUTES.tug);
}
