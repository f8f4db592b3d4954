import { describe, expect, it } from 'vitest';
import { qrOf } from '../../src/publish/qr.ts';
import { readQr } from '../support/qr-reader.ts';

/** The shape as pixels, eight to a module, some of them painted over. */
function pixels({ size, path }: ReturnType<typeof qrOf>, stain = 0): ImageData {
  const side = size * 8;
  const data = new Uint8ClampedArray(side * side * 4).fill(255);
  const dark = (x: number, y: number, value: number) => {
    for (let dy = 0; dy < 8; dy++)
      for (let dx = 0; dx < 8; dx++) {
        const at = ((y * 8 + dy) * side + x * 8 + dx) * 4;
        data.fill(value, at, at + 3);
      }
  };
  for (const [, x, y, width] of path.matchAll(/M(\d+) (\d+)h(\d+)/g))
    for (let i = 0; i < Number(width); i++) dark(Number(x) + i, Number(y), 0);
  const middle = Math.floor(size / 2);
  for (let y = 0; y < stain; y++) for (let x = 0; x < stain; x++) dark(middle + x, middle + y, 255);
  return { data, width: side, height: side, colorSpace: 'srgb' } as ImageData;
}

const ADDRESSES = [
  'https://wiring.example/systems/combi-two-wire/',
  'https://reference.firm.example/heating/field/systems/heat-only-condensate-pump/',
  `https://long.example/${'a-long-path/'.repeat(12)}systems/x/`,
];

describe.each(ADDRESSES)('the code of %s', (address) => {
  it('is read by a general-purpose decoder', async () => {
    expect(await readQr(pixels(qrOf(address)))).toEqual([address]);
  });

  it('has the quiet zone of ISO/IEC 18004: four light modules on each side', () => {
    const { size, path } = qrOf(address);
    for (const [, x, y, width] of path.matchAll(/M(\d+) (\d+)h(\d+)/g)) {
      expect(Number(x)).toBeGreaterThanOrEqual(4);
      expect(Number(y)).toBeGreaterThanOrEqual(4);
      expect(Number(x) + Number(width)).toBeLessThanOrEqual(size - 4);
      expect(Number(y)).toBeLessThan(size - 4);
    }
  });

  it('is read with a stain on it', async () => {
    expect(await readQr(pixels(qrOf(address), 6))).toEqual([address]);
  });
});
