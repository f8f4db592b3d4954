/** What the newest releases changed, for phones: read where something is new to its owner. */
import type { APIRoute } from 'astro';
import type { News } from '../../components/changes/waiting.ts';
import { currentReleases } from '../../releases/index.ts';

/** Releases that a phone is told of; whoever looked longer ago is told of these. */
const MOST = 24;

export const GET: APIRoute = async () => {
  const releases = (await currentReleases()).slice(0, MOST).map(
    ({ name, date, changes }): News => ({
      name,
      date,
      changes: changes.map(({ id, rank, about, words, reason, systems }) => ({
        id,
        rank,
        title: about.title,
        path: about.path,
        words,
        reason,
        systems,
      })),
    }),
  );
  return Response.json({ releases });
};
