import type { ComponentChildren } from 'preact';
import { type Draft, itemsOf } from '../draft.ts';
import { openingsFor } from '../openings.ts';
import { actIn, itemIn, modeIn, pointIn, type Sheet } from '../sheet.ts';
import { Caution, href, Tick } from './parts.tsx';

/** State of the supply in which something is done. */
export type Supply = 'isolated' | 'on';

/** A caution at an act, with what the reader ticks before it. */
export interface SafetyStep {
  /** What the tick holds for: the same act at the same place. */
  readonly key: string;
  /** The state of the supply in which the tick holds. */
  readonly supply: Supply;
  readonly caution: ComponentChildren;
  readonly tick: string;
  /** What of it stands over the answers once it is ticked, in a line. */
  readonly held: string;
}

/** What must be said and done before a draft's test, at the items it opens. */
export function safetyOf(sheet: Sheet, draft: Draft): SafetyStep[] {
  const items = itemsOf(sheet, draft).flatMap((ref) => itemIn(sheet, ref) ?? []);
  const places = items.map(({ ref }) => ref).join(' and ');
  const isolated = draft.kind !== 'live' || modeIn(sheet, draft.mode)?.isolated === true;
  const isProving = draft.kind === 'live' || actIn(sheet, draft.act ?? '')?.act === 'prove';
  const openings = openingsFor(sheet, draft);
  const covers = openings.map(({ title }) => title).join(' and the ') || 'cover';
  const points = [draft.from, draft.to].flatMap((id) => (id ? (pointIn(sheet, id) ?? []) : []));
  const care = [
    ...openings.flatMap((opening) => opening.care || []),
    ...new Set(points.flatMap((point) => point.care || [])),
  ].join(' ');
  if (openings.some(({ needs }) => needs === 'switch off')) return [frontFuse(places)];
  return [
    ...openings.flatMap(({ title, by }) =>
      by === 'controls engineer'
        ? []
        : [
            {
              key: `${by} ${places}`,
              supply: isolated ? ('isolated' as const) : ('on' as const),
              caution: (
                <>
                  The {title} is opened by: {by}. Nobody else.
                </>
              ),
              tick: `Opened by: ${by}.`,
              held: `Opened by: ${by}.`,
            },
          ],
    ),
    isolated
      ? isProving
        ? provingDead(places, care)
        : deadTest(places, covers, care)
      : liveTest(places, covers, care),
  ];
}

const frontFuse = (places: string): SafetyStep => ({
  key: `fuse ${places}`,
  supply: 'isolated',
  caution: (
    <>
      Switch {places} off first. The fuse carrier draws out from the front; nothing goes into its
      slot. On a spur without a switch this opens the line only: treat the neutral as live.
    </>
  ),
  tick: `${places} switched off.`,
  held: `${places} switched off; nothing into its slot.`,
});

const deadTest = (places: string, covers: string, care: string): SafetyStep => ({
  key: `dead ${places}`,
  supply: 'isolated',
  caution: (
    <>
      <a href={href('/procedures/safe-isolation/')}>Isolate, lock off</a>, the {covers} off, and
      prove dead at {places} itself: tester proved before and after. {care}
    </>
  ),
  tick: `Isolated, locked off and proved dead at ${places}`,
  held: `Isolated and proved dead at ${places}.`,
});

const provingDead = (places: string, care: string): SafetyStep => ({
  key: `proving ${places}`,
  supply: 'isolated',
  caution: (
    <>
      Until it is proved dead it is live. Prove the tester on a known source, test at {places} as if
      it were live, prove the tester again. {care}{' '}
      <a href={href('/procedures/safe-isolation/')}>Safe isolation</a>
    </>
  ),
  tick: 'Isolated and locked off; the tester proved before, and again after.',
  held: 'Live until proved dead; tester proved after.',
});

const liveTest = (places: string, covers: string, care: string): SafetyStep => ({
  key: `live ${places}`,
  supply: 'on',
  caution: (
    <>
      <a href={href('/procedures/live-tests/')}>Live work</a>: one hand, nobody near.{' '}
      <a href={href('/procedures/safe-isolation/')}>Isolate</a>, the {covers} off, prove dead; then
      restore. {care}
    </>
  ),
  tick: `I am competent in live testing: GS38 probes, tester proved before and after, ${places} opened dead`,
  held: 'Live: one hand, GS38 probes, nobody near.',
});

interface Props {
  readonly steps: readonly SafetyStep[];
  readonly ticks: ReadonlySet<string>;
  readonly onTick: (step: SafetyStep, done: boolean) => void;
}

/** Cautions and ticks, at the act. */
export const SafetySteps = ({ steps, ticks, onTick }: Props) => (
  <>
    {steps.map((step) => (
      <div class="safety" key={step.key}>
        <Caution>{step.caution}</Caution>
        <Tick done={ticks.has(step.key)} onChange={(done) => onTick(step, done)}>
          {step.tick}
        </Tick>
      </div>
    ))}
  </>
);
