/** What the composer works with on a phone: the modules, their devices, the house standards. */
import type { APIRoute } from 'astro';
import { partsFile } from '../../composer/parts-file.ts';
import { getReference } from '../../reference/index.ts';

export async function getStaticPaths() {
  const { entries } = await getReference();
  return [{ params: { hash: partsFile(entries).hash } }];
}

export const GET: APIRoute = async () => {
  const { entries } = await getReference();
  return new Response(partsFile(entries).body, {
    headers: { 'content-type': 'application/json; charset=utf-8' },
  });
};
