import { createHash } from 'node:crypto';
import { type PartsData, partsData } from './parts-data.ts';

/**
 * The parts as a file: its name holds the hash of what is in it, so that a page never meets the
 * parts of another version. For the build alone.
 */
export function partsFile(entries: Parameters<typeof partsData>[0]): {
  readonly file: string;
  readonly hash: string;
  readonly body: string;
} {
  const data: PartsData = partsData(entries);
  const body = `${JSON.stringify(data)}\n`;
  const hash = createHash('sha256').update(body).digest('hex').slice(0, 8);
  return { file: `parts.${hash}.json`, hash, body };
}
