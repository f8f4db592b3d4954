import { useEffect, useState } from 'preact/hooks';
import { hazardsOfLink } from '../as-found/hazards.ts';
import type { SaidHazard } from '../as-found/result.ts';
import type { Desk } from '../desk.ts';
import { addRemark, type Job, type Remark, removeRemark } from '../job.ts';
import { MOST_REMARKS, REMARK_CODES } from '../job-schema.ts';
import { MOST_LINE, MOST_TEXT } from '../limits.ts';
import { remarkText } from '../record.ts';
import { CODE_WORDS, COMMON_REMARKS, DANGER_WORDS } from '../remark-words.ts';
import type { Sheet } from '../sheet.ts';
import { Caution, Choice, href, Words } from './parts.tsx';
import { AddPhoto, Picture } from './photos.tsx';

interface Props {
  readonly desk: Desk;
  readonly job: Job;
  readonly sheet: Sheet;
}

interface Draft {
  readonly place: string;
  readonly text: string;
  readonly code: Remark['code'] | null;
  readonly photo: string | null;
}
const EMPTY: Draft = { place: '', text: '', code: null, photo: null };

/** What is wrong beside the fault: what was noticed, and a form for more. */
export function Remarks({ desk, job, sheet }: Props) {
  const [draft, setDraft] = useState(EMPTY);
  const [open, setOpen] = useState(false);
  const change = (to: Partial<Draft>) => setDraft((now) => ({ ...now, ...to }));
  const { place, text, code, photo } = draft;
  const kept = job.photos.find(({ id }) => id === photo);
  const enter = () => {
    if (code === null) return;
    const remark = { place: place.trim(), text: text.trim(), code, photo: kept?.id ?? null };
    desk.act((now) => addRemark(now, remark));
    setDraft(EMPTY);
    setOpen(false);
  };
  return (
    <>
      <h3>What else is wrong here</h3>
      <List desk={desk} job={job} />
      <Offered
        job={job}
        onTake={(hazard) => {
          change({ text: `${hazard.title}. ${hazard.advice}`.slice(0, MOST_TEXT) });
          setOpen(true);
        }}
      />
      {job.remarks.length < MOST_REMARKS && (
        <details class="mend" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
          <summary>Enter something noticed</summary>
          <div class="remark-form">
            <Choice
              id="remark-item"
              label="Where"
              value={sheet.items.some((item) => placeOf(item) === place) ? place : ''}
              onPick={(picked) => change({ place: picked })}
              groups={[
                {
                  label: '',
                  options: [
                    { value: '', text: 'Elsewhere' },
                    ...sheet.items.map((item) => ({ value: placeOf(item), text: placeOf(item) })),
                  ],
                },
              ]}
            />
            <Words
              id="remark-place"
              label="Or where, in your own words"
              value={place}
              most={MOST_LINE}
              onText={(typed) => change({ place: typed })}
            />
            <Choice
              id="remark-common"
              label="What"
              value={COMMON_REMARKS.find((one) => one === text) ?? ''}
              onPick={(picked) => change({ text: picked })}
              groups={[
                {
                  label: '',
                  options: [
                    { value: '', text: 'Something else' },
                    ...COMMON_REMARKS.map((one) => ({ value: one, text: one })),
                  ],
                },
              ]}
            />
            <Words
              id="remark-text"
              label="Or what, in your own words"
              value={text}
              most={MOST_TEXT}
              lines={2}
              onText={(typed) => change({ text: typed })}
            />
            <fieldset class="codes">
              <legend>How bad</legend>
              {REMARK_CODES.map((one) => (
                <button
                  key={one}
                  type="button"
                  aria-pressed={one === code}
                  onClick={() => change({ code: one })}
                >
                  <b>{one}</b>
                  <span>{CODE_WORDS[one]}</span>
                </button>
              ))}
            </fieldset>
            {code === 'C1' && <Caution>{DANGER_WORDS}</Caution>}
            {kept && <Picture photo={kept} picture={desk.picture} />}
            <AddPhoto
              desk={desk}
              job={job}
              label={kept ? 'Another photo instead' : 'Add a photo of it'}
              onAdded={(id) => change({ photo: id })}
            />
            <button
              type="button"
              class="plain"
              disabled={text.trim() === '' || code === null}
              onClick={enter}
            >
              Enter what was noticed
            </button>
          </div>
        </details>
      )}
    </>
  );
}

const placeOf = ({ title, place }: Sheet['items'][number]) =>
  (place ? `${title}, ${place}` : title).slice(0, MOST_LINE);

function List({ desk, job }: Omit<Props, 'sheet'>) {
  if (job.remarks.length === 0) return null;
  return (
    <ul class="remark-list plain-list">
      {job.remarks.map((remark) => {
        const photo = job.photos.find(({ id }) => id === remark.photo);
        return (
          <li key={remark.id}>
            <p>{remarkText(remark)}</p>
            {photo && <Picture photo={photo} picture={desk.picture} />}
            <button
              type="button"
              class="quiet-button"
              aria-label={`Take it off: ${remark.text}`}
              onClick={() => desk.act((now) => removeRemark(now, remark.id))}
            >
              Take it off
            </button>
          </li>
        );
      })}
      {job.remarks.some(({ code }) => code === 'C1') && (
        <li>
          <Caution>{DANGER_WORDS}</Caution>
        </li>
      )}
    </ul>
  );
}

/** Dangers of the wiring as found; nothing of them is entered but by the reader. */
function Offered({ job, onTake }: { job: Job; onTake: (hazard: SaidHazard) => void }) {
  const [hazards, setHazards] = useState<readonly SaidHazard[]>([]);
  const { asFound, system } = job;
  useEffect(() => {
    if (asFound === null || system === null) return undefined;
    const data = new URL(href(`/job/${system}.json`), location.href).href;
    const asked = hazardsOfLink(data, asFound);
    void asked.hazards.then(setHazards);
    return () => {
      setHazards([]);
      asked.end();
    };
  }, [asFound, system]);
  const left = hazards.filter(
    ({ title }) => !job.remarks.some(({ text }) => text.startsWith(title)),
  );
  if (left.length === 0) return null;
  return (
    <>
      <p>The wiring as found has these dangers. Enter those that you saw:</p>
      <ul class="pick-list">
        {left.map((hazard) => (
          <li key={hazard.title}>
            <button type="button" onClick={() => onTake(hazard)}>
              <strong>{hazard.title}</strong>
              <span class="quiet">{hazard.advice}</span>
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}
