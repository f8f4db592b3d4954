import { expect, test } from 'vitest';
import { contentType } from '../../src/offline/content-types.ts';
import { decodePack, encodePack } from '../../src/offline/pack.ts';

const files = [
  { path: 'index.html', type: 'text/html; charset=utf-8', body: new TextEncoder().encode('é–Ω') },
  { path: 'empty.txt', type: 'text/plain; charset=utf-8', body: new Uint8Array(0) },
  { path: 'icons/a b.png', type: 'image/png', body: new Uint8Array([0, 255, 10, 13]) },
];

test('a pack taken apart is the files put in', () => {
  expect(decodePack(encodePack(files))).toEqual(files);
  expect(decodePack(encodePack([]))).toEqual([]);
});

test('a pack starts with its header length, big-endian', () => {
  const pack = encodePack(files.slice(2));
  const header = '[["icons/a b.png","image/png",4]]';
  expect([...pack.subarray(0, 4)]).toEqual([0, 0, 0, header.length]);
  expect(new TextDecoder().decode(pack.subarray(4, 4 + header.length))).toBe(header);
});

test('a pack cut short or with bytes after its end is refused', () => {
  const pack = encodePack(files);
  const longer = new Uint8Array([...pack, 0]);
  expect(() => decodePack(pack.slice(0, -1))).toThrow(
    `a pack of ${pack.length - 1} bytes, its header says ${pack.length}: build the packs again`,
  );
  expect(() => decodePack(longer)).toThrow(
    `a pack of ${longer.length} bytes, its header says ${pack.length}: build the packs again`,
  );
  expect(() => decodePack(pack.slice(0, 20))).toThrow(RangeError);
  expect(() => decodePack(pack.slice(0, 3))).toThrow(RangeError);
});

test('media types are those registered with IANA', () => {
  expect(contentType('a/index.html')).toBe('text/html; charset=utf-8');
  expect(contentType('_astro/x.ABC.js')).toBe('text/javascript; charset=utf-8');
  expect(contentType('manifest.webmanifest')).toBe('application/manifest+json');
  expect(contentType('ICON.SVG')).toBe('image/svg+xml');
  expect(contentType('pagefind/wasm.en.pagefind')).toBe('application/octet-stream');
  expect(contentType('LICENSE')).toBe('application/octet-stream');
});
