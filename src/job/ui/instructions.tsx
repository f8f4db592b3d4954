import type { ComponentChildren, RefObject } from 'preact';
import { useLayoutEffect, useState } from 'preact/hooks';

/**
 * Where, how, in which mode. Where the act would not fit above the bar the reason under them is
 * folded to a line, then they are, to two lines each and then to one: caution and answers stay in
 * view, and one tap brings all of it back.
 */
export function Instructions({
  of,
  children,
}: {
  readonly of: RefObject<HTMLElement>;
  readonly children: ComponentChildren;
}) {
  const [fold, setFold] = useState<keyof typeof TIGHTER | 'opened'>('whole');
  useLayoutEffect(() => {
    if (fold !== 'opened' && of.current && !fits(of.current)) setFold(TIGHTER[fold]);
  });
  return (
    <div class={`instructions ${fold}`}>
      <div>{children}</div>
      {(fold === 'two-lines' || fold === 'one-line-each') && (
        <button type="button" class="quiet-button" onClick={() => setFold('opened')}>
          more<span class="unseen"> of how it is done</span>
        </button>
      )}
    </div>
  );
}

/** What instructions are folded to where they do not fit as they are. */
const TIGHTER = {
  whole: 'reason-folded',
  'reason-folded': 'two-lines',
  'two-lines': 'one-line-each',
  'one-line-each': 'one-line-each',
} as const;

/** Whether the panel has room between what is known and the bar; in the page's flow it has. */
function fits(panel: HTMLElement): boolean {
  const bar = document.querySelector('.job-tabs')?.getBoundingClientRect();
  const above = panel.parentElement?.querySelector('.so-far > summary')?.getBoundingClientRect();
  if (!bar || !above || getComputedStyle(panel).position !== 'sticky') return true;
  return panel.offsetHeight <= bar.top - (above.bottom + scrollY);
}
