/** What a sheet of a replacement says in its order, whatever device it is of. */

/** One step before the old device comes off. */
export interface WorkStep {
  readonly caution?: string;
  readonly act: string;
  /** Where the act begins with isolating: the words that follow. */
  readonly isolates?: string;
  readonly expect?: string;
  readonly why?: string;
}

/** Everything before the old device comes off. @param at the item and its place, in words */
export const stepsBefore = (at: string): readonly WorkStep[] => [
  {
    act: 'Try each mode that the fault allows, and write down what the old device did and its settings.',
  },
  {
    caution:
      'A backplate stays live with its device off it. Another circuit may stand in the same box: prove every terminal.',
    act: 'Isolate, lock off and prove dead',
    isolates: ` at ${at}.`,
    expect:
      'no indication between every terminal and neutral, earth and the others; the tester proved before and after.',
  },
  {
    act: 'Photograph the terminals, and label each core by its cable and colour and by the mark printed beside its terminal.',
    expect:
      'as many cores as the table below has, in the terminals it names, and every link seen. Anything else is traced before it is moved.',
  },
  {
    act: 'Read the new device’s own instructions, and find its terminals by what they do.',
    why: 'its marks and their order are its manufacturer’s. The same letter need not mean the same.',
  },
];

export const DEAD_TESTS_CAUTION =
  'Still isolated, locked off and proved dead. Insulation tests at 500 V DC only with the new device and the boiler disconnected.';
export const WARN_CAUTION = 'Warn the customer: valves, pump and burner may start at once.';
export const PROVE_WORDS =
  'Covers on, supply on. In each mode, what must be seen, and what the two-pole tester shows.';
export const ORDER_CAUTION =
  'Isolate and lock off before any device comes off its backplate; prove dead before touching.';
export const MAKER_FIRST =
  'The manufacturer’s instructions for the new device come before this sheet, and so do local rules.';
export const SEALED = 'Sealed combustion covers only by a Gas Safe registered engineer.';

export const otherPerson = (by: string): string =>
  `Part of it is for this person only: ${by}. A sealed combustion casing is opened by a Gas Safe registered engineer, nobody else.`;
