import type { TestPair } from '../../wiring/index.ts';

/**
 * Something an engineer can find out.
 * look: an outcome seen, heard or felt in a mode, without opening anything;
 * live: a voltage between two points, with the supply on;
 * dead: a resistance between two points, isolated and proved dead.
 */
export type Test = LookTest | LiveTest | DeadTest;

interface TestBase {
  /** Stable within a system, as in `look:E1.burner@heating`. */
  readonly id: string;
  readonly mode: string;
}

/** An outcome looked at in a mode. */
export interface LookTest extends TestBase {
  readonly kind: 'look';
  readonly outcome: string;
}

/** A voltage read between two points in a mode. */
export interface LiveTest extends TestBase {
  readonly kind: 'live';
  readonly pair: TestPair;
}

/** A resistance read between two points in the isolated mode. */
export interface DeadTest extends TestBase {
  readonly kind: 'dead';
  readonly pair: TestPair;
}

/** What a dead test tells: joined, through a load or a leak, or open. */
export type DeadAnswer = 'joined' | 'resistance' | 'open';
