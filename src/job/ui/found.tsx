import { useEffect, useMemo, useRef } from 'preact/hooks';
import { answerWord } from '../../diagnosis/inference/index.ts';
import type { TestAnswer } from '../../diagnosis/tests/index.ts';
import { certaintyText } from '../../published/index.ts';
import { lowerFirst, terminalWords } from '../../words/index.ts';
import type { Desk } from '../desk.ts';
import type { DeskState } from '../desk-state.ts';
import type { FoundPath, FoundRepair } from '../findings.ts';
import { addRepair, type Job, openEntries } from '../job.ts';
import { itemIn, modeIn, type Sheet } from '../sheet.ts';
import { repairText } from '../standing.ts';
import { Drawing, drawnBy, type Mark } from './drawing.tsx';
import { Caution, href } from './parts.tsx';

interface Props {
  readonly desk: Desk;
  readonly state: DeskState;
  readonly job: Job;
  readonly sheet: Sheet;
  readonly repair: FoundRepair;
  /** Whether it is found; else it is shown because the reader goes with it. */
  readonly found: boolean;
  /** Whether the reader has it before them, and nothing was worked out. */
  readonly seen: boolean;
  readonly onTestOn: () => void;
}

/** What is wrong, once it is found: what, why, the repair, who may do it, what stays live. */
export function Found({ desk, state, job, sheet, repair, found, seen, onTestOn }: Props) {
  const top = repair.causes[0]!;
  const read = useMemo(() => marksOf(job), [job]);
  const path = state.path?.key === repair.key ? state.path.path : null;
  // After each ranking anew: what it leaves is worked out where it is shown, and nowhere else.
  useEffect(() => desk.askPath(repair.key), [desk, repair]);
  const marks = useMemo(() => new Map([...pathMarks(path), ...read]), [path, read]);
  const title = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    scrollTo({ top: 0 });
    // The answer that led here is gone: what was found is read out, and keys go on there.
    if (document.activeElement === document.body) title.current?.focus({ preventScroll: true });
  }, []);
  return (
    <section class="panel found" aria-labelledby="next-title" data-found={found ? '' : undefined}>
      <div class="panel-head">
        <h2 id="next-title" tabIndex={-1} ref={title}>
          {found ? 'Found' : 'Not found for certain'}
        </h2>
        <p class="certainty">{seen ? 'seen there' : certaintyText(repair.share)}</p>
      </div>
      <p class="next-what">{top.title}</p>
      <BeforeRepair repair={repair} hazard={top.hazard} stays={staysLive(sheet)} />
      {repair.safeguard ? (
        <Caution>{repair.repair}</Caution>
      ) : (
        <p class="repair-words">{repair.repair}</p>
      )}
      {repair.who.length > 0 && !repair.asItIs && (
        <p class="by">
          By: <b>{repair.who.join(', ')}</b>.
        </p>
      )}
      <RepairAct desk={desk} repair={repair} found={found} look="main-act" />
      {repair.proving !== '' && !repair.asItIs && (
        <p class="quiet">Then: {lowerFirst(repair.proving)}</p>
      )}
      <section class="why-found" aria-labelledby="why-found">
        <h3 id="why-found">Why</h3>
        <p>{repair.because}</p>
        {repair.against !== '' && <p class="against-it">{repair.against}</p>}
        {marks.size > 0 && (
          <Drawing
            system={sheet.id}
            drawn={drawnBy(desk, state)}
            hint={`${path ? `In ${inMode(sheet, path.mode)}, as this leaves it. ` : ''}Filled: live. Empty: no volts. Dashed: part volts. Ringed: what you read.${path ? ' Thick and ticked: live to here. Contacts stand as they do then.' : ''}`}
            marks={marks}
            taken={read}
            near={itemNamed(sheet, top.title)}
            {...(path ? { parts: path.parts } : {})}
          />
        )}
      </section>
      <button type="button" class="quiet-button" onClick={onTestOn}>
        {found ? 'Test on, to make sure' : 'Test on'}
      </button>
    </section>
  );
}

