import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader';

const wasm = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm');
prepareZXingModule({ overrides: { wasmBinary: Uint8Array.from(readFileSync(wasm)).buffer } });

/** What the QR codes in a picture say, read by a general-purpose decoder; PNG or raw pixels. */
export async function readQr(picture: Uint8Array | ImageData): Promise<string[]> {
  const found = await readBarcodes(picture, { formats: ['QRCode'], tryHarder: true });
  return found.map(({ text }) => text);
}
