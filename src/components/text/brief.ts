/** A first sentence shorter than this names what is dangerous, and not yet what to do about it. */
const SAYS_ENOUGH = 30;

/**
 * The sentences of a caution that may stand alone at the head of a page, and those that follow.
 * What is cut off stands whole further down: nothing of a caution may be lost.
 *
 * @returns The first sentence, or the first two where one says too little, and what is left: empty
 *   where nothing is.
 */
export function brief(caution: string): readonly [first: string, rest: string] {
  const [first = '', ...rest] = caution.split(/(?<=[.!?])\s+(?=[A-Z0-9“"])/);
  return first.length < SAYS_ENOUGH && rest.length > 0
    ? [`${first} ${rest[0]}`, rest.slice(1).join(' ')]
    : [first, rest.join(' ')];
}
