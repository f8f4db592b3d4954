import type { TestPair } from '../../wiring/index.ts';

/**
 * Something an engineer can find out.
 * look: an outcome seen, heard or felt in a mode, without opening anything;
 * live: a voltage between two points of an open place, with the supply on;
 * dead: a resistance between two points of an open place, isolated and proved dead;
 * fuse: a fuse link taken out, read and tested on its own;
 * act: something else that hands do at an open place.
 */
export type Test = LookTest | LiveTest | DeadTest | FuseTest | ActTest;

interface TestBase {
  /** Stable within a system, as in `look:E1.burner@heating`. */
  readonly id: string;
  readonly mode: string;
  /** Id of the place that must be open; null for one that needs nothing opened. */
  readonly place: string | null;
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

/** A fuse link taken out and looked at with the isolator off. */
export interface FuseTest extends TestBase {
  readonly kind: 'fuse';
  readonly item: string;
  /** Branch id of the fuse, as in `Q1/fuse`. */
  readonly branch: string;
}

/**
 * Something that hands do at an open place.
 * prove: whether it is dead, before anything is touched;
 * inside: look inside, and tug each core;
 * compare: each core with the wiring table;
 * core: a resistance between two cores of a lead, disconnected where it comes from;
 * part: the same between two terminals of the part alone, its cores disconnected;
 * insulation: the insulation to earth of live conductors joined: a live with its neutral, or
 * all that a lead has, disconnected where it comes from; the last of its points is the earth;
 * spindle: the spindle of a valve turned by hand, its head off;
 * link: a link laid across a control's contact, and an outcome looked at with the supply on.
 */
export interface ActTest extends TestBase {
  readonly kind: 'act';
  readonly act:
    | 'prove'
    | 'inside'
    | 'compare'
    | 'core'
    | 'part'
    | 'insulation'
    | 'spindle'
    | 'link';
  readonly place: string;
  /** Points it is done between; loose ends as `W3.BN@1`. None where it is done to all there is. */
  readonly points: readonly string[];
  /** The item whose cores are disconnected for it. */
  readonly part?: string;
  /** The condition that is taken away for it, as a call: the control is turned down. */
  readonly without?: string;
  /** The outcome that is looked at. */
  readonly outcome?: string;
}

/** What looking, tugging or comparing tells. */
export type InspectAnswer = 'nothing' | 'found';

/** What a fuse link tells when it is out: intact, blown, or of another rating than the entry’s. */
export type FuseAnswer = 'intact' | 'blown' | 'wrong rating';

/** What a dead test tells: joined, through a load or a leak, or open. */
export type DeadAnswer = 'joined' | 'resistance' | 'open';
