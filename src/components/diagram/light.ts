/** Lights parts of the drawings on a page and says in a line what is lit. */
export interface Light {
  /** @param ids terminals, conductors, elements and points inside boxes. */
  readonly on: (ids: Iterable<string>, text: string) => void;
  /** Brings the first of some that is drawn into the middle of the screen. */
  readonly show: (ids: readonly string[]) => void;
  readonly off: () => void;
}

const ATTRIBUTES = ['data-terminal', 'data-conductor', 'data-element', 'data-toggle', 'data-node'];

export function lightOf(pan: Element, line: Element): Light {
  const parts = new Map<string, Element[]>();
  for (const attribute of ATTRIBUTES) {
    for (const part of pan.querySelectorAll(`[${attribute}]`)) {
      const id = part.getAttribute(attribute)!;
      parts.set(id, [...(parts.get(id) ?? []), part]);
    }
  }
  const hint = line.textContent?.trim() ?? '';
  let lit: Element[] = [];
  const clear = () => {
    for (const part of lit) part.classList.remove('lit');
    lit = [];
  };
  return {
    on(ids, text) {
      clear();
      lit = [...ids].flatMap((id) => parts.get(id) ?? []);
      for (const part of lit) part.classList.add('lit');
      pan.classList.toggle('tracing', lit.length > 0);
      line.textContent = text;
    },
    show(ids) {
      const drawn = ids.flatMap((id) => parts.get(id) ?? []).find((part) => part.checkVisibility());
      const still = !matchMedia('(prefers-reduced-motion: no-preference)').matches;
      drawn?.scrollIntoView({
        block: 'center',
        inline: 'nearest',
        behavior: still ? 'instant' : 'smooth',
      });
    },
    off() {
      clear();
      pan.classList.remove('tracing');
      line.textContent = hint;
    },
  };
}
