import {
  FAMILIES,
  type Family,
  type FamilyShares,
  HISTORIES,
  type History,
  OUR_SHARES,
} from '../../diagnosis/index.ts';
import { derived, type Source } from '../../published/index.ts';
import type { CountedVisit } from '../counts.ts';
import type { Interval } from './beta.ts';
import { type Met, type Posterior, shareInterval, Tally } from './posterior.ts';
import { type Compared, foretold } from './scores.ts';

/**
 * Visits that the table of shares is taken to be worth, where a firm does not say otherwise. The
 * sizes are to be trusted within twice or half, the small ones within five times (`FAMILIES`). A
 * share of 5 % held with the strength of 100 visits lies between half and nearly twice of that in
 * nine cases of ten, and one of 1 % within some five times.
 */
export const DEFAULT_STRENGTH = 100;

/** Families in the order of their table. */
export const FAMILY_IDS = Object.keys(FAMILIES) as Family[];

/** One family in one history: what the table says, what was counted, what follows. */
export interface LearnedRow {
  readonly family: Family;
  readonly title: string;
  /** Share of the calls, by the table. */
  readonly ours: number;
  readonly counted: number;
  /** Visits to systems that could have shown it. */
  readonly chances: number;
  readonly posterior: Interval;
}

/** One history. */
export interface LearnedHistory {
  readonly history: History;
  /** Visits with a cause of some family. */
  readonly visits: number;
  readonly rows: readonly LearnedRow[];
  /** Null where nothing was counted. */
  readonly foretold: Compared | null;
}

/** What a firm's visits make of the shares. */
export interface Learned {
  /** Visits with a cause of some family, in any history. */
  readonly visits: number;
  /** Visits at which nothing was wrong, or something that no family is of. */
  readonly aside: { readonly sound: number; readonly other: number };
  readonly strength: number;
  readonly histories: readonly LearnedHistory[];
  /** What takes the place of the table, in its own scale. */
  readonly families: FamilyShares;
}

/** Where learned shares come from, as pages and data say it. */
export const learnedSource = ({ visits }: Pick<Learned, 'visits'>): Source =>
  derived(`this firm, ${visits} ${visits === 1 ? 'visit' : 'visits'}, over common practice`);

/**
 * The shares of families as a Dirichlet posterior: our table as the prior, of a strength in
 * visits, and the firm's own counts.
 * @param familiesOf the families that a system has; undefined where it is not known
 */
export function learn(
  visits: readonly CountedVisit[],
  strength: number,
  familiesOf: (system: string) => ReadonlySet<Family> | undefined,
): Learned {
  const inOrder = visits.toSorted((a, b) => (`${a.on} ${a.id}` < `${b.on} ${b.id}` ? -1 : 1));
  const histories = HISTORIES.map((history, at) =>
    learnHistory(
      history,
      FAMILY_IDS.map((family) => OUR_SHARES[family][at]!),
      strength,
      inOrder.flatMap((visit) => (visit.history === history ? metIn(visit, familiesOf) : [])),
    ),
  );
  const learned = histories.map(({ shares }) => shares);
  return {
    visits: histories.reduce((sum, { told }) => sum + told.visits, 0),
    aside: {
      sound: visits.filter(({ family }) => family === 'sound').length,
      other: visits.filter(({ family }) => family === 'other').length,
    },
    strength,
    histories: histories.map(({ told }) => told),
    families: Object.fromEntries(
      FAMILY_IDS.map((family, i) => [family, learned.map((shares) => shares[i]!)]),
    ) as unknown as FamilyShares,
  };
}

function metIn(
  { system, family }: CountedVisit,
  familiesOf: (system: string) => ReadonlySet<Family> | undefined,
): Met[] {
  if (family === 'sound' || family === 'other') return [];
  const has = familiesOf(system);
  const place = (one: Family) => FAMILY_IDS.indexOf(one);
  return [{ family: place(family), among: has && new Set([...has].map(place)) }];
}

function learnHistory(
  history: History,
  table: readonly number[],
  strength: number,
  met: readonly Met[],
): { readonly told: LearnedHistory; readonly shares: readonly number[] } {
  const total = table.reduce((sum, share) => sum + share, 0);
  const prior = table.map((share) => share / total);
  const tally = new Tally(prior.length);
  for (const one of met) tally.add(one);
  const posterior: Posterior = tally.posterior(prior, strength);
  const rows = FAMILY_IDS.map(
    (family, i): LearnedRow => ({
      family,
      title: FAMILIES[family].title,
      ours: prior[i]!,
      counted: posterior.counts[i]!,
      chances: posterior.chances[i]!,
      posterior: shareInterval(posterior, i),
    }),
  );
  return {
    told: {
      history,
      visits: met.length,
      rows,
      foretold: met.length === 0 ? null : foretold(met, prior, strength),
    },
    // Where nothing was counted the table's own numbers stand, to the last digit.
    shares: met.length === 0 ? table : posterior.shares.map((share) => share * total),
  };
}
