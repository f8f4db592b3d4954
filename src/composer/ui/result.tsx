import { useEffect, useState } from 'preact/hooks';
import { STATES, tally } from '../../components/standard/judgements.ts';
import { Caution, href } from '../../job/ui/parts.tsx';
import type { ComposerDesk, Part, Worked } from '../desk.ts';
import { standingWords } from '../standing-words.ts';
import type { View } from '../view.ts';
import { Bar, PART_NAMES } from './bar.tsx';
import { Drawing } from './drawing.tsx';
import { LivePath } from './live-path.tsx';
import { PartNote } from './part-note.tsx';
import { NotAsItShould, Readings } from './readings.tsx';
import { Replace } from './replace.tsx';
import { Share, Visit } from './ways.tsx';
import type { Chosen } from './when.ts';
import { Wiring } from './wiring.tsx';

interface Props {
  readonly desk: ComposerDesk;
  readonly worked: Worked;
  readonly part: Part;
}

/** Everything that follows from the parts, one part of it at a time on the screen, all on paper. */
export function Result({ desk, worked, part }: Props) {
  const { view, drawings, agreed, isAgreed } = worked;
  const [chosen, setChosen] = useState<Chosen>({ mode: 0, instrument: 0 });
  const [isAll, setAll] = useState(false);
  const [sought, setSought] = useState<string | null>(null);
  const { wrong, standing } = standingWords(view, agreed, isAgreed);
  const isWrong = wrong.length > 0;
  const mode = view.modes[chosen.mode] ?? view.modes[0]!;
  useEffect(() => {
    // What is not looked at is there for paper, once what is looked at stands.
    const later = setTimeout(() => setAll(true), 400);
    return () => clearTimeout(later);
  }, []);
  useEffect(() => {
    if (part !== 'readings' || sought === null) return;
    const row = document
      .querySelector(`#readings [data-at="${CSS.escape(sought)}"]`)
      ?.closest('tr');
    row?.classList.add('sought');
    row?.scrollIntoView({ block: 'center' });
    return () => row?.classList.remove('sought');
  }, [part, sought]);
  const look = (one: Part) => {
    setSought(null);
    desk.look(one);
  };
  const shows = (one: Part) => isAll || one === part;
  const of = (one: Part) => (one === part ? 'composed-part' : 'composed-part off-screen');
  return (
    <div class="system">
      <article class="part composed">
        {part !== '' && (
          <p class="up">
            <button type="button" class="quiet-button" onClick={() => look('')}>
              {view.title}
            </button>
          </p>
        )}
        <div class={of('')}>
          <h1 tabIndex={-1}>{view.title}</h1>
          {isWrong && <Wrong wrong={wrong} />}
          <p class="standing-line" role="status">
            {standing}
          </p>
        </div>
        {part !== '' && <h1 class="off-paper">{PART_NAMES[part]}</h1>}
        {part !== '' && !isAgreed && !isWrong && (
          <p class="already off-paper" role="status">
            Whether it does what it must is still being compared.
          </p>
        )}
        {part === '' || part === 'wiring' ? (
          <>
            <Caution>
              <Isolate />, open as if live, prove dead; then touch.
            </Caution>
            <LiveWork atCylinder={view.atCylinder} onPaper />
          </>
        ) : (
          <LiveWork atCylinder={view.atCylinder} />
        )}
        <div class={of('')}>
          <Ways view={view} address={worked.address} onLook={look} />
          <Seen view={view} chosen={chosen} isWrong={isWrong} />
          <LinesOf title="Cautions" lines={view.cautions} />
          <Parts desk={desk} worked={worked} />
          <Standards view={view} />
          <LinesOf title="Notes" lines={view.notes} />
          <Share address={worked.address} title={view.title} />
        </div>
        {shows('readings') && (
          <div class={of('readings')}>
            <Readings view={view} chosen={chosen} isWrong={isWrong} />
          </div>
        )}
        {shows('live-path') && (
          <div class={`${of('live-path')} off-paper`}>
            <LivePath view={view} chosen={chosen} isWrong={isWrong} />
          </div>
        )}
        {shows('diagram') && (
          <div class={of('diagram')}>
            <Drawing
              drawings={drawings}
              told={worked.told}
              mode={mode}
              isWrong={isWrong}
              onTerminal={(anchor) => {
                setSought(anchor);
                desk.look('readings');
              }}
            />
          </div>
        )}
        {part === 'replace' && (
          <div class={of('replace')}>
            {isWrong ? (
              <p>
                Nothing is replaced in an arrangement that is not in order: what is wrong stands on
                its first page.
              </p>
            ) : (
              <Replace desk={desk} worked={worked} />
            )}
          </div>
        )}
        {shows('wiring') && (
          <div class={of('wiring')}>
            <Wiring view={view} />
          </div>
        )}
      </article>
      <Bar view={view} chosen={chosen} onChoose={setChosen} part={part} onLook={look} />
    </div>
  );
}

