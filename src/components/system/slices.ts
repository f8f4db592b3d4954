/** A horizontal piece of a drawing, px. */
export interface Slice {
  readonly y: number;
  readonly height: number;
}

/** Room for the drawing on the front of a printed sheet, mm. */
const ROOM = { width: 194, height: 158, gap: 4 } as const;
/** Room left above the first box of a slice, px. */
const MARGIN = 6;
/** Height to which a drawing stands beside the tables on one side, px. */
const ONE_SIDE = 1300;

/**
 * Cuts a tall drawing into pieces to be printed side by side, as many as make it largest,
 * each cut between two boxes. Where the drawing shows no boxes it stays whole.
 * @param svg the drawing; its boxes are the rectangles of class `outline`.
 */
export function slicesOf(svg: string, width: number, height: number): Slice[] {
  const pieces = height <= ONE_SIDE ? 1 : bestPieces(width, height);
  const tops = [...svg.matchAll(/class="outline" x="[\d.]+" y="([\d.]+)"/g)]
    .map(([, y]) => Number(y) - MARGIN)
    .sort((a, b) => a - b);
  const cuts = [0];
  for (let piece = 1; piece < pieces; piece++) {
    const ideal = (height * piece) / pieces;
    const nearest = tops
      .filter((y) => y > cuts.at(-1)!)
      .sort((a, b) => Math.abs(a - ideal) - Math.abs(b - ideal))[0];
    if (nearest !== undefined) cuts.push(nearest);
  }
  return cuts.map((y, i) => ({ y, height: (cuts[i + 1] ?? height) - y }));
}

function bestPieces(width: number, height: number): number {
  const scale = (n: number) =>
    Math.min((n * ROOM.height) / height, (ROOM.width - ROOM.gap * (n - 1)) / n / width);
  return [1, 2, 3, 4].reduce((best, n) => (scale(n) > scale(best) ? n : best));
}
