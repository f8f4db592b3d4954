import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { DIST, filesOfSite } from '../support/site-folder.ts';

/**
 * Before any reading that a page asks for, the page says that it is live work, who may do it and
 * how (HSE GS38; Electricity at Work Regulations 1989, regulation 14). Read off the built pages,
 * by words: whoever writes prose cannot get round it by where it is written.
 */
const pages = filesOfSite().filter((path) =>
  /^(systems|symptoms|devices|procedures|standards|glossary)\/.+\/index\.html$/.test(path),
);

/** Text of a page’s main part as a reader meets it; what is only marked up is gone. */
function textOf(html: string): string {
  const main = html.slice(html.indexOf('<main'), html.indexOf('</main>'));
  return main
    .replace(/<(style|script|svg)[\s\S]*?<\/\1>/g, ' ')
    .replace(/<[^>]+>/g, ' ')
    .replace(/&[a-z0-9#]+;/g, ' ')
    .replace(/\s+/g, ' ');
}

/** An order to take a reading: to read or measure between points, or volts at them. */
const ORDERS = [
  /\b(?:read|measure)\b(?! the (?:display|setting|plate|manufacturer))[^.:;]{0,60}?\b(?:to|at|across|between|its)\b[^.:;]{0,40}?\b(?:line|live|neutral|earth|terminal|contact|call|core|out|in)\b/i,
  /\b(?:line|live|L) to (?:its |the )?(?:neutral|earth|N|E)\b/,
  /\bvolts? (?:AC|DC|across|between)\b/i,
  /\bread(?:ing)? (?:both|each|either|line|across|after|it with)\b/i,
  /\bIn the mode|Between \w+ and \w+ read\b/,
];
const CAUTION = /live work|work on live conductors/i;
/** What the caution must say of who and with what. */
const WHO = /competent/i;
const WITH = /GS38/;

const orderIn = (text: string): number =>
  Math.min(...ORDERS.map((order) => text.search(order)).map((at) => (at < 0 ? Infinity : at)));

const cautionIn = (text: string): number => {
  const at = text.search(CAUTION);
  const said = text.slice(Math.max(at - 200, 0), at + 600);
  return at >= 0 && WHO.test(said) && WITH.test(said) ? at : Infinity;
};

describe('on every page that asks for a reading', () => {
  const found = pages.map((path) => {
    const text = textOf(readFileSync(join(DIST, path), 'utf8'));
    return { path, text, order: orderIn(text), caution: cautionIn(text) };
  });

  test('the caution of live work comes first', () => {
    const asking = found.filter(({ order }) => order < Infinity);
    expect(asking.length).toBeGreaterThan(100);
    const late = asking
      .filter(({ order, caution }) => caution > order)
      .map(
        ({ path, text, order }) => `${path}: …${text.slice(Math.max(order - 60, 0), order + 120)}…`,
      );
    expect(late).toEqual([]);
  });

  test('that leads to a cylinder, so do the immersion heater’s own circuit and who may touch what', () => {
    const bare = found
      .filter(({ path }) => !path.startsWith('procedures/safe-isolation'))
      .filter(
        ({ order, text }) =>
          order < Infinity && /\b(?:on|at) the cylinder\b|Cylinder cupboard/.test(text),
      )
      .filter(
        ({ text }) =>
          !/immersion heater has its own circuit/i.test(text) || !/unvented/i.test(text),
      )
      .map(({ path }) => path);
    expect(bare).toEqual([]);
  });
});

describe('the words it looks for', () => {
  test.each([
    'Read line to neutral at the spur.',
    'Then read across the contact.',
    'Measure between COM and the call terminal.',
    'Read each call terminal to earth on volts AC.',
  ])('find: %s', (order) => {
    expect(orderIn(`Some words. ${order}`)).toBeLessThan(Infinity);
    expect(orderIn(`Some words. ${order}`)).toBeGreaterThan(0);
  });

  test.each([
    'Read the manufacturer’s instructions.',
    'Read what the display says.',
    'The reader calls it a thermostat.',
  ])('do not find: %s', (words) => {
    expect(orderIn(words)).toBe(Infinity);
  });

  test('take no mention of live work for the caution', () => {
    expect(cautionIn('Live work is dangerous.')).toBe(Infinity);
  });
});
