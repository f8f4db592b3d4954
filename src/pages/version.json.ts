/** Version and date of this build: the one place they stand, so that no page changes with them. */
import type { APIRoute } from 'astro';
import { getReference } from '../reference/index.ts';
import { currentReleases } from '../releases/index.ts';

export const GET: APIRoute = async () => {
  const { version, date } = (await getReference()).built;
  const [newest] = await currentReleases();
  return Response.json({ version, date, ...(newest ? { release: newest.name } : {}) });
};
