import { createHash } from 'node:crypto';
import { z } from 'zod';

const text = z.string();

/** What a system's data tells of faults, tests and replacements, as far as a reader acts on it. */
export const ToldFacts = z.object({
  faults: z.record(
    text,
    z.object({ title: text, repair: text, who: text, hazard: text.nullable() }),
  ),
  /**
   * By the symptom that a sequence starts from, then by what the customer says; `ends` is a hash of
   * the faults that each end leaves together.
   */
  sequences: z.record(text, z.record(text, z.object({ title: text, first: text, ends: text }))),
  /** Verdict by item and by the device in its place. */
  replacements: z.record(text, z.string()),
});
export type ToldFacts = z.infer<typeof ToldFacts>;

/** The parts of a system's open data that it is taken from. */
const Raw = z.object({
  definition: z.object({
    items: z.array(
      z.object({
        reference: text,
        title: text,
        outcomes: z.record(text, z.object({ title: text })),
      }),
    ),
  }),
  modes: z.array(z.object({ id: text, title: text })),
  diagnosis: z.object({
    tests: z.array(
      z.object({
        id: text,
        kind: text,
        mode: text,
        about: text,
        points: z.array(text),
        act: z.object({ does: text }).nullable(),
      }),
    ),
    faults: z.array(
      z.object({ id: text, title: text, repair: text, who: text, hazard: text.nullable() }),
    ),
  }),
  sequences: z.array(
    z.object({
      id: text,
      title: text,
      history: text,
      first: z.union([z.object({ step: z.number() }), z.object({ end: z.number() })]),
      steps: z.array(z.object({ test: text })),
      ends: z.array(z.object({ faults: z.array(text) })),
    }),
  ),
  replacements: z.array(z.object({ item: text, new: text, verdict: text })),
});
type Raw = z.infer<typeof Raw>;

/** A system's data with what it tells beside it; as it was where it has no such parts. */
export function withTold(data: unknown): unknown {
  if (typeof data !== 'object' || data === null || 'told' in data) return data;
  const { success, data: raw } = Raw.safeParse(data);
  return success ? { ...data, told: toldIn(raw) } : data;
}

function toldIn(raw: Raw): ToldFacts {
  const sequences: ToldFacts['sequences'] = {};
  for (const { id, title, history, first, steps, ends } of raw.sequences) {
    const start = 'step' in first ? steps[first.step - 1]?.test : undefined;
    const left = ends.map(({ faults }) => faults.toSorted().join(' ')).toSorted();
    sequences[id] = {
      ...sequences[id],
      [history]: {
        title,
        first: start === undefined ? 'no test: one repair is left' : testWords(raw, start),
        ends: createHash('sha256').update(left.join('\n')).digest('hex').slice(0, 16),
      },
    };
  }
  return {
    faults: Object.fromEntries(
      raw.diagnosis.faults.map(({ id, ...fault }) => [id, fault] as const),
    ),
    sequences,
    replacements: Object.fromEntries(
      raw.replacements.map(({ item, new: other, verdict }) => [`${item} by ${other}`, verdict]),
    ),
  };
}

/** A test in a few words, from the open data alone. */
function testWords({ definition, modes, diagnosis }: Raw, id: string): string {
  const test = diagnosis.tests.find((one) => one.id === id);
  if (!test) return id;
  const mode = modes.find((one) => one.id === test.mode)?.title ?? test.mode;
  return `${actWords(definition.items, test)} (${mode})`;
}

function actWords(
  items: Raw['definition']['items'],
  { kind, about, points, act }: Raw['diagnosis']['tests'][number],
): string {
  const [reference = '', name = ''] = about.split(/[./]/);
  const item = items.find((one) => one.reference === reference);
  const where = item ? `${item.title} ${reference}` : reference;
  const pair = points.join(' to ');
  switch (kind) {
    case 'look':
      return `look for “${item?.outcomes[name]?.title ?? name}” at ${where}`;
    case 'live':
      return `read ${pair}`;
    case 'dead':
      return `test ${pair} dead`;
    case 'fuse':
      return `test the fuse of ${where}`;
    default:
      return `${ACTS[act?.does ?? ''] ?? 'an act at'} ${pair || where}`;
  }
}

const ACTS: Readonly<Record<string, string>> = {
  prove: 'prove dead at',
  inside: 'look inside and tug each core at',
  compare: 'compare the wiring at',
  core: 'test the disconnected core',
  part: 'test the part, disconnected,',
  spindle: 'turn the spindle of',
  link: 'lay a link at',
};
