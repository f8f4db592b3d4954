import { certaintyText, leadText } from '../published/index.ts';
import { lowerFirst } from '../words/index.ts';
import { asDone } from './done.ts';
import type { Findings, FoundRepair, NextTest } from './findings.ts';
import type { Sheet } from './sheet.ts';
import { askedText } from './words.ts';

/** How many of what is left are named beside the likeliest. */
const MOST_LEFT = 3;

/** What the job has come to, in sentences. */
export interface Standing {
  readonly title: 'Found' | 'Not found yet' | 'Not as drawn';
  readonly lines: readonly string[];
}

/**
 * What was found, with its certainty; below that, what is left and what would tell. Null where
 * nothing was entered, or while pairs of faults are still being looked for.
 * @param next the test proposed; null where none tells any more, undefined while it is chosen.
 */
export function standingOf(
  sheet: Sheet,
  findings: Findings,
  next: NextTest | null | undefined,
): Standing | null {
  const { repairs, notAsShown, contradicted, found, count, wantsPairs, withPairs } = findings;
  if (count === 0 || (wantsPairs && !withPairs)) return null;
  const beyond = `something that is not on the drawing: ${certaintyText(notAsShown)}`;
  const said = ({ causes: [top], share }: FoundRepair) => `${top!.title}: ${leadText(share)}.`;
  const [first, ...others] = repairs;
  if (contradicted || !first)
    return {
      title: 'Not as drawn',
      lines: [
        `Likeliest: ${beyond}.`,
        ...(first
          ? [`Of what is drawn: ${first.causes[0]!.title}: ${certaintyText(first.share)}.`]
          : []),
      ],
    };
  if (found)
    return {
      title: 'Found',
      lines: [said(first), 'A test would have come out differently had this not been the cause.'],
    };
  const left = others
    .slice(0, MOST_LEFT)
    .map(({ causes: [top], share }) => `${lowerFirst(top!.title)}: ${certaintyText(share)}`);
  return {
    title: 'Not found yet',
    lines: [
      `Likeliest: ${said(first)}`,
      `Left beside it: ${[...left, beyond].join('; ')}.`,
      ...(next === undefined
        ? []
        : [
            next
              ? `What would settle it: ${askedText(sheet, next.asked)}.`
              : 'No listed test helps further: compare each core with the wiring table, isolated and proved dead.',
          ]),
    ],
  };
}

/** A repair as the record keeps it: what was found, or taken as the cause, and what was done. */
export const repairText = ({ causes: [top], repair }: FoundRepair, found: boolean): string =>
  `${top!.title}${found ? '' : ' (not found for certain)'}. ${asDone(repair)}`.trim();
