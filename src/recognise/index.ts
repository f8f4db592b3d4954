/** Finding out which system one stands before: one plain question at a time. */

/** A question with its answers, as ids that systems answer to. */
export interface Question {
  readonly question: string;
  readonly choices: readonly { readonly id: string; readonly label: string }[];
}

/**
 * The first question from a place on that tells the systems left apart; -1 where none does.
 * @param left the ids that each system left answers to.
 */
export const nextQuestion = (
  questions: readonly Question[],
  from: number,
  left: readonly (readonly string[])[],
): number =>
  questions.findIndex(
    ({ choices }, i) =>
      i >= from &&
      choices.some(({ id }) => {
        const having = left.filter((ids) => ids.includes(id)).length;
        return having > 0 && having < left.length;
      }),
  );

/** Systems among which what each is recognised by tells more than another question. */
export const FEW = 3;
