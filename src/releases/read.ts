import { join } from 'node:path';
import type { z } from 'zod';
import { RELEASES } from '../firm/index.ts';
import { type FolderEffects, folders } from '../folder/index.ts';
import { NAME, NAME_SAYS, Release, releasePath, sealOf } from './release.ts';

/** A file of releases that is not in order: which, what was found there, and what may stand there. */
export class ReleaseProblem extends Error {
  constructor(file: string, message: string, found?: string, allowed?: string) {
    super(
      [
        `${file}: ${message}`,
        ...(found === undefined ? [] : [`  found    ${found}`]),
        ...(allowed === undefined ? [] : [`  allowed  ${allowed}`]),
      ].join('\n'),
    );
  }
}

const UNTOUCHED =
  'the file as npm run release wrote it; take it back from where the firm’s folder is kept';

/**
 * The releases of a firm's folder, the oldest first; none where there is no such folder.
 * @throws ReleaseProblem for the first file that is not as a release wrote it, or when the
 * releases are no single line from first to last.
 */
export async function readReleases(
  firm: string,
  effects: Pick<FolderEffects, 'list' | 'read'> = folders,
): Promise<Release[]> {
  const folder = join(firm, RELEASES);
  const files = await effects.list(folder).catch(() => []);
  const releases: Release[] = [];
  for (const path of files.map((file) => file.path).sort()) {
    if (/(?:^|\/)\./.test(path)) continue;
    const name = /^([^/]+)\.json$/.exec(path)?.[1];
    const file = join(folder, path);
    if (name === undefined || !NAME.test(name))
      throw new ReleaseProblem(file, 'this is no release’s file', path, `NAME.json; ${NAME_SAYS}`);
    const bytes = await effects.read(file);
    releases.push(releaseIn(file, name, new TextDecoder().decode(bytes)));
  }
  return inLine(folder, releases);
}

function releaseIn(file: string, name: string, text: string): Release {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (failure) {
    const end = text.trim().slice(-24);
    throw new ReleaseProblem(
      file,
      `it is not JSON, so it was cut short or edited: ${(failure as Error).message}`,
      text.trim() === '' ? 'an empty file' : `${text.length} characters, ending in ${end}`,
      UNTOUCHED,
    );
  }
  const { success, data, error } = Release.safeParse(value);
  if (!success) {
    const [issue] = error.issues as [z.core.$ZodIssue];
    const path = issue.path.map(String);
    const found = path.reduce<unknown>(
      (inner, key) => (inner as Record<string, unknown> | undefined)?.[key],
      value,
    );
    const message = `${path.join('.') || 'the whole'}: ${issue.message}`;
    throw new ReleaseProblem(file, message, JSON.stringify(found)?.slice(0, 80), UNTOUCHED);
  }
  if (data.name !== name)
    throw new ReleaseProblem(file, 'it is a release of another name', data.name, name);
  const seal = sealOf(data);
  if (data.seal !== seal)
    throw new ReleaseProblem(
      file,
      'it was edited since it was released: its seal is not of what it says',
      seal,
      data.seal,
    );
  return data;
}

/** The releases one after another; each but the first names the one before it. */
function inLine(folder: string, releases: readonly Release[]): Release[] {
  const line: Release[] = [];
  const names = releases.map(({ name }) => name);
  for (const release of releases) {
    const others = releases.filter(({ after }) => after === release.after);
    const file = join(folder, `${release.name}.json`);
    if (release.after !== null && !names.includes(release.after))
      throw new ReleaseProblem(
        file,
        `${RELEASES}/${release.after}.json, the release before it, is not there; a release is never deleted`,
        names.join(', '),
        `${release.after}.json beside it; take it back from where the firm’s folder is kept`,
      );
    if (others.length > 1)
      throw new ReleaseProblem(
        file,
        `after: two releases come after ${release.after ?? 'none'}: two people released at once`,
        others.map(({ name }) => name).join(', '),
        'one; release the later of them again, after the other',
      );
  }
  for (let next = releases.find(({ after }) => after === null); next; ) {
    line.push(next);
    const { name } = next;
    next = releases.find(({ after }) => after === name);
  }
  const [outside] = releases.filter((one) => !line.includes(one));
  if (outside)
    throw new ReleaseProblem(
      join(folder, `${outside.name}.json`),
      'after: no way leads to it from the first release',
      String(outside.after),
      line.map(({ name }) => name).join(', '),
    );
  return line;
}

/** A release by its name. @throws Error that names those there are. */
export function releaseNamed(releases: readonly Release[], name: string): Release {
  const found = releases.find((one) => one.name === name);
  if (found) return found;
  const names = releases.map((one) => one.name).join(', ') || 'none yet';
  throw new Error(`There is no release ${name} (${releasePath(name)}). Releases: ${names}`);
}
