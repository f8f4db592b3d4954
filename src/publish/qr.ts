import { encode } from 'uqr';

/** A QR code (ISO/IEC 18004) as one SVG path, in a square of `size` units. */
export interface QrShape {
  /** Side of the whole square, quiet zone included, in modules. */
  readonly size: number;
  /** Path data of the dark modules. */
  readonly path: string;
}

/** Light modules that ISO/IEC 18004 asks for on each side. */
const QUIET = 4;

/**
 * The code that leads a phone's camera to an address. A quarter of it may be scratched or
 * painted over (error correction level Q): it hangs in a boiler cupboard.
 */
export function qrOf(address: string): QrShape {
  const { data, size } = encode(address, { ecc: 'Q', border: QUIET });
  const runs: string[] = [];
  for (let y = 0; y < size; y++)
    for (let x = 0; x < size; x++) {
      let width = 0;
      while (data[y]![x + width]) width += 1;
      if (width === 0) continue;
      runs.push(`M${x} ${y}h${width}v1h-${width}z`);
      x += width;
    }
  return { size, path: runs.join('') };
}
