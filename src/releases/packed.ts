import { brotliCompressSync, brotliDecompressSync, constants } from 'node:zlib';

/** Plain data as compressed text that stands in one line of a file. */
export function pack(value: unknown): string {
  const json = Buffer.from(JSON.stringify(value));
  return brotliCompressSync(json, {
    params: {
      [constants.BROTLI_PARAM_QUALITY]: 10,
      [constants.BROTLI_PARAM_LGWIN]: 24,
      [constants.BROTLI_PARAM_SIZE_HINT]: json.length,
    },
  }).toString('base64');
}

/**
 * The data of such a text.
 * @throws Error where it is none.
 */
export const unpack = (text: string): unknown =>
  JSON.parse(brotliDecompressSync(Buffer.from(text, 'base64')).toString('utf8'));
