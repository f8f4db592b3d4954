/**
 * A pack is many files in one download: a length (4 bytes, big-endian), a JSON header of that
 * many bytes, then the files' bytes one after the other in the header's order. On the wire it
 * is gzipped; here it is not.
 */

/** A file of the site. */
export interface PackedFile {
  /** Path from the site's base, as in systems/combi/index.html. */
  readonly path: string;
  /** Media type it is served with. */
  readonly type: string;
  readonly body: Uint8Array<ArrayBuffer>;
}

/** One file in a pack's header: path, media type, length in bytes. */
type HeaderLine = readonly [path: string, type: string, bytes: number];

const LENGTH_BYTES = 4;

/** Joins files into a pack, in the order given. */
export function encodePack(files: readonly PackedFile[]): Uint8Array<ArrayBuffer> {
  const lines: HeaderLine[] = files.map(({ path, type, body }) => [path, type, body.length]);
  const header = new TextEncoder().encode(JSON.stringify(lines));
  const bodies = files.reduce((sum, { body }) => sum + body.length, 0);
  const pack = new Uint8Array(LENGTH_BYTES + header.length + bodies);
  new DataView(pack.buffer).setUint32(0, header.length);
  pack.set(header, LENGTH_BYTES);
  let at = LENGTH_BYTES + header.length;
  for (const { body } of files) {
    pack.set(body, at);
    at += body.length;
  }
  return pack;
}

/**
 * Takes a pack apart. The bodies are views of the pack's own bytes.
 * @throws RangeError when the pack is shorter or longer than its header says.
 */
export function decodePack(pack: Uint8Array<ArrayBuffer>): PackedFile[] {
  const headerBytes = pack.length < LENGTH_BYTES ? 0 : viewOf(pack).getUint32(0);
  let at = LENGTH_BYTES + headerBytes;
  if (at > pack.length) throw lengthError(pack.length, at);
  const lines: readonly HeaderLine[] = JSON.parse(
    new TextDecoder().decode(pack.subarray(LENGTH_BYTES, at)),
  );
  const told = lines.reduce((sum, [, , bytes]) => sum + bytes, at);
  if (told !== pack.length) throw lengthError(pack.length, told);
  return lines.map(([path, type, bytes]) => {
    const body = pack.subarray(at, at + bytes);
    at += bytes;
    return { path, type, body };
  });
}

const viewOf = (pack: Uint8Array) => new DataView(pack.buffer, pack.byteOffset, pack.byteLength);

const lengthError = (got: number, expected: number) =>
  new RangeError(`a pack of ${got} bytes, its header says ${expected}: build the packs again`);
