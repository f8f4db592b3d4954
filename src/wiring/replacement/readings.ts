import { INSTRUMENTS, type ReadingClass, read, type Simulation } from '../../circuit/index.ts';
import { againstFor } from '../wiring-table.ts';

/** A terminal of another item that reads otherwise once the new device is in. */
export interface ChangedReading {
  readonly point: string;
  readonly against: string;
  readonly was: ReadingClass;
  readonly now: ReadingClass;
  /** Modes in which it does, by id. */
  readonly modes: readonly string[];
}

const isLive = (found: ReadingClass): boolean => found === 'live' || found === 'high';

/**
 * Every terminal of the other items that goes live, or is live no longer, in some mode on the
 * two-pole tester. What floats between is left out: another load at the item shifts it.
 */
export function changedReadings(
  before: Simulation,
  after: Simulation,
  item: string,
): ChangedReading[] {
  const found = new Map<string, { modes: string[] } & Omit<ChangedReading, 'modes'>>();
  for (const { id: point, item: owner, terminal } of before.network.nodes) {
    if (!terminal || owner === item || !after.network.nodeIndex.has(point)) continue;
    const against = againstFor(before.network, point);
    if (against === null || againstFor(after.network, point) !== against) continue;
    for (const [mode, settled] of after.modes) {
      const then = before.modes.get(mode)!;
      const was = read(then.solution, point, against, INSTRUMENTS[0]!).class;
      const now = read(settled.solution, point, against, INSTRUMENTS[0]!).class;
      if (isLive(was) === isLive(now)) continue;
      const key = [point, was, now].join();
      const known = found.get(key) ?? { point, against, was, now, modes: [] };
      known.modes.push(mode);
      found.set(key, known);
    }
  }
  return [...found.values()];
}
