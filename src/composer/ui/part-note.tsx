import { useEffect, useRef } from 'preact/hooks';

/** What a part's own entry says of it, as the build wrote it further down this page. */
export function PartNote({ module }: { readonly module: string }) {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const written = document.querySelector(`#part-${module} .part-said`);
    place.current?.replaceChildren(...(written ? [written.cloneNode(true)] : []));
  }, [module]);
  return <div class="part-note" ref={place} />;
}
