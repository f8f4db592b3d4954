import { render } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { keepMarks, LONGEST_MARK, type Marks, readMarks, takeOverMarks } from './kept-marks.ts';

interface Sheet {
  readonly key: string;
  readonly old: readonly string[];
  readonly new: readonly string[];
}

/** Writes each typed mark beside every mention of its terminal on the page. */
function writeMarks(marks: Marks): void {
  for (const at of document.querySelectorAll<HTMLElement>('[data-mark]'))
    at.textContent = marks[at.dataset.mark ?? '']?.trim() ?? '';
}

function Side({
  side,
  title,
  names,
  marks,
  put,
}: {
  side: 'old' | 'new';
  title: string;
  names: readonly string[];
  marks: Marks;
  put: (name: string, mark: string) => void;
}) {
  return (
    <fieldset>
      <legend>{title}</legend>
      {names.map((name) => (
        <label key={name}>
          <span class="point">{name}</span>
          <input
            type="text"
            name={`${side} ${name}`}
            maxLength={LONGEST_MARK}
            autocomplete="off"
            autocapitalize="characters"
            spellcheck={false}
            value={marks[`${side} ${name}`] ?? ''}
            onInput={(event) => put(`${side} ${name}`, event.currentTarget.value)}
          />
        </label>
      ))}
    </fieldset>
  );
}

/** What is printed beside the terminals in the reader's hands, kept on this phone. */
function Markings({ sheet }: { sheet: Sheet }) {
  const [marks, setMarks] = useState<Marks>(() => readMarks(sheet.key));
  const [kept, setKept] = useState(true);
  useEffect(() => writeMarks(marks), [marks]);
  const put = (name: string, mark: string) => {
    const now = { ...marks, [name]: mark };
    setMarks(now);
    setKept(keepMarks(sheet.key, now));
  };
  return (
    <details open={Object.keys(marks).length > 0}>
      <summary>Write the marks printed beside the terminals</summary>
      <p class="quiet">
        As they stand on the devices or in their leaflets. They are set beside our names in the
        tables here.{' '}
        {kept
          ? 'They stay on this phone.'
          : 'This browser keeps nothing: they last until the page is left.'}
      </p>
      <div class="marking-sides">
        <Side side="old" title="Old device" names={sheet.old} marks={marks} put={put} />
        <Side side="new" title="New device" names={sheet.new} marks={marks} put={put} />
      </div>
    </details>
  );
}

const namesIn = (text: string | undefined): string[] => {
  const found: unknown = JSON.parse(text ?? '[]');
  return Array.isArray(found) ? found.filter((name) => typeof name === 'string') : [];
};

const at = document.querySelector<HTMLElement>('#markings');
if (at) {
  const { key = '', formerly, old, new: fresh } = at.dataset;
  takeOverMarks(key, formerly?.split(' ') ?? []);
  render(<Markings sheet={{ key, old: namesIn(old), new: namesIn(fresh) }} />, at);
}
