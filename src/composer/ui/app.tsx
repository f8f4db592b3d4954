import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { Caution, href } from '../../job/ui/parts.tsx';
import { ComposerDesk, type Effects, type Kept, PARTS, type Screen, type Step } from '../desk.ts';
import type { FromComposer, ToComposer } from '../messages.ts';
import { AskOne } from './ask-one.tsx';
import { Result } from './result.tsx';

interface Props {
  /** Address of the parts. */
  readonly parts: string;
}

/** The page on which an arrangement is put together: questions, then all that follows. */
export function App({ parts }: Props) {
  const [screen, setScreen] = useState<Screen>({ kind: 'opening' });
  const desk = useMemo(() => new ComposerDesk(effectsOf(parts), setScreen), [parts]);
  useEffect(() => {
    const follow = () => desk.follow();
    addEventListener('popstate', follow);
    return () => removeEventListener('popstate', follow);
  }, [desk]);
  const top = useRef<HTMLDivElement>(null);
  const shown = placeOf(screen);
  const before = useRef(shown);
  useEffect(() => {
    if (before.current === shown) return;
    const wasOpening = before.current === 'opening';
    before.current = shown;
    if (wasOpening) return;
    scrollTo(0, 0);
    top.current?.querySelector<HTMLElement>('[tabindex="-1"]')?.focus({ preventScroll: true });
  }, [shown]);
  return (
    <div ref={top} class="composer">
      <Shown desk={desk} screen={screen} />
    </div>
  );
}

/** What is shown, so that a new screen begins at its top. */
function placeOf(screen: Screen): string {
  if (screen.kind === 'asking') return `asking ${screen.standing.question?.id ?? ''}`;
  return screen.kind === 'worked' ? `worked ${screen.worked.address} ${screen.part}` : screen.kind;
}

function Shown({ desk, screen }: { readonly desk: ComposerDesk; readonly screen: Screen }) {
  switch (screen.kind) {
    case 'opening':
      return (
        <>
          <h1>Your system from its parts</h1>
          <p role="status">Fetching the parts.</p>
        </>
      );
    case 'failed':
      return (
        <>
          <h1 tabIndex={-1}>Your system from its parts</h1>
          <Caution>
            It could not be worked out here: {screen.reason}. Nothing of what you chose is lost: it
            stands in the address. <a href={href('/systems/')}>The systems</a> need no script.
          </Caution>
          <button type="button" class="plain" onClick={() => location.reload()}>
            Try again
          </button>
        </>
      );
    case 'wrong':
      return <WrongAddress desk={desk} screen={screen} />;
    case 'asking':
      return <AskOne desk={desk} screen={screen} />;
    case 'worked':
      return (
        <Result key={screen.worked.address} desk={desk} worked={screen.worked} part={screen.part} />
      );
  }
}

/** An address that says nothing: why, what was found, what is allowed, and the ways on. */
function WrongAddress({
  desk,
  screen: { address, wrong, allowed },
}: {
  readonly desk: ComposerDesk;
  readonly screen: Extract<Screen, { kind: 'wrong' }>;
}) {
  const kept = keptHere();
  return (
    <>
      <h1 tabIndex={-1}>This address does not open</h1>
      <div role="alert" class="caution">
        <p>
          <strong class="caution-word">Damaged</strong> {wrong} Nothing is shown of it: readings of
          a guess would be worse than none.
        </p>
      </div>
      {allowed.length > 0 && (
        <p class="allowed-here">
          <b>Allowed there:</b> {allowed.join(', ')}
        </p>
      )}
      <p class="found-address">
        <b>Found:</b> {address.length > MOST_SHOWN ? `${address.slice(0, MOST_SHOWN)} …` : address}
      </p>
      <p>
        Ask for it again, and let it be sent whole, as a link and not typed off. What was composed
        on this phone is as it was.
      </p>
      <button type="button" class="main-act" onClick={() => desk.begin()}>
        Choose the parts
      </button>
      {kept && (
        <button type="button" class="plain" onClick={() => desk.openKept(kept.address)}>
          Open the last one here: {kept.title}
        </button>
      )}
    </>
  );
}

/** Letters of a damaged address that are shown. */
const MOST_SHOWN = 300;
const KEPT = 'proveline.composed';

function keptHere(): Kept | null {
  try {
    const { address, title } = JSON.parse(localStorage.getItem(KEPT) ?? '{}');
    return typeof address === 'string' && typeof title === 'string' ? { address, title } : null;
  } catch {
    // What is kept there is no arrangement, or the window is private.
    return null;
  }
}

/** The part that an address names beside the arrangement, as a link from a visit does. */
function partAsked(): Step {
  const asked = new URLSearchParams(location.search).get('part');
  const part = PARTS.find((one) => one === asked);
  return part === undefined ? {} : { part };
}

/** The browser as the desk needs it. */
function effectsOf(parts: string): Effects {
  const to = (address: string) =>
    address === '' ? location.origin + location.pathname : `#${address}`;
  return {
    parts: new URL(parts, location.href).href,
    start: (listen) => {
      const worker = new Worker(new URL('../worker.ts', import.meta.url), { type: 'module' });
      worker.addEventListener('message', ({ data }: MessageEvent<FromComposer>) => listen(data));
      worker.addEventListener('error', ({ message }) =>
        listen({ type: 'failed', reason: message || 'the engine could not be started' }),
      );
      return (message: ToComposer) => worker.postMessage(message);
    },
    here: () => ({
      address: location.hash.slice(1),
      step: (history.state as { composed?: Step } | null)?.composed ?? partAsked(),
    }),
    push: (address, step) => history.pushState({ composed: step }, '', to(address)),
    replace: (address, step) => history.replaceState({ composed: step }, '', to(address)),
    kept: keptHere,
    keep: (kept) => {
      try {
        localStorage.setItem(KEPT, JSON.stringify(kept));
      } catch {
        // Private windows refuse storage: the address holds the arrangement all the same.
      }
    },
  };
}
