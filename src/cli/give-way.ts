import { setTimeout } from 'node:timers/promises';

/** Milliseconds that others are left each time, and from which on they were at work meanwhile. */
const LEFT = 2;
const AT_WORK = 6;

/**
 * Lets what else waits for this thread go first, until it has nothing more to do. The bundler's own
 * threads ask this one for each module: work done in between would hold up all of them.
 */
export async function giveWay(): Promise<void> {
  for (;;) {
    const began = performance.now();
    await setTimeout(LEFT);
    if (performance.now() - began < AT_WORK) return;
  }
}
