/** What a firm's site adds to every page: its logo and its accent colour. */
import type { APIRoute } from 'astro';
import { accentStyles } from '../../firm/index.ts';
import { getReference } from '../../reference/index.ts';

const ACCENT = 'accent.css';

export async function getStaticPaths() {
  const { firm } = await getReference();
  const files = [
    ...(firm?.logo ? [firm.logo.file] : []),
    ...(firm?.settings.accent ? [ACCENT] : []),
  ];
  return files.map((file) => ({ params: { file } }));
}

export const GET: APIRoute = async ({ params }) => {
  const { firm } = await getReference();
  if (params.file === ACCENT && firm?.settings.accent)
    return new Response(accentStyles(firm.settings.accent), {
      headers: { 'content-type': 'text/css; charset=utf-8' },
    });
  if (firm?.logo?.file !== params.file) return new Response(null, { status: 404 });
  return new Response(firm!.logo!.bytes, { headers: { 'content-type': firm!.logo!.type } });
};
