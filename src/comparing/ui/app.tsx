import { useEffect, useMemo, useState } from 'preact/hooks';
import { readList } from '../../components/scripts/kept.ts';
import { specificationIn } from '../../job/address.ts';
import { Caution, href } from '../../job/ui/parts.tsx';
import type { Beside, Comparison } from '../compare.ts';
import type { FromComparing, SideSource, ToComparing } from '../messages.ts';
import { Differences } from './differences.tsx';

/** A system that may stand on a side. */
export interface Choice {
  /** Entry id, or a specification. */
  readonly id: string;
  readonly title: string;
}

interface Props {
  readonly systems: readonly Choice[];
  /** Root-relative address of the parts. */
  readonly parts: string;
}

/** What was worked out so far. */
export interface Worked {
  readonly comparison: Comparison;
  readonly standing: readonly [string, string];
  readonly wrong: readonly [readonly string[], readonly string[]];
  readonly acts: readonly Beside[];
  readonly isDone: boolean;
}

const SIDES = ['a', 'b'] as const;
type Sides = Readonly<Record<(typeof SIDES)[number], string>>;

/** What the address names on each side; empty where it names nothing that could be one. */
function sidesIn(query: string): Sides {
  const params = new URLSearchParams(query);
  const side = (name: string) => params.get(name) ?? '';
  return { a: side('a'), b: side('b') };
}

const isSpecification = (id: string): boolean =>
  specificationIn(`?of=${encodeURIComponent(id)}`) !== null;

/** Two systems side by side: which, and all that differs. */
export function App({ systems, parts }: Props) {
  const [sides, setSides] = useState(() => sidesIn(location.search));
  const [worked, setWorked] = useState<Worked | null>(null);
  const [broken, setBroken] = useState('');
  const composed = useMemo(() => composedHere(sides), []);
  const ask = useMemo(() => startWorker(setWorked, setBroken), []);
  const known = (id: string) => systems.some((one) => one.id === id) || isSpecification(id);
  const isAsked = SIDES.every((side) => known(sides[side]));
  useEffect(() => {
    setWorked(null);
    setBroken('');
    if (!isAsked) return;
    const source = (id: string): SideSource =>
      isSpecification(id)
        ? { specification: id }
        : { address: new URL(href(`/job/${id}.json`), location.href).href };
    ask(source(sides.a), source(sides.b), new URL(parts, location.href).href);
  }, [sides]);
  const choose = (side: keyof Sides, id: string) => {
    const next = { ...sides, [side]: id };
    setSides(next);
    const query = SIDES.map((one) => `${one}=${encodeURIComponent(next[one])}`).join('&');
    history.replaceState(null, '', `${location.origin}${location.pathname}?${query}`);
  };
  return (
    <>
      <h1>Two systems side by side</h1>
      <p class="lede off-paper">
        Equipment, what is joined, what is seen and read in each mode, and what is looked at first.
      </p>
      <form class="compare-sides off-paper" onSubmit={(event) => event.preventDefault()}>
        {SIDES.map((side) => (
          <p key={side} class="words">
            <label for={`side-${side}`}>{side === 'a' ? 'One system' : 'The other'}</label>
            <select
              id={`side-${side}`}
              value={sides[side]}
              onChange={(event) => choose(side, event.currentTarget.value)}
            >
              <option value="">Choose …</option>
              {composed.length > 0 && (
                <optgroup label="Composed from parts">
                  {composed.map(({ id, title }) => (
                    <option key={id} value={id}>
                      {title}
                    </option>
                  ))}
                </optgroup>
              )}
              <optgroup label="Systems">
                {systems.map(({ id, title }) => (
                  <option key={id} value={id}>
                    {title}
                  </option>
                ))}
              </optgroup>
            </select>
          </p>
        ))}
      </form>
      {SIDES.map(
        (side) =>
          sides[side] !== '' &&
          !known(sides[side]) && (
            <p key={side} class="said" role="alert">
              The address names no system there is: “{sides[side].slice(0, 200)}”. Choose one above.
            </p>
          ),
      )}
      {broken !== '' && (
        <Caution>
          They could not be compared here: {broken} Nothing is shown of it. Choose other systems
          above.
        </Caution>
      )}
      {isAsked && !worked && broken === '' && <p role="status">Working out both.</p>}
      {worked && <Differences worked={worked} />}
    </>
  );
}

/** Arrangements that this phone knows: composed last, pinned, or named in the address. */
function composedHere({ a, b }: Sides): Choice[] {
  const list: Choice[] = [];
  const add = (id: string, title: string) => {
    if (isSpecification(id) && !list.some((one) => one.id === id)) list.push({ id, title });
  };
  try {
    const { address, title } = JSON.parse(localStorage.getItem('proveline.composed') ?? '{}');
    if (typeof address === 'string' && typeof title === 'string') add(address, title);
  } catch {
    // What is kept there is no arrangement, or the window is private.
  }
  for (const { path, title } of readList('pins')) add(path.split('#')[1] ?? '', title);
  for (const id of [a, b]) add(id, 'As the address names it, from parts');
  return list;
}

function startWorker(
  show: (change: (before: Worked | null) => Worked | null) => void,
  fail: (reason: string) => void,
) {
  const worker = new Worker(new URL('../worker.ts', import.meta.url), { type: 'module' });
  let number = 0;
  worker.addEventListener('message', ({ data }: MessageEvent<FromComparing>) => {
    if (data.number !== number) return;
    switch (data.type) {
      case 'compared': {
        const { comparison, standing, wrong } = data;
        show(() => ({ comparison, standing, wrong, acts: [], isDone: false }));
        return;
      }
      case 'first':
        show((before) => before && { ...before, acts: [...before.acts, data.act] });
        return;
      case 'done':
        show((before) => before && { ...before, isDone: true });
        return;
      case 'failed':
        fail(data.reason);
    }
  });
  worker.addEventListener('error', ({ message }) =>
    fail(message || 'the engine could not be started.'),
  );
  return (a: SideSource, b: SideSource, parts: string) => {
    number += 1;
    worker.postMessage({ number, a, b, parts } satisfies ToComparing);
  };
}
