type Value = string | number | undefined | false;

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
};

export const escaped = (text: string): string => text.replace(/[&<>"]/g, (c) => ESCAPES[c]!);

/** A length to a tenth of a px, so that drawings of equal layouts are equal text. */
export const round = (n: number): number => Math.round(n * 10) / 10 + 0;

/** An element; attributes that are undefined, false or empty text are left out. */
export function tag(
  name: string,
  attributes: Readonly<Record<string, Value>>,
  ...children: readonly string[]
): string {
  let open = `<${name}`;
  for (const [key, value] of Object.entries(attributes)) {
    if (value === undefined || value === false || value === '') continue;
    open += ` ${key}="${typeof value === 'number' ? round(value) : escaped(value)}"`;
  }
  const inner = children.join('');
  return inner === '' ? `${open}/>` : `${open}>${inner}</${name}>`;
}

/** A text at the start of its baseline, or at its middle or end by `text-anchor`. */
export const words = (
  text: string,
  x: number,
  y: number,
  className: string,
  anchor?: 'middle' | 'end',
): string => tag('text', { class: className, x, y, 'text-anchor': anchor }, escaped(text));
