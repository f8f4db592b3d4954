import { useState } from 'preact/hooks';
import { FAMILIES, type Family } from '../../diagnosis/index.ts';
import { builtNow, canShare, copyField, saveField, shareField } from '../../field/hand-out.ts';
import { MOST_MINUTES } from '../../field/limits.ts';
import type { Desk } from '../desk.ts';
import type { DeskState } from '../desk-state.ts';
import {
  type Cause,
  causeOf,
  causeTitle,
  minutesOf,
  NOTHING_TICKED,
  TICKS,
  type Ticks,
  visitOf,
  visitWords,
} from '../hand-over.ts';
import type { Job } from '../job.ts';
import { Choice, href, Tick, Words } from './parts.tsx';

interface Props {
  readonly desk: Desk;
  readonly state: DeskState;
  readonly job: Job;
}

const TICK_WORDS: Readonly<Record<keyof Ticks, string>> = {
  name: 'Send the name of the job too',
  place: 'Send the place too',
  notes: 'Send the notes too',
  photographs: 'Send the photographs too',
};

/** A finished visit handed over to whoever keeps the pages: what was wrong, and how it was found. */
export function HandOver({ desk, state, job }: Props) {
  const [picked, setPicked] = useState<Cause | ''>('');
  const [typed, setTyped] = useState<string | null>(null);
  const [ticks, setTicks] = useState(NOTHING_TICKED);
  const [said, setSaid] = useState('');
  const cause = picked || causeOf(job, state.findings) || '';
  const known = minutesOf(job);
  const time = typed ?? (known === null ? '' : String(known));
  const minutes =
    /^[0-9]{1,3}$/.test(time.trim()) && Number(time) <= MOST_MINUTES ? Number(time) : null;
  const has = {
    name: job.name,
    place: job.place,
    notes: job.notes.trim(),
    photographs: job.photos.length > 0,
  };
  const hand = async (act: 'share' | 'save' | 'copy') => {
    if (cause === '') return setSaid('Say first what was wrong.');
    const build = await builtNow(href('/'));
    const visit = await visitOf(job, { cause, minutes, ticks }, build, desk.picture);
    const words = visitWords(visit);
    setSaid(
      act === 'save'
        ? saveField(visit)
        : act === 'copy'
          ? await copyField(words, visit)
          : await shareField('A finished visit', words, visit),
    );
  };
  return (
    <section aria-labelledby="hand-over-title" class="hand-over">
      <h3 id="hand-over-title">Hand over to the office</h3>
      <p>
        What was complained of, what was wrong, which tests were made and how long it took. It makes
        the firm’s test sequences better. No name, address, note or photograph goes with it unless
        you tick it.
      </p>
      <Choice
        id="hand-over-cause"
        label="What was actually wrong"
        value={cause}
        onPick={(value) => setPicked(value as Cause)}
        groups={[
          { label: '', options: [{ value: '', text: 'Choose' }] },
          {
            label: '',
            options: [
              ...(Object.keys(FAMILIES) as Family[]),
              'sound' as const,
              'other' as const,
            ].map((value) => ({ value, text: causeTitle(value) })),
          },
        ]}
      />
      <Words
        id="hand-over-minutes"
        label="Minutes on site, empty if not known"
        value={time}
        most={3}
        onText={setTyped}
      />
      {TICKS.filter((one) => has[one]).map((one) => (
        <Tick key={one} done={ticks[one]} onChange={(on) => setTicks({ ...ticks, [one]: on })}>
          {TICK_WORDS[one]}
        </Tick>
      ))}
      <div class="pair">
        {canShare() && (
          <button type="button" class="plain" onClick={() => hand('share')}>
            Share the visit
          </button>
        )}
        <button type="button" class="plain" onClick={() => hand('save')}>
          Save the file
        </button>
        <button type="button" class="plain" onClick={() => hand('copy')}>
          Copy as text
        </button>
      </div>
      <p role="status" class="said">
        {said}
      </p>
    </section>
  );
}
