const TYPES: Readonly<Record<string, string>> = {
  css: 'text/css; charset=utf-8',
  html: 'text/html; charset=utf-8',
  ico: 'image/x-icon',
  jpg: 'image/jpeg',
  js: 'text/javascript; charset=utf-8',
  json: 'application/json; charset=utf-8',
  mjs: 'text/javascript; charset=utf-8',
  png: 'image/png',
  svg: 'image/svg+xml',
  txt: 'text/plain; charset=utf-8',
  wasm: 'application/wasm',
  webmanifest: 'application/manifest+json',
  webp: 'image/webp',
  woff2: 'font/woff2',
  xml: 'application/xml; charset=utf-8',
};

/** The media type a file is served with, by the ending of its name; bytes when unknown. */
export function contentType(file: string): string {
  const ending = /\.([a-z0-9]+)$/i.exec(file)?.[1]?.toLowerCase();
  return (ending && TYPES[ending]) || 'application/octet-stream';
}
