/** Every order of a short list, in lexicographic order of positions. */
export function* permutations<T>(values: readonly T[]): Generator<T[]> {
  if (values.length === 0) {
    yield [];
    return;
  }
  for (const [i, first] of values.entries()) {
    const rest = values.filter((_, j) => j !== i);
    for (const tail of permutations(rest)) yield [first, ...tail];
  }
}

/** The first of the values that costs least; undefined where there are no values. */
export function cheapest<T>(values: Iterable<T>, cost: (value: T) => number): T | undefined {
  let best: T | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const value of values) {
    const its = cost(value);
    if (its < least) {
      least = its;
      best = value;
    }
  }
  return best;
}
