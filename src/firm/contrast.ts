/** Contrast of colours as WCAG 2.2 defines it, https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio. */

/** What the accent colour is written on, from the site's own styles, light and dark. */
export const GROUNDS = {
  light: { paper: '#f7f7f3', raised: '#fffffd', wash: '#ebebe4' },
  dark: { paper: '#1a2226', raised: '#212b30', wash: '#29343a' },
} as const;
export type Scheme = keyof typeof GROUNDS;

/** Least contrast of text, WCAG 2.2 success criterion 1.4.3. */
export const LEAST_CONTRAST = 4.5;

/** How much of the accent lies in the ground of a chosen button. */
const WASH = { light: 0.1, dark: 0.14 } as const;

type Rgb = readonly [red: number, green: number, blue: number];

const parse = (hex: string): Rgb =>
  [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16)) as unknown as Rgb;
const write = (rgb: Rgb): string =>
  `#${rgb.map((c) => Math.round(c).toString(16).padStart(2, '0')).join('')}`;

/** A colour between two, `part` of the way from the first to the second. */
function mix(from: string, to: string, part: number): string {
  const [a, b] = [parse(from), parse(to)];
  return write(a.map((c, i) => c + (b[i]! - c) * part) as unknown as Rgb);
}

function luminance(hex: string): number {
  const [r, g, b] = parse(hex).map((value) => {
    const c = value / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  }) as unknown as Rgb;
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** Contrast of two colours, from 1 to 21. */
export function contrast(a: string, b: string): number {
  const [x, y] = [luminance(a), luminance(b)];
  return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
}

/** Ground of a chosen button: paper with a little of the accent in it. */
export const washOf = (accent: string, scheme: Scheme): string =>
  mix(GROUNDS[scheme].paper, accent, WASH[scheme]);

/** The least contrast of an accent colour with all that it is written on. */
export const accentContrast = (accent: string, scheme: Scheme): number =>
  Math.min(
    ...Object.values(GROUNDS[scheme]).map((ground) => contrast(accent, ground)),
    contrast(accent, washOf(accent, scheme)),
  );

/** The nearest colour towards black, or in the dark towards white, that is contrast enough. */
export function readable(accent: string, scheme: Scheme): string {
  const end = scheme === 'light' ? '#000000' : '#ffffff';
  for (let part = 0; part < 1; part += 0.01) {
    const nearer = mix(accent, end, part);
    if (accentContrast(nearer, scheme) >= LEAST_CONTRAST) return nearer;
  }
  return end;
}

/**
 * Style rules by which a site's links and buttons take a firm's accent colour. They win over
 * the site's own wherever their sheet stands.
 */
export const accentStyles = (accent: Readonly<Record<Scheme, string>>): string => `@media screen {
  :root:root {
    --accent: ${accent.light};
    --accent-wash: ${washOf(accent.light, 'light')};
  }
}
@media screen and (prefers-color-scheme: dark) {
  :root:root {
    --accent: ${accent.dark};
    --accent-wash: ${washOf(accent.dark, 'dark')};
  }
}
`;