/** What is wrong with the arrangement, before anything that is read in it. */
const Wrong = ({ wrong }: { readonly wrong: ReturnType<typeof standingWords>['wrong'] }) => (
  <div class="caution not-in-order" role="alert">
    <p>
      <strong class="caution-word">Not in order</strong> These parts, wired so, are not safe or do
      not do what they must. If it is wired so in front of you, do not leave it on.
    </p>
    <ul>
      {wrong.map(({ title, said }) => (
        <li key={`${title} ${said}`}>
          <b>{title}.</b> {said}
        </li>
      ))}
    </ul>
  </div>
);

const Isolate = () => <a href={href('/procedures/safe-isolation/')}>Isolate, lock off</a>;

interface LiveWorkProps {
  readonly atCylinder: boolean;
  /** Whether it stands on paper alone: no reading is on the screen. */
  readonly onPaper?: boolean;
}

/** The cautions of every reading with the supply on. */
const LiveWork = ({ atCylinder, onPaper = false }: LiveWorkProps) => (
  <div class={onPaper ? 'cautions on-paper-alone' : 'cautions'} role="note">
    <strong class="caution-word">Caution</strong>
    <ul>
      <li>
        <Isolate />, open as if live, prove dead; then touch.
      </li>
      <li>
        A reading with the supply on is live work: only by a person competent in it, where no dead
        test answers, dry, others away, tester proved before and after, leads to GS38.{' '}
        <a href={href('/procedures/live-tests/')}>Live tests</a>
      </li>
      {atCylinder && (
        <li>
          At the cylinder: the immersion heater has its own circuit, or two; isolate and prove it
          too. On an unvented one stats, cut-outs, immersion heater and hot-water valve are safety
          devices: without the qualification look and read only; never link, latch, adjust under a
          cover, reset or replace.
        </li>
      )}
    </ul>
  </div>
);

const WAYS = [
  ['live-path', (view: View) => said(view.paths.length, 'load')],
  ['diagram', (view: View) => said(view.places.length, 'item')],
  ['wiring', (view: View) => said(cores(view), 'core')],
] as const;
const count = (places: View['places']) => places.reduce((sum, { rows }) => sum + rows.length, 0);
const cores = ({ wiring }: View) => wiring.runs.reduce((sum, { rows }) => sum + rows.length, 0);
const said = (n: number, one: string) => `${n} ${one}${n === 1 ? '' : 's'}`;

interface WaysProps {
  readonly view: View;
  readonly address: string;
  readonly onLook: (part: Part) => void;
}

/** The ways on to what was worked out. */
const Ways = ({ view, address, onLook }: WaysProps) => (
  <nav class="hub-ways composed-ways" aria-label="Ways on">
    <Visit address={address} title={view.title} />
    <button type="button" onClick={() => onLook('readings')}>
      <b>Readings</b> <span>{said(count(view.places), 'pair')}, in every mode</span>
    </button>
    {WAYS.map(([id, words]) => (
      <button key={id} type="button" onClick={() => onLook(id)}>
        <b>{PART_NAMES[id]}</b> <span>{words(view)}</span>
      </button>
    ))}
    <button type="button" onClick={() => onLook('replace')}>
      <b>{PART_NAMES.replace}</b> <span>core by core</span>
    </button>
    <a href={href(`/compose/as-found/?of=${encodeURIComponent(address)}`)}>
      <b>Wired otherwise?</b> <span>mark it as found</span>
    </a>
    <a href={href(`/compare/?a=${encodeURIComponent(address)}`)}>
      <b>Compare</b> <span>with another system</span>
    </a>
  </nav>
);

