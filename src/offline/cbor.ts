/** What the search index is written in: whole numbers, texts and lists of these. */
export type Value = number | string | readonly Value[];

/** Major types of CBOR that the index uses (RFC 8949, section 3.1). */
const UNSIGNED = 0;
const NEGATIVE = 1;
const TEXT = 3;
const LIST = 4;

/**
 * Reads one value of CBOR (RFC 8949), of the kinds named above and of definite length.
 * @throws RangeError at anything else
 */
export function decodeCbor(bytes: Uint8Array): Value {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const decoder = new TextDecoder();
  let at = 0;
  function head(): [major: number, argument: number] {
    const first = view.getUint8(at++);
    const [major, short] = [first >> 5, first & 31];
    if (short < 24) return [major, short];
    const width = { 24: 1, 25: 2, 26: 4 }[short];
    if (!width) throw new RangeError(`CBOR head ${first} at byte ${at - 1} is not one of an index`);
    const argument =
      width === 1 ? view.getUint8(at) : width === 2 ? view.getUint16(at) : view.getUint32(at);
    at += width;
    return [major, argument];
  }
  function value(): Value {
    const [major, argument] = head();
    if (major === UNSIGNED) return argument;
    if (major === NEGATIVE) return -1 - argument;
    if (major === TEXT) {
      const text = decoder.decode(bytes.subarray(at, at + argument));
      at += argument;
      return text;
    }
    if (major === LIST) return Array.from({ length: argument }, value);
    throw new RangeError(`CBOR type ${major} is not one of an index`);
  }
  return value();
}

/** Writes a value as CBOR, each head in as few bytes as it takes (RFC 8949, section 4.2.1). */
export function encodeCbor(value: Value): Uint8Array<ArrayBuffer> {
  const out: number[] = [];
  const encoder = new TextEncoder();
  const head = (major: number, argument: number) => {
    const first = major << 5;
    if (argument < 24) out.push(first | argument);
    else if (argument < 0x100) out.push(first | 24, argument);
    else if (argument < 0x10000) out.push(first | 25, argument >> 8, argument & 255);
    else {
      out.push(first | 26, argument >>> 24, (argument >> 16) & 255);
      out.push((argument >> 8) & 255, argument & 255);
    }
  };
  const write = (one: Value): void => {
    if (typeof one === 'number') head(one < 0 ? NEGATIVE : UNSIGNED, one < 0 ? -1 - one : one);
    else if (typeof one === 'string') {
      const text = encoder.encode(one);
      head(TEXT, text.length);
      for (const byte of text) out.push(byte);
    } else {
      head(LIST, one.length);
      one.forEach(write);
    }
  };
  write(value);
  return new Uint8Array(out);
}
