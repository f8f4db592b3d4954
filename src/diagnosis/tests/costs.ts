import { ISOLATED } from '../../../schemas/index.ts';
import type { Network } from '../../circuit/index.ts';
import { placeNamed } from '../../site/index.ts';
import { type Minutes, minutes } from '../../units/index.ts';
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
export const baseMinutes = (test: Test): Minutes =>
  test.kind === 'dead' && test.pair.kind === 'earth continuity'
    ? ACT_MINUTES.longLead
    : ACT_MINUTES[test.kind];

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
  const own = baseMinutes(test);
  if (fromTheFront(network, test))
    return minutes(mode === ISOLATED ? own : own + ACT_MINUTES.switchOff);
  if (test.place === null || opened.has(test.place))
    return minutes(own + modeMinutes(network, mode, test.mode));
  return minutes(
    own +
      modeMinutes(network, mode, ISOLATED) +
      openingMinutes(network, test.place) +
      modeMinutes(network, ISOLATED, test.mode),
  );
}

/** Time to open a place, minutes. */
export const openingMinutes = (network: Network, place: string): Minutes =>
  minutes(placeNamed(network, place).opening.minutes);
