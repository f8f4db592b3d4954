import type { Spectrum } from '../../circuit/index.ts';

/**
 * Solutions kept for the next reading, by mode and current, the latest used staying longest.
 * A solution of the largest system weighs some ten kilobytes and there are hundreds of
 * faults: a phone keeps a few modes of them.
 */
export class SpectrumShelf {
  readonly #most: number;
  readonly #kept = new Map<string, Map<string, Spectrum>>();

  /** @param most modes and currents kept at once. */
  constructor(most: number) {
    this.#most = most;
  }

  /** The solution kept under two keys; made when it is not there. */
  get(key: string, id: string, make: () => Spectrum): Spectrum {
    let row = this.#kept.get(key);
    if (row) this.#kept.delete(key);
    else row = new Map();
    this.#kept.set(key, row);
    if (this.#kept.size > this.#most) this.#kept.delete(this.#kept.keys().next().value!);
    let spectrum = row.get(id);
    if (!spectrum) {
      spectrum = make();
      row.set(id, spectrum);
    }
    return spectrum;
  }
}
