const merged = new Float64Array(65_536);

/**
 * Huffman bound: the least expected number of tests that tell the leaves apart, times their
 * weight, were there a test for every split. It is the least sum of the weights of the inner
 * nodes of any tree with these leaves and at most `arity` children to a node. Source: Huffman,
 * "A method for the construction of minimum-redundancy codes", Proc. IRE 40(9), 1952; as a
 * bound in test sequencing Pattipati and Alexandridis, IEEE Trans. SMC 20(4), 1990.
 *
 * @param weights sorted in place up to `count`.
 */
export function huffmanBound(weights: Float64Array, count: number, arity: number): number {
  if (count < 2) return 0;
  sort(weights, count);
  let take = arity - ((arity - 1 - ((count - 1) % (arity - 1))) % (arity - 1));
  let total = 0;
  let leaf = 0;
  let node = 0;
  let nodes = 0;
  for (;;) {
    let sum = 0;
    for (let i = 0; i < take && (leaf < count || node < nodes); i++) {
      if (leaf < count && (node >= nodes || weights[leaf]! <= merged[node]!))
        sum += weights[leaf++]!;
      else sum += merged[node++]!;
    }
    total += sum;
    if (leaf === count && node === nodes) return total;
    merged[nodes++] = sum;
    take = arity;
  }
}

function sort(weights: Float64Array, count: number): void {
  if (count > 24) {
    weights.subarray(0, count).sort();
    return;
  }
  for (let i = 1; i < count; i++) {
    const weight = weights[i]!;
    let j = i - 1;
    for (; j >= 0 && weights[j]! > weight; j--) weights[j + 1] = weights[j]!;
    weights[j + 1] = weight;
  }
}