interface SeenProps {
  readonly view: View;
  readonly chosen: Chosen;
  readonly isWrong: boolean;
}

/** What a person sees in the mode chosen, and how it is brought about. */
function Seen({ view, chosen, isWrong }: SeenProps) {
  const mode = view.modes[chosen.mode] ?? view.modes[0]!;
  return (
    <section class="seen off-paper" aria-labelledby="seen-title">
      <h2 id="seen-title">What is seen: {mode.title.toLowerCase()}</h2>
      {isWrong && <NotAsItShould />}
      {mode.summary && <p>{mode.summary}</p>}
      <ul class="seen-list">
        {mode.seen.map(({ item, text, so }) => (
          <li key={`${item} ${text}`} class={so ? 'so' : 'not-so'}>
            {text} <small class="point">{item}</small>
          </li>
        ))}
      </ul>
      {mode.bring && (
        <p class="quiet">
          <b>To bring it about:</b> {mode.bring}
        </p>
      )}
    </section>
  );
}

const LinesOf = ({
  title,
  lines,
}: {
  readonly title: string;
  readonly lines: readonly string[];
}) =>
  lines.length === 0 ? null : (
    <section aria-labelledby={`composed-${title}`}>
      <h2 id={`composed-${title}`}>{title}</h2>
      {title === 'Cautions' ? (
        <div class="cautions" role="note">
          <ul>
            {lines.map((line) => (
              <li key={line}>{line}</li>
            ))}
            <li>The manufacturer’s instructions and local rules come before this page.</li>
          </ul>
        </div>
      ) : (
        <ul class="plain-list">
          {lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
    </section>
  );

/** The parts with what their entries say, each to be changed. */
function Parts({ desk, worked }: { readonly desk: ComposerDesk; readonly worked: Worked }) {
  const { answered, answers } = worked;
  return (
    <details class="fold">
      <summary>
        <b>Parts, and what to know of them</b> <span class="quiet">{answered.length}</span>
      </summary>
      {answers === null && (
        <p>
          These parts came in an address that says more than the questions ask. They cannot be
          changed one by one.
        </p>
      )}
      <ul class="chosen-parts">
        {answered.map(({ id, about, title, module }) => (
          <li key={id}>
            <span class="quiet">{about}</span> <b>{title}</b>
            <button type="button" class="quiet-button" onClick={() => desk.change(id)}>
              Change<span class="unseen"> {about}</span>
            </button>
            {module && <PartNote module={module} />}
          </li>
        ))}
      </ul>
      <button type="button" class="plain begin-again" onClick={() => desk.begin()}>
        Choose other parts
      </button>
    </details>
  );
}

/** What every house standard says of the arrangement. */
function Standards({ view: { verdicts } }: { readonly view: View }) {
  const order = ['breached', 'holds', 'does not apply'] as const;
  return (
    <details class="fold">
      <summary>
        <b>House standards</b> <span class="quiet">{tally(verdicts)}</span>
      </summary>
      <ul class="name-list">
        {order.flatMap((state) =>
          verdicts
            .filter((one) => one.state === state)
            .map(({ id, title, severity, findings }) => (
              <li key={id}>
                <a href={href(`/standards/${id}/`)}>{title}</a>{' '}
                <b class={`verdict ${STATES[state].slug}`}>{STATES[state].word}</b>
                {severity === 'advice' && findings.length > 0 && (
                  <span class="quiet"> {findings[0]!.message}. Advice.</span>
                )}
              </li>
            )),
        )}
      </ul>
    </details>
  );
}
