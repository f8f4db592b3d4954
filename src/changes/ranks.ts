/** How much a change matters to whoever does not know of it, gravest first. */
export const RANKS = {
  danger: {
    title: 'Dangerous if missed',
    says: 'Who goes by the page of before may touch what is live, or leave a house unsafe.',
  },
  act: {
    title: 'Changes what you do or read',
    says: 'Who goes by the page of before tests, reads or concludes otherwise than the page of now.',
  },
  know: {
    title: 'Worth knowing',
    says: 'The work is the same; its words are not.',
  },
} as const;
export type Rank = keyof typeof RANKS;

/** Ranks in order, gravest first. */
export const RANK_NAMES = Object.keys(RANKS) as [Rank, ...Rank[]];

interface KindOfChange {
  readonly rank: Rank;
  /** Why a change of this kind has its rank. */
  readonly because: string;
}

const kind = (rank: Rank, because: string): KindOfChange => ({ rank, because });

/** Every kind of change with its rank and the reason for it: the one table of how grave a change is. */
export const KINDS = {
  'safety procedure': kind(
    'danger',
    'The steps and words of isolating and of dead and live tests are what keeps a hand off live parts',
  ),
  'safety step': kind('danger', 'A step that bears a caution is a safety step, whatever it is of'),
  caution: kind('danger', 'A caution stands at an act that can hurt'),
  isolation: kind(
    'danger',
    'What isolates, what has to be off before a cover comes off and what may be read there',
  ),
  who: kind('danger', 'Somebody not qualified would do it by the page of before'),
  'cut-out': kind('danger', 'A safety cut-out that acts otherwise is tested and trusted wrongly'),
  protection: kind(
    'danger',
    'Fuse, breaker, earth and shock protection: a wrong one burns or shocks',
  ),
  wiring: kind('danger', 'A conductor is live or dead elsewhere than the page of before says'),
  terminal: kind('danger', 'A terminal carries something else, or is another one'),
  hazard: kind('danger', 'A fault is dangerous, or in another way than it was said to be'),
  'danger standard': kind('danger', 'Somebody may be hurt where the standard is not met'),
  'fault standard': kind('act', 'A system is in order, or not, by another limit'),
  'advice standard': kind('know', 'It is advice, and fails nothing'),
  part: kind('act', 'The device does something else, so what is seen and read is otherwise'),
  place: kind('act', 'It is found, opened or got at otherwise'),
  'terminal name': kind('act', 'The terminal is looked for by another name or for another use'),
  replacement: kind('act', 'Another device takes its place, or goes on otherwise'),
  marking: kind('act', 'It is looked for under another reference or colour'),
  'cable length': kind('act', 'Ohms along it, volt drop and loop impedance are otherwise'),
  mode: kind('act', 'The condition in which something is read is brought about otherwise'),
  outcome: kind('act', 'Something else is seen'),
  reading: kind('act', 'Something else is read'),
  sequence: kind('act', 'Another test comes first, or the tests end elsewhere'),
  fault: kind('act', 'Another fault is looked for, or put right otherwise'),
  symptom: kind('act', 'What a complaint means and what to look at first is otherwise'),
  procedure: kind('act', 'The work is done in another way'),
  recognise: kind('act', 'The arrangement in front of you is known by something else'),
  removed: kind('act', 'What a reader went by is no longer there'),
  added: kind('know', 'Nobody went by it before'),
  prose: kind('know', 'It explains; the acts and figures stand elsewhere'),
  words: kind('know', 'Titles, summaries, names to search by, the glossary and sources'),
  minutes: kind('know', 'It takes another time; the sequences say where that matters'),
  review: kind('know', 'Somebody else answers for it'),
  firm: kind('know', 'How the firm is called and reached'),
} as const satisfies Readonly<Record<string, KindOfChange>>;
export type ChangeKind = keyof typeof KINDS;

/** Every kind, in the order of the table. */
export const KIND_NAMES = Object.keys(KINDS) as [ChangeKind, ...ChangeKind[]];

/** How grave a change of a kind is. */
export const rankOf = (name: ChangeKind): Rank => KINDS[name].rank;

/** Of two ranks the graver. */
export const graver = (a: Rank, b: Rank): Rank =>
  RANK_NAMES.indexOf(a) <= RANK_NAMES.indexOf(b) ? a : b;
