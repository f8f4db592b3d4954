/** Elements that draw, and nothing else. */
const ELEMENTS = new Set(
  [
    'svg g path rect circle ellipse line polyline polygon text tspan title desc defs',
    'linearGradient radialGradient stop clipPath mask',
  ]
    .join(' ')
    .split(' '),
);

/** A tag: its name, and its attributes as written. */
const TAG =
  /<(\/?)([A-Za-z_][\w.:-]*)((?:\s+[A-Za-z_][\w.:-]*\s*=\s*(?:"[^"<]*"|'[^'<]*'))*)\s*\/?>/g;
const ATTRIBUTE = /([A-Za-z_][\w.:-]*)\s*=\s*(?:"([^"<]*)"|'([^'<]*)')/g;

/**
 * Why a drawing may not be published beside scripts of a site, or nothing. Opened by itself an
 * SVG is a document that runs what it holds, so it may hold drawing only: the elements above,
 * no handlers, no styles, no links but to its own parts, no entities, no instructions.
 */
export function svgProblem(text: string): string | undefined {
  const plain = text
    .replace(/^\uFEFF?\s*<\?xml\s[^?<>]*\?>/, '')
    .replaceAll(/<!--(?:(?!--)[\s\S])*-->/g, '');
  if (/<[!?]/.test(plain)) return 'it holds instructions or declarations; a drawing has none';
  if (/&(?!(amp|lt|gt|quot|apos|#\d+|#x[\da-f]+);)/i.test(plain)) return 'it uses an entity';
  const rest = plain.replaceAll(TAG, '');
  if (/[<>]/.test(rest)) return 'it is not well-formed XML';
  const tags = [...plain.matchAll(TAG)];
  if (tags[0]?.[2] !== 'svg') return 'it is no SVG drawing';
  for (const [, , name = '', attributes = ''] of tags) {
    if (!ELEMENTS.has(name)) return `it holds <${name}>; a logo only draws`;
    for (const [, attribute = '', double, single] of attributes.matchAll(ATTRIBUTE)) {
      const found = attributeProblem(attribute, decoded(double ?? single ?? ''));
      if (found) return `<${name}> ${found}`;
    }
  }
  return undefined;
}

function attributeProblem(name: string, value: string): string | undefined {
  if (/^on/i.test(name)) return `has a handler, ${name}`;
  if (name === 'style')
    return 'has a style; write its properties as attributes, as in fill="#0b5c4b"';
  if (/^(xlink:)?href$/i.test(name) || /^xml:base$/i.test(name))
    return /^#[\w.-]+$/.test(value) ? undefined : 'leads to something outside the drawing';
  if (/url\s*\(/i.test(value) && !/^url\(\s*#[\w.-]+\s*\)$/i.test(value))
    return 'loads something from outside the drawing';
  if (/javascript:/i.test(value.replaceAll(/\s/g, ''))) return 'holds a program';
  return undefined;
}

/** Character references as the characters they stand for. */
const decoded = (value: string) =>
  value
    .replaceAll(/&#x([\da-f]+);/gi, (_, hex) => character(Number.parseInt(hex, 16)))
    .replaceAll(/&#(\d+);/g, (_, decimal) => character(Number(decimal)));
const character = (code: number) => (code <= 0x10ffff ? String.fromCodePoint(code) : '\uFFFD');
