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
  /** A fuse link out of its carrier, its rating read, its continuity tested. */
  fuse: minutes(0.5),
  /** Isolate, lock off, prove dead with a proved tester. */
  isolate: minutes(4),
  /** Remove the lock, close up what must be closed, put the supply back. */
  restore: minutes(2),
} as const;

/** Time of a test itself, without the change of mode or the opening of an item. */
export const baseMinutes = (test: Test): Minutes => ACT_MINUTES[test.kind];

/** Time to bring a mode about from another, minutes. */
export function modeMinutes(network: Network, from: string, to: string): Minutes {
  if (from === to) return minutes(0);
  if (to === ISOLATED) return ACT_MINUTES.isolate;
  const own = network.system.modes[to]?.minutes ?? 1;
  return minutes(from === ISOLATED ? own + ACT_MINUTES.restore : own);
}

/** Time to open a place, minutes. */
export const openingMinutes = (network: Network, place: string): Minutes =>
  minutes(placeNamed(network, place).opening.minutes);
