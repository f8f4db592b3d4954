/** Strength of the array: how many conditions are set together in all their ways. */
const TOGETHER = 3;

const made = new Map<number, readonly (readonly boolean[])[]>();

/**
 * A covering array of triples: rows of `count` values in which any three places take all eight
 * ways somewhere, with the row that sets none and the row that sets all. The same for the same
 * count, never drawn. Each row is filled place by place with the value that covers more of what
 * is still open (a greedy construction; some few rows above the fewest known).
 */
export function coveringRows(count: number): readonly (readonly boolean[])[] {
  if (count <= TOGETHER) return everyRow(count);
  const known = made.get(count);
  if (known) return known;
  const open = new Open(count);
  const rows = [Array(count).fill(false), Array(count).fill(true)] as boolean[][];
  for (const row of rows) open.cover(row);
  while (open.left > 0) {
    const row = open.nextRow();
    open.cover(row);
    rows.push(row);
  }
  made.set(count, rows);
  return rows;
}

/** All rows there are. */
export const everyRow = (count: number): boolean[][] =>
  Array.from({ length: 2 ** count }, (_, bits) =>
    Array.from({ length: count }, (_, i) => Math.floor(bits / 2 ** i) % 2 === 1),
  );

/** Which triples of places have not yet been set in which ways. */
class Open {
  readonly #count: number;
  /** One byte a triple of places a < b < c: a bit for each of its eight ways still open. */
  readonly #ways: Uint8Array;
  left: number;

  constructor(count: number) {
    this.#count = count;
    this.#ways = new Uint8Array(count ** TOGETHER).fill(255);
    this.left = (8 * count * (count - 1) * (count - 2)) / 6;
  }

  #at = (a: number, b: number, c: number) => (a * this.#count + b) * this.#count + c;

  cover(row: readonly boolean[]): void {
    for (let a = 0; a < this.#count; a++)
      for (let b = a + 1; b < this.#count; b++)
        for (let c = b + 1; c < this.#count; c++) {
          const bit = 1 << wayOf(row[a]!, row[b]!, row[c]!);
          const at = this.#at(a, b, c);
          if (!(this.#ways[at]! & bit)) continue;
          this.#ways[at]! ^= bit;
          this.left--;
        }
  }

  /** A row that begins with the first triple open and then takes what covers most. */
  nextRow(): boolean[] {
    const row: (boolean | undefined)[] = Array(this.#count).fill(undefined);
    const [a, b, c, way] = this.#first();
    row[a] = (way & 1) > 0;
    row[b] = (way & 2) > 0;
    row[c] = (way & 4) > 0;
    const set = [a, b, c];
    for (let place = 0; place < this.#count; place++) {
      if (row[place] !== undefined) continue;
      row[place] = this.#gain(row, set, place, true) > this.#gain(row, set, place, false);
      set.push(place);
    }
    return row.map(Boolean);
  }

  #first(): [number, number, number, number] {
    for (let a = 0; a < this.#count; a++)
      for (let b = a + 1; b < this.#count; b++)
        for (let c = b + 1; c < this.#count; c++) {
          const ways = this.#ways[this.#at(a, b, c)]!;
          for (let way = 0; way < 8; way++) if (ways & (1 << way)) return [a, b, c, way];
        }
    throw new RangeError('every triple is covered');
  }

  #gain(row: readonly (boolean | undefined)[], set: readonly number[], at: number, value: boolean) {
    let gain = 0;
    for (let i = 0; i < set.length; i++)
      for (let j = i + 1; j < set.length; j++) {
        const places = [set[i]!, set[j]!, at].toSorted((a, b) => a - b);
        const [a, b, c] = places.map((p) => (p === at ? value : row[p]!));
        if (this.#ways[this.#at(places[0]!, places[1]!, places[2]!)]! & (1 << wayOf(a!, b!, c!)))
          gain++;
      }
    return gain;
  }
}

const wayOf = (a: boolean, b: boolean, c: boolean): number =>
  Number(a) + 2 * Number(b) + 4 * Number(c);
