import { createHash } from 'node:crypto';
import { svgProblem } from './svg.ts';

/** A firm's logo as the site publishes it. */
export interface Logo {
  /** Name of the published file; it carries the content's hash. */
  readonly file: string;
  /** Media type. */
  readonly type: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** Greatest size of a logo, bytes, and greatest width and height of a bitmap, pixels. */
export const MOST_LOGO_BYTES = 100 * 1024;
const MOST_PIXELS = 2000;

/** What a bitmap file begins with. */
const SIGNATURES = {
  png: { type: 'image/png', bytes: [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a] },
  jpg: { type: 'image/jpeg', bytes: [0xff, 0xd8, 0xff] },
} as const;

/** A logo's file put to its limits: the logo, or why it cannot be one. */
export function readLogo(name: string, bytes: Uint8Array): Logo | { readonly problem: string } {
  if (bytes.length === 0) return { problem: 'the file is empty' };
  if (bytes.length > MOST_LOGO_BYTES)
    return {
      problem: `it has more than ${MOST_LOGO_BYTES / 1024} KB, the most that a logo may have`,
    };
  const ending = name.split('.').at(-1)!.toLowerCase().replace('jpeg', 'jpg');
  const problem = ending === 'svg' ? svgFault(bytes) : bitmapFault(ending, bytes);
  if (problem) return { problem };
  const hash = createHash('sha256').update(bytes).digest('hex').slice(0, 12);
  const type = ending === 'svg' ? 'image/svg+xml' : SIGNATURES[ending as 'png' | 'jpg'].type;
  return { file: `logo-${hash}.${ending}`, type, bytes: new Uint8Array(bytes) };
}

function svgFault(bytes: Uint8Array): string | undefined {
  try {
    return svgProblem(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return 'it is not UTF-8 text';
  }
}

function bitmapFault(ending: string, bytes: Uint8Array): string | undefined {
  const wanted = SIGNATURES[ending as 'png' | 'jpg'];
  if (!wanted.bytes.every((byte, i) => bytes[i] === byte))
    return `its content is not ${ending.toUpperCase()}, whatever its name says`;
  if (ending !== 'png' || bytes.length < 24)
    return ending === 'png' ? 'it is cut short' : undefined;
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  const [width, height] = [view.getUint32(16), view.getUint32(20)];
  return width > MOST_PIXELS || height > MOST_PIXELS
    ? `it is ${width} by ${height} pixels; a logo has at most ${MOST_PIXELS} either way`
    : undefined;
}
