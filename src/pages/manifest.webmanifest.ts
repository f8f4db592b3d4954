/** What a phone needs to keep the site on its home screen, under the firm's name where there is one. */
import type { APIRoute } from 'astro';
import { getReference } from '../reference/index.ts';

const ABOUT = 'Wiring, expected readings and test sequences for domestic heating controls.';

export const GET: APIRoute = async () => {
  const { firm } = await getReference();
  const { name, shortName } = firm?.settings ?? { name: 'Proveline', shortName: 'Proveline' };
  const icon = (src: string, sizes: string) => ({ src, sizes, type: 'image/png' });
  const manifest = {
    name: `${name}: heating controls reference`,
    short_name: shortName ?? name.split(' ')[0]?.slice(0, 12),
    description: `${ABOUT} Works with no signal.`,
    lang: 'en-GB',
    id: './',
    start_url: './',
    scope: './',
    display: 'standalone',
    background_color: '#f7f7f3',
    theme_color: '#1a2226',
    categories: ['utilities', 'productivity'],
    icons: [
      { src: 'icons/icon.svg', sizes: 'any', type: 'image/svg+xml' },
      icon('icons/icon-192.png', '192x192'),
      icon('icons/icon-512.png', '512x512'),
      { ...icon('icons/maskable-512.png', '512x512'), purpose: 'maskable' },
    ],
    shortcuts: [
      { name: 'Search', url: 'search/' },
      { name: 'Safe isolation', url: 'procedures/safe-isolation/' },
    ],
  };
  return new Response(`${JSON.stringify(manifest, null, 2)}\n`, {
    headers: { 'content-type': 'application/manifest+json' },
  });
};
