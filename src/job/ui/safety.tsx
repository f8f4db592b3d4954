import type { ComponentChildren } from 'preact';
import { type Draft, itemsOf } from '../draft.ts';
import { itemIn, modeIn, openingsFor, pointIn, type Sheet } from '../sheet.ts';
import { Caution, href, Tick } from './parts.tsx';

/** A caution at an act, with what the reader ticks before it. */
export interface SafetyStep {
  /** What the tick holds for: the same act at the same place in the same state of the supply. */
  readonly key: string;
  readonly caution: ComponentChildren;
  readonly tick: string;
}

/** What must be said and done before a draft's test, at the items it opens. */
export function safetyOf(sheet: Sheet, draft: Draft): SafetyStep[] {
  const items = itemsOf(sheet, draft).flatMap((ref) => itemIn(sheet, ref) ?? []);
  const places = items.map(({ ref }) => ref).join(' and ');
  const isolated = draft.kind !== 'live' || modeIn(sheet, draft.mode)?.isolated === true;
  const openings = openingsFor(sheet, draft);
  const covers = openings.map(({ title }) => title).join(' and the ') || 'cover';
  const care = openings.flatMap((opening) => opening.care || []).join(' ');
  if (openings.some(({ needs }) => needs === 'switch off')) return [frontFuse(places)];
  return [
    ...openings.flatMap(({ title, by }) =>
      by === 'controls engineer'
        ? []
        : [
            {
              key: `${by} ${places}`,
              caution: (
                <>
                  The {title} is opened by: {by}. Nobody else.
                </>
              ),
              tick: `Opened by: ${by}.`,
            },
          ],
    ),
    isolated
      ? draft.kind === 'live'
        ? provingDead(places)
        : deadTest(places, covers, care)
      : liveTest(sheet, draft, places, covers, care),
  ];
}

const frontFuse = (places: string): SafetyStep => ({
  key: `fuse ${places}`,
  caution: (
    <>
      Switch {places} off first. The fuse carrier draws out from the front; nothing goes into its
      slot. On a spur without a switch this opens the line only: treat the neutral as live.
    </>
  ),
  tick: `${places} switched off.`,
});

const deadTest = (places: string, covers: string, care: string): SafetyStep => ({
  key: `dead ${places}`,
  caution: (
    <>
      <a href={href('/procedures/safe-isolation/')}>Isolate, lock off</a>, the {covers} off, and
      prove dead at {places} itself: tester proved before and after. {care}
    </>
  ),
  tick: `Isolated, locked off and proved dead at ${places}`,
});

const provingDead = (places: string): SafetyStep => ({
  key: `proving ${places}`,
  caution: (
    <>
      Until it is proved dead it is live. Prove the tester on a known source, test at {places} as if
      it were live, prove the tester again.{' '}
      <a href={href('/procedures/safe-isolation/')}>Safe isolation</a>
    </>
  ),
  tick: 'Isolated and locked off; the tester proved before, and again after.',
});

function liveTest(
  sheet: Sheet,
  draft: Draft,
  places: string,
  covers: string,
  care: string,
): SafetyStep {
  const points = [draft.from, draft.to].flatMap((id) => (id ? (pointIn(sheet, id) ?? []) : []));
  const low = points.some(({ extraLow }) => extraLow);
  return {
    key: `live ${places}`,
    caution: (
      <>
        <a href={href('/procedures/live-tests/')}>Live work</a>: one hand, nobody near.{' '}
        <a href={href('/procedures/safe-isolation/')}>Isolate and prove dead</a> before the {covers}{' '}
        comes off.
        {low &&
          ' At these terminals read each to earth on volts AC first: mains there stops the work.'}{' '}
        {care && ` ${care}`}
      </>
    ),
    tick: `I am competent in live testing: GS38 probes, tester proved before and after, ${places} opened dead`,
  };
}

interface Props {
  readonly steps: readonly SafetyStep[];
  readonly ticks: ReadonlySet<string>;
  readonly onTick: (key: string, done: boolean) => void;
}

/** Cautions and ticks, at the act. */
export const SafetySteps = ({ steps, ticks, onTick }: Props) => (
  <>
    {steps.map(({ key, caution, tick }) => (
      <div class="safety" key={key}>
        <Caution>{caution}</Caution>
        <Tick done={ticks.has(key)} onChange={(done) => onTick(key, done)}>
          {tick}
        </Tick>
      </div>
    ))}
  </>
);
