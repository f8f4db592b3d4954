import { z } from 'zod';
import { SEVERITIES, StandardRule } from '../../schemas/index.ts';
import type { Reference } from '../reference/index.ts';
import { type Finding, ruleWords } from '../standards/index.ts';
import { DATA_VERSION } from './system-data.ts';

const text = z.string();

const FindingData = z.strictObject({
  at: text.meta({ description: 'Conductor, cable or item, as in W3.BU' }),
  path: text.meta({ description: 'Where in the system’s entry it is written' }),
  line: z.number().int().positive().meta({ description: 'Line of the entry’s file' }),
  message: text,
  found: text.nullable(),
  allowed: text.nullable(),
  mend: text,
});

const VerdictData = z.strictObject({
  system: text,
  standard: text,
  state: z.enum(['holds', 'breached', 'excepted', 'does not apply']),
  said: text.meta({ description: 'What was looked at, or why it does not apply' }),
  findings: z.array(FindingData).meta({ description: 'Breaches that no exception covers' }),
  excepted: z.array(
    FindingData.extend({
      exception: z.strictObject({
        why: text,
        by: text,
        from: z.iso.date(),
        until: z.iso.date(),
      }),
    }),
  ),
});

/** House standards with their limits, and what each says of every system. */
export const StandardsData = z.strictObject({
  $schema: text,
  version: z.literal(DATA_VERSION),
  judgedOn: z.iso.date().meta({ description: 'Day by which exceptions hold' }),
  standards: z.array(
    z.strictObject({
      id: text,
      title: text,
      severity: z.enum(SEVERITIES),
      rule: StandardRule,
      words: text.meta({ description: 'What is checked, in words' }),
      review: z
        .strictObject({ by: text, on: z.iso.date(), due: z.iso.date() })
        .nullable()
        .meta({ description: 'null: nobody has reviewed it yet' }),
      checked: z.iso.date().nullable().meta({
        description: 'Day of the last check by the proofs and against sources; null: none',
      }),
      sources: z.array(text),
    }),
  ),
  verdicts: z.array(VerdictData).meta({ description: 'By system, then by standard' }),
});
export type StandardsData = z.infer<typeof StandardsData>;

const deviceTitle = ({ devices }: Reference['entries'], id: string): string =>
  devices.get(id)?.data.title.toLowerCase() ?? id;

/** The open form of the house standards and their verdicts. */
export function standardsData({
  entries,
  systems,
  judgements,
  built,
}: Pick<Reference, 'entries' | 'systems' | 'judgements' | 'built'>): StandardsData {
  return {
    $schema: 'schemas/standards-data.schema.json',
    version: DATA_VERSION,
    judgedOn: built.date,
    standards: [...entries.standards.values()].map(({ id, data }) => ({
      id,
      title: data.title,
      severity: data.severity,
      rule: data.rule,
      words: ruleWords(data.rule, (device) => deviceTitle(entries, device)),
      review: data.review ?? null,
      checked: data.checked ?? null,
      sources: data.sources,
    })),
    verdicts: [...systems.values()].flatMap(({ id, entry }) => {
      const finding = ({ at, path, message, found, allowed, mend }: Finding) => ({
        at,
        path: path.map(String).join('.'),
        line: entry.locate(path).line,
        message,
        found: found ?? null,
        allowed: allowed ?? null,
        mend,
      });
      return (judgements.get(id) ?? []).map(({ standard, state, said, findings, excepted }) => ({
        system: id,
        standard,
        state,
        said,
        findings: findings.map(finding),
        excepted: excepted.map(({ exception, ...one }) => ({
          ...finding(one),
          exception: {
            why: exception.why,
            by: exception.by,
            from: exception.from,
            until: exception.until,
          },
        })),
      }));
    }),
  };
}
