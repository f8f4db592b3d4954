import { expect, it } from 'vitest';
import { headersFile } from '../../src/publish/headers.ts';

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
