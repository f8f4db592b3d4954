import { useState } from 'preact/hooks';
import { readList, writeList } from '../../components/scripts/kept.ts';
import { canShare, share } from '../../field/hand-out.ts';
import { readVisits } from '../../job/kept-visits.ts';
import { href } from '../../job/ui/parts.tsx';

/** Ways that a visit to this arrangement begins with. */
export function Visit({ address, title }: { readonly address: string; readonly title: string }) {
  const of = encodeURIComponent(address);
  const waiting = readVisits()?.find(({ system, title: own }) => system === null && own !== title);
  return (
    <>
      <a class="first-way" href={href(`/job/?of=${of}#new`)}>
        <b>Begin a visit on this arrangement</b> <span>from what you see to the record</span>
      </a>
      {waiting && (
        <a href={href(`/job/?of=${of}#${waiting.id}`)}>
          <b>It is the system of the open visit</b> <span>{waiting.title}</span>
        </a>
      )}
    </>
  );
}

/** The address as a link to send, pinned to the home page, and paper. */
export function Share({ address, title }: { readonly address: string; readonly title: string }) {
  const [told, setTold] = useState('');
  const path = `${href('/compose/')}#${address}`;
  const [isPinned, setPinned] = useState(() => readList('pins').some((one) => one.path === path));
  const pin = () => {
    const others = readList('pins').filter((one) => one.path !== path);
    writeList(
      'pins',
      isPinned ? others : [{ path, title, kind: 'composed from parts' }, ...others],
    );
    setPinned(!isPinned);
  };
  const send = async () => {
    const { href: url } = location;
    const copied = () =>
      navigator.clipboard.writeText(url).then(
        () => 'copied' as const,
        () => 'refused' as const,
      );
    const handed = canShare() ? await share({ title, url }) : await copied();
    if (handed === 'copied') setTold('The link is copied.');
    if (handed === 'refused')
      setTold('It could not be sent from here: copy the address of this page.');
  };
  return (
    <section class="off-paper" aria-label="Send or print">
      <div class="pair">
        <button type="button" class="plain" onClick={() => void send()}>
          Send the link
        </button>
        <button type="button" class="plain" aria-pressed={isPinned} onClick={pin}>
          {isPinned ? 'Pinned to the home page' : 'Pin to the home page'}
        </button>
        <button type="button" class="plain" onClick={() => print()}>
          Print
        </button>
      </div>
      <p role="status">{told}</p>
    </section>
  );
}
