import { createHash } from 'node:crypto';
import { stringify } from 'yaml';
import type { Device, Review } from '../../schemas/index.ts';
import { INSTRUMENTS, readClass, readVolts, type Simulation } from '../circuit/index.ts';
import type { Entry } from './types.ts';

/**
 * A review is of what was read: of an entry's own words and facts, of the devices that a system
 * holds, and of the figures that it gives. The seal is a hash of each, so that whatever changes
 * afterwards, in whosever file, makes the entry a draft again.
 */

/** What is read when an entry is reviewed, as text that two readings can be compared by. */
export interface Read {
  readonly text: string;
  /** Definitions of the devices that a system holds; empty for any other kind. */
  readonly devices: string;
  /** What its terminals read and what is seen in every mode; empty for any other kind. */
  readonly figures: string;
}

/** Parts of what was read, by the name under which a change is told. */
export const READ_PARTS = ['text', 'devices', 'figures'] as const;
export type ReadPart = (typeof READ_PARTS)[number];

const [TESTER] = INSTRUMENTS;

/** What a reader of an entry reads; comments, the order of keys and who reviewed it left out. */
export function readOf(
  { data, body }: Pick<Entry<object>, 'data' | 'body'>,
  simulation?: Simulation,
): Read {
  const { review, author, checked, ...facts } = data as Record<string, unknown>;
  const paragraphs = body.trim().replaceAll(/[ \t]+/g, ' ');
  return {
    text: paragraphs === '' ? yaml(facts) : `${yaml(facts)}\n${paragraphs}\n`,
    devices: simulation ? devicesOf(simulation) : '',
    figures: simulation ? figuresOf(simulation) : '',
  };
}

const yaml = (value: unknown): string =>
  stringify(value, { sortMapEntries: true, lineWidth: 0, aliasDuplicateObjects: false });

/** The devices of a system without what is only said of them. */
function devicesOf({ network }: Simulation): string {
  const held = [...network.items.values()].map(({ device }) => {
    const { summary, aliases, formerly, cautions, author, review, ...facts } = device as Device;
    return facts;
  });
  return yaml(Object.fromEntries(held.map((device) => [device.title, device])));
}

/** Each terminal to earth on the tester, and each outcome, in every mode. */
function figuresOf({ network, modes }: Simulation): string {
  const earth = network.nodes.find(({ terminal }) => terminal?.carries === 'earth')?.id;
  const terminals = network.nodes.filter(
    ({ terminal }) => terminal && terminal.carries !== 'earth',
  );
  const lines = [...modes].flatMap(([mode, { solution, outcomes }]) => [
    ...terminals.map(({ id }) => {
      if (earth === undefined) return '';
      const kind = readClass(solution, id, earth, TESTER!);
      return `${mode}: ${id} ${kind}, ${Math.round(readVolts(solution, id, earth, TESTER!, 'ac'))} V`;
    }),
    ...[...outcomes].map(([outcome, seen]) => `${mode}: ${outcome} ${seen}`),
  ]);
  return lines.filter(Boolean).join('\n');
}

/** The seal of what was read: one hash of each part that there is. */
export const sealOf = (read: Read): string =>
  READ_PARTS.filter((part) => read[part] !== '')
    .map((part) => createHash('sha256').update(read[part]).digest('hex').slice(0, 8))
    .join('-');

/** The parts that are no longer as they were when a review was sealed. */
export function changedSince(seal: string, read: Read): ReadPart[] {
  const [was, is] = [seal.split('-'), sealOf(read).split('-')];
  const parts = READ_PARTS.filter((part) => read[part] !== '');
  return parts.filter((_, i) => was[i] !== is[i]);
}

/** Why a firm's entry is a draft: nobody has read it as it stands. */
export interface Draft {
  /** The review that there was; absent where nobody ever read it. */
  readonly review?: Review;
  /** What has changed since; empty where the review was not sealed, so that nobody can tell. */
  readonly changed: readonly ReadPart[];
}

/** Whether an entry is a draft, and why; null where it is as it was when it was reviewed. */
export function draftOf(review: Review | undefined, read: Read): Draft | null {
  if (!review) return { changed: [] };
  if (review.seal === undefined) return { review, changed: [] };
  const changed = changedSince(review.seal, read);
  return changed.length > 0 ? { review, changed } : null;
}
