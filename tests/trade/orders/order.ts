/**
 * The order in which experienced engineers go about a complaint, as data to hold sequences
 * against. Written down and kept before any sequence was solved. Common practice, no source.
 */

/** What hands do. Looks and operating acts are one unordered block. */
export type ActKind =
  | 'look'
  | 'reset'
  | 'battery'
  | 'pair'
  | 'fuse'
  | 'prove'
  | 'inside'
  | 'tug'
  | 'compare'
  | 'dead'
  | 'parted'
  | 'insulation'
  | 'live'
  | 'spindle'
  | 'link';

/** Kinds of thing on the wall, whatever an entry calls them. */
export type Family =
  | 'spur'
  | 'boiler'
  | 'centre'
  | 'control'
  | 'receiver'
  | 'programmer'
  | 'room stat'
  | 'cylinder stat'
  | 'cut-out'
  | 'heating valve'
  | 'hot-water valve'
  | 'mid-position valve'
  | 'pump'
  | 'condensate pump';

/** The conductor that an act is about, by what it does. */
export type Role =
  | 'permanent live'
  | 'live to stat'
  | 'switched live'
  | 'heating on'
  | 'hot water on'
  | 'hot water off'
  | 'satisfied'
  | 'room call'
  | 'cylinder call'
  | 'valve motor'
  | 'white'
  | 'grey'
  | 'orange'
  | 'pump live'
  | 'overflow'
  | 'contact';

/** Acts that are alike to an engineer: of these kinds, at these places, on that conductor. */
export interface ActLike {
  readonly kinds: readonly ActKind[];
  /** Any place if absent. */
  readonly at?: readonly Family[];
  /** Any conductor if absent. */
  readonly on?: readonly Role[];
  /** Mode by what calls in it; any if absent. */
  readonly calling?: 'nothing' | 'heating' | 'hot water';
}

/** What was found there: nothing amiss, or something amiss. */
export type Found = 'right' | 'wrong';

/** One place in an order. */
export interface Position {
  readonly id: string;
  /** The words of the trade that it stands for, shortened. */
  readonly says: string;
  /** One or two acts, the second for those who do it otherwise; looks are one block. */
  readonly accepts: readonly [ActLike] | readonly [ActLike, ActLike];
  /** Earlier positions with what they showed on this branch; those not named were right. */
  readonly after?: Readonly<Record<string, Found>>;
}

/** A complaint with its order. */
export interface Order {
  readonly id: string;
  /** Id of the symptom. */
  readonly complaint: string;
  readonly systems: readonly [string, ...string[]];
  readonly history: 'worked until now' | 'since work' | 'comes and goes';
  /** Kept out while weights and minutes are tuned. */
  readonly heldOut: boolean;
  readonly positions: readonly Position[];
}

/** Looks and operating acts with the covers on, in any order. */
export const COVERS_ON: ActLike = { kinds: ['look', 'battery', 'pair', 'reset'] };
/** The looks, tugs and short dead tests of an open, isolated box, which are one bundle. */
export const openBox = (...at: Family[]): ActLike => ({
  kinds: ['prove', 'inside', 'tug', 'dead', 'parted'],
  at,
});
/** The same where the order says that insulation is tested too. */
export const withInsulation = (...at: Family[]): ActLike => ({
  kinds: [...openBox().kinds, 'insulation'],
  at,
});
