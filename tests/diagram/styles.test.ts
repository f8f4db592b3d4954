import { expect, test } from 'vitest';
import { CORE_COLOURS, diagramStyles } from '../../src/diagram/index.ts';
import { COLOUR_CODES, type ColourCode } from '../../src/published/index.ts';

const rules = diagramStyles(['standby', 'hot-tap']);

test('each mode has its rules under its own input, for all four states', () => {
  for (const mode of ['standby', 'hot-tap']) {
    for (const state of ['live', 'between', 'closed', 'on']) {
      const chosen = `.system:has(#mode-${mode}:checked) .circuit [data-${state}~="${mode}"]`;
      expect(rules).toContain(chosen);
    }
  }
});

test('the first mode shows where none is chosen and where :has is unknown', () => {
  expect(rules).toContain(
    '.system:not(:has([name="mode"]:checked)) .circuit [data-live~="standby"]',
  );
  expect(rules).not.toContain(':checked)) .circuit [data-live~="hot-tap"]');
  const fallback = rules.slice(rules.indexOf('@supports not selector(:has(*)){'));
  expect(fallback.split('\n')[1]).toMatch(/^\.circuit \[data-live~="standby"\]/);
});

test('braces are in pairs', () => {
  expect(rules.split('{').length).toBe(rules.split('}').length);
});

test('without modes there are only the signs that never change', () => {
  expect(diagramStyles([])).not.toContain(':has(#');
});

/** Relative luminance and contrast ratio as WCAG 2.2 defines them. */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}
function contrast(a: string, b: string): number {
  const [low, high] = [luminance(a), luminance(b)].toSorted((x, y) => x - y);
  return (high! + 0.05) / (low! + 0.05);
}

// WCAG 2.2, success criterion 1.4.11: parts needed to understand a graphic, 3:1 at least.
test.each(Object.keys(COLOUR_CODES) as ColourCode[])(
  '%s stands out from paper and slate',
  (code) => {
    const [light, dark] = CORE_COLOURS[code];
    const edged = (ground: 'light' | 'dark') =>
      (ground === 'light' ? ['WH', 'YE', 'SR'] : ['BK']).includes(code);
    if (!edged('light')) expect(contrast(light, '#ffffff')).toBeGreaterThanOrEqual(3);
    if (!edged('dark')) expect(contrast(dark, '#1d2226')).toBeGreaterThanOrEqual(3);
    for (const ground of ['light', 'dark'] as const) {
      if (edged(ground)) expect(rules).toContain(`.circuit .core-${code} .casing`);
    }
  },
);
