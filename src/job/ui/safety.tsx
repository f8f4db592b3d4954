import type { ComponentChildren } from 'preact';
import { type Draft, itemsOf } from '../draft.ts';
import { itemIn, modeIn, pointIn, type Sheet } from '../sheet.ts';
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
  const items = itemsOf(draft).flatMap((ref) => itemIn(sheet, ref) ?? []);
  const places = items.map(({ ref }) => ref).join(' and ');
  const isolated = draft.kind !== 'live' || modeIn(sheet, draft.mode)?.isolated === true;
  const covers = [...new Set(items.map(({ cover }) => cover))].join(' and the ');
  const gas = items.filter((item) => item.gas);
  return [
    ...(gas.length > 0
      ? [
          {
            key: `gas ${places}`,
            caution: (
              <>
                The {gas.map(({ cover }) => cover).join(' and the ')} seals combustion: a registered
                gas engineer opens it, nobody else.
              </>
            ),
            tick: 'A registered gas engineer has opened it.',
          },
        ]
      : []),
    isolated
      ? draft.kind === 'live'
        ? provingDead(places)
        : deadTest(places, covers)
      : liveTest(sheet, draft, places, covers),
  ];
}

const deadTest = (places: string, covers: string): SafetyStep => ({
  key: `dead ${places}`,
  caution: (
    <>
      A dead test only where it is dead. <a href={href('/procedures/safe-isolation/')}>Isolate</a>,
      lock off, take the {covers} off, and prove dead at {places} itself, with a tester proved
      before and after. <a href={href('/procedures/dead-tests/')}>Dead tests</a>
    </>
  ),
  tick: `Isolated, locked off and proved dead at ${places}; the tester proved before and after.`,
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

function liveTest(sheet: Sheet, draft: Draft, places: string, covers: string): SafetyStep {
  const points = [draft.from, draft.to].flatMap((id) => (id ? (pointIn(sheet, id) ?? []) : []));
  const low = points.some(({ extraLow }) => extraLow);
  return {
    key: `live ${places}`,
    caution: (
      <>
        Live work, only for those competent in it. Isolate and{' '}
        <a href={href('/procedures/safe-isolation/')}>prove dead</a> before the {covers} comes off;
        probes as GS38 asks; the tester proved before and after; one hand, nobody near.
        {low &&
          ' At these terminals read each to earth on volts AC first: mains there stops the work.'}{' '}
        <a href={href('/procedures/live-tests/')}>Live tests</a>
      </>
    ),
    tick: `I am competent in live testing; tester proved, probes to GS38, the cover at ${places} taken off dead.`,
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
