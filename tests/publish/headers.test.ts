import { expect, it } from 'vitest';
import { cacheControl, headersFile } from '../../src/publish/headers.ts';

it.each([
  [undefined, '/*', '/_astro/*'],
  ['/', '/*', '/_astro/*'],
  ['/field/reference/', '/field/reference/*', '/field/reference/_astro/*'],
  ['/field', '/field/*', '/field/_astro/*'],
])('the headers file under %s names its paths', (base, all, hashed) => {
  const lines = headersFile(base).split('\n');
  expect(lines.filter((line) => line.startsWith('/')).slice(0, 2)).toEqual([all, hashed]);
  expect(lines).toContain('  X-Frame-Options: DENY');
  expect(lines).toContain("  Content-Security-Policy: frame-ancestors 'none'");
});

it('what is named by its hash is kept for good; what tells of a newer version never unasked', () => {
  const blocks = new Map(
    headersFile()
      .split('\n\n')
      .map((block) => {
        const [path = '', ...lines] = block.trim().split('\n');
        return [path, lines.map((line) => line.trim())] as const;
      }),
  );
  const kept = 'Cache-Control: public, max-age=31536000, immutable';
  expect(blocks.get('/_astro/*')).toEqual([kept]);
  expect(blocks.get('/offline/packs/*')).toEqual([kept]);
  for (const file of ['/sw.js', '/version.json', '/offline/manifest.json'])
    expect(blocks.get(file)).toEqual(['Cache-Control: no-cache']);
  expect(cacheControl('offline/packs/x.pack')).toContain('immutable');
  expect(cacheControl('offline/manifest.json')).toBe('no-cache');
});
