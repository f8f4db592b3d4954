import { z } from 'zod';
import { ISOLATED } from '../../schemas/index.ts';
import type { Observation } from '../diagnosis/inference/index.ts';
import { ohms, volts } from '../units/index.ts';
import { askedAbout } from './asked.ts';
import type { Asked } from './findings.ts';
import type { Entry, Job } from './job.ts';
import { actIn, joinedIn, pointIn, refOf, type Sheet } from './sheet.ts';

/** A reading half entered. Plain data: it is saved with the job. */
export const Draft = z.strictObject({
  kind: z.enum(['live', 'dead', 'fuse', 'act']),
  /** First point; null until it is chosen. */
  from: z.string().nullable(),
  to: z.string().nullable(),
  /** Fuse link that was taken out; null for any other test. */
  branch: z.string().nullable(),
  /** Id of what hands do; null for any other test. */
  act: z.string().nullable().default(null),
  mode: z.string(),
  instrument: z.enum(['tester', 'multimeter', 'low-impedance']),
  current: z.enum(['ac', 'dc']),
  /** Figure as typed so far. */
  typed: z.string(),
  /** What a typed resistance is multiplied by: 1, 1000 or 1000000. */
  scale: z.number(),
  note: z.string(),
  /** Entry that it puts right; null for a new one. */
  edits: z.string().nullable(),
});
export type Draft = Readonly<z.infer<typeof Draft>>;

/** A reading about to be taken where the engineer stands. */
export const newDraft = (job: Job, kind: Draft['kind'] = 'live'): Draft => ({
  kind,
  from: null,
  to: null,
  branch: null,
  act: null,
  mode: kind === 'live' ? job.mode : ISOLATED,
  instrument: job.instrument,
  current: 'ac',
  typed: '',
  scale: 1,
  note: '',
  edits: null,
});

/** A draft with everything but its answer filled in from what is asked. */
export function draftFor(job: Job, asked: Exclude<Asked, { kind: 'look' }>): Draft {
  const draft = { ...newDraft(job, asked.kind), mode: asked.mode };
  if (asked.kind === 'fuse') return { ...draft, branch: asked.branch };
  if (asked.kind === 'act') return { ...draft, act: asked.id };
  const { from, to } = asked;
  if (asked.kind === 'dead') return { ...draft, from, to };
  return { ...draft, from, to, instrument: asked.instrument, current: asked.current };
}

/** An entry opened again to be put right; null for a look, which is put right where it stands. */
export function draftOf(job: Job, { id, observation, note }: Entry): Draft | null {
  const asked = askedAbout(observation);
  if (asked.kind === 'look') return null;
  return { ...draftFor(job, asked), note, edits: id };
}

/** The draft as another kind of test: what only the other kind has is let go. */
export const asKind = (job: Job, draft: Draft, kind: 'live' | 'dead'): Draft => ({
  ...newDraft(job, kind),
  note: draft.note,
  edits: draft.edits,
});

/** The draft with its first point, and the second that is usual with it. */
export function withPoint(sheet: Sheet, draft: Draft, point: string): Draft {
  const found = pointIn(sheet, point);
  const to = found?.against ?? usualAgainst(sheet, point);
  const extraLow = found?.extraLow === true && to !== null && pointIn(sheet, to)?.extraLow === true;
  const kind = draft.kind === 'live' ? draft.kind : 'dead';
  return {
    ...draft,
    kind,
    branch: null,
    act: null,
    from: point,
    to,
    current: extraLow ? 'dc' : 'ac',
  };
}

/** The draft with another second point. */
export function against(sheet: Sheet, draft: Draft, to: string): Draft {
  const bothLow = [draft.from, to].every((id) => id !== null && pointIn(sheet, id)?.extraLow);
  return { ...draft, to, current: bothLow ? 'dc' : 'ac' };
}

/** The draft as the test of a fuse link. */
export const withFuse = (draft: Draft, branch: string): Draft => ({
  ...draft,
  kind: 'fuse',
  branch,
  act: null,
  from: null,
  to: null,
  mode: ISOLATED,
});

/** An earth is read against the item's neutral, else its line. */
function usualAgainst(sheet: Sheet, point: string): string | null {
  const own = sheet.items.find(({ ref }) => ref === refOf(point))?.points ?? [];
  const others = own.filter(({ id, joined }) => id !== point && joined);
  const wanted = ['neutral', 'line', 'switched', 'earth', 'call'];
  for (const carries of wanted) {
    const found = others.find((other) => other.carries === carries);
    if (found) return found.id;
  }
  return null;
}

/** What a draft asks; null until it is whole. */
export function askedIn({
  kind,
  from,
  to,
  branch,
  act,
  mode,
  instrument,
  current,
}: Draft): Asked | null {
  if (kind === 'fuse') return branch === null ? null : { kind, mode, branch };
  if (kind === 'act') return act === null ? null : { kind, mode, id: act };
  if (from === null || to === null || from === to) return null;
  return kind === 'dead' ? { kind, mode, from, to } : { kind, mode, from, to, instrument, current };
}

/** The number typed so far, volts or ohms; null where nothing readable is typed. */
export function typedIn({ typed, scale, kind }: Draft): number | null {
  if (!/^[−-]?[0-9]*\.?[0-9]+$|^[−-]?[0-9]+\.$/.test(typed)) return null;
  const figure = Number(typed.replace('−', '-')) * (kind === 'dead' ? scale : 1);
  return Number.isFinite(figure) ? figure : null;
}

/** The observation that a draft makes with an answer in a word. */
export function observationWith(draft: Draft, answer: string): Observation | null {
  const asked = askedIn(draft);
  if (!asked || asked.kind === 'look') return null;
  if (asked.kind !== 'live') return { ...asked, answer } as Observation;
  const { kind, mode, from, to, instrument } = asked;
  return { kind, mode, from, to, instrument, answer } as Observation;
}

/** The observation that a draft makes with the figure typed; null while none is. */
export function observationTyped(sheet: Sheet, draft: Draft): Observation | null {
  const asked = askedIn(draft);
  const figure = typedIn(draft);
  if (!asked || figure === null) return null;
  if (asked.kind === 'dead') {
    const joined = joinedIn(sheet, asked.from, asked.to);
    return { ...asked, answer: { ohms: ohms(Math.abs(figure)), ...(joined && { joined }) } };
  }
  if (asked.kind !== 'live') return null;
  const { current, ...rest } = asked;
  const size = current === 'ac' ? Math.abs(figure) : figure;
  return { ...rest, answer: { volts: volts(size), current } };
}

/** The item or items that must be open for a draft's test. */
export function itemsOf(sheet: Sheet, { kind, from, to, branch, act }: Draft): string[] {
  if (kind === 'act') return [actIn(sheet, act ?? '')?.item ?? []].flat();
  if (kind === 'fuse') return branch === null ? [] : [refOf(branch)];
  return [...new Set([from, to].flatMap((point) => (point === null ? [] : refOf(point))))];
}
