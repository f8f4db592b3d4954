import { useEffect, useRef } from 'preact/hooks';

/** Goes to the top when another page is shown. */
export function useTopOf(page: string): void {
  const shown = useRef(page);
  useEffect(() => {
    if (shown.current === page) return;
    shown.current = page;
    // What was touched is gone: whoever reads by ear goes on at the head of what came.
    document.querySelector<HTMLElement>('#main')?.focus({ preventScroll: true });
    scrollTo({ top: 0 });
  });
}