interface BeforeProps {
  readonly repair: FoundRepair;
  readonly hazard: string | null;
  /** What the isolator leaves on the supply; empty for nothing. */
  readonly stays: string;
}

/** What to mind before the repair, in one caution: the danger there is, and what stays live. */
function BeforeRepair({ repair, hazard, stays }: BeforeProps) {
  const isOpened = !repair.asItIs && !repair.setByHand;
  if (!isOpened) return hazard === null ? null : <Caution>{hazard}</Caution>;
  if (!isOurs(repair))
    return (
      <Caution>
        {hazard} Nothing more of it is opened here: covers back on, and left isolated, locked off
        and labelled where it is not safe to leave on.
        {stays !== '' && ` Still live then: ${stays}.`}
      </Caution>
    );
  return (
    <Caution>
      {hazard} <a href={href('/procedures/safe-isolation/')}>Isolate, lock off and prove dead</a>{' '}
      first.{stays !== '' && ` Still live then: ${stays}.`}
    </Caution>
  );
}

/** Whether a controls engineer makes the repair, not somebody it is handed over to. */
const isOurs = ({ who }: FoundRepair): boolean =>
  who.length === 0 || who.includes('controls engineer');

/** The item that a cause names first; null where it names none of the system. */
const itemNamed = (sheet: Sheet, title: string): string | null =>
  [...title.matchAll(/\b[A-Z]\d{1,2}\b/g)].map(([ref]) => ref).find((ref) => itemIn(sheet, ref)) ??
  null;

interface RepairActProps {
  readonly desk: Desk;
  readonly repair: FoundRepair;
  /** Whether it is found, not only the likeliest. */
  readonly found: boolean;
  /** How the key looks: the one act of the screen, or one among others. */
  readonly look: 'main-act' | 'plain';
}

/** Enters a repair and goes on to proving it; what another has to do is handed over. */
export const RepairAct = ({ desk, repair, found, look }: RepairActProps) => (
  <button
    type="button"
    class={look}
    onClick={() => {
      desk.act((job) => addRepair(job, repairText(repair, found)));
      desk.turn({ view: 'record' });
    }}
  >
    {repair.asItIs
      ? 'Put right: go on to proving'
      : isOurs(repair)
        ? 'Repaired: go on to proving'
        : 'Handed over: go on to the record'}
  </button>
);

const inMode = (sheet: Sheet, mode: string) => lowerFirst(modeIn(sheet, mode)?.title ?? mode);

/** How each terminal is left by what was found, worked out. */
const pathMarks = (path: FoundPath | null): [string, Mark][] =>
  (path?.shows ?? []).flatMap(([terminal, reading]): [string, Mark][] => {
    const mark = MARKS[reading];
    return mark ? [[terminal, mark]] : [];
  });

/** How a terminal is marked by what was read at it. What is above the limits is live too. */
const MARKS: Readonly<Partial<Record<TestAnswer, Mark>>> = {
  live: 'live',
  high: 'live',
  dc: 'live',
  dead: 'dead',
  'no dc': 'dead',
  between: 'other',
};

/** What was read live and what was not, by the terminal that the first probe was on. */
export function marksOf(job: Job): Map<string, Mark> {
  return new Map(
    openEntries(job).flatMap(({ observation }) => {
      if (observation.kind !== 'live') return [];
      const mark = MARKS[answerWord(observation)];
      return mark ? [[observation.from, mark] as const] : [];
    }),
  );
}

/** Terminals that the system's own isolator leaves joined to the supply. */
function staysLive(sheet: Sheet): string {
  const left = sheet.items.flatMap(({ ref, points }) => {
    const names = points
      .filter(({ joined, dead, carries }) => joined && !dead && carries !== 'earth')
      .map(({ name }) => terminalWords(name));
    const title = lowerFirst(itemIn(sheet, ref)?.title ?? ref);
    return names.length === 0 ? [] : [`${names.join(' and ')} of the ${title}`];
  });
  return left.join('; ');
}
