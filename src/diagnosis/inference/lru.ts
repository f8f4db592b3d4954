/**
 * A cache of at most so many values: the least recently used is dropped first. On a phone the
 * solutions of hundreds of faults, some ten kilobytes each, do not fit: only a few are kept.
 */
export class LruCache<T, K = string> {
  readonly #capacity: number;
  /** In order of use, the latest last. */
  readonly #kept = new Map<K, T>();

  /** @param capacity values kept at once. */
  constructor(capacity: number) {
    this.#capacity = capacity;
  }

  /** The value kept under a key; made and kept when it is not there. */
  get(key: K, make: () => T): T {
    const known = this.#kept.get(key);
    const value = known ?? make();
    if (known !== undefined) this.#kept.delete(key);
    this.#kept.set(key, value);
    if (this.#kept.size > this.#capacity) this.#kept.delete(this.#kept.keys().next().value!);
    return value;
  }
}
