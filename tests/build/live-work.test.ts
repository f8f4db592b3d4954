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
  /\b(?:read|measure)\b(?! the (?:display|setting|plate|manufacturer))[^.:;]{0,60}?\b(?:to|at|across|between|its)\b[^.:;]{0,40}?\b(?:line|live|neutral|earth|terminal|contact|call|core|out|in)\b/gi,
  /\b(?:read|measure|test|check)\b[^.]{0,40}\b(?:line|live|L) to (?:its |the )?(?:neutral|earth|N|E)\b/gi,
  /\bvolts? (?:AC|DC|across|between)\b/gi,
  // A step of a sequence: what a sound system shows there.
  /\bNormal here\?\s*(?:under )?[\d.]+ V\b/g,
  /\bread(?:ing)? (?:both|each|either|line|across|after|it with)\b/gi,
];
/** A dead test says so where it stands, and is no live work. */
const DEAD = /\bohms\b|\bdead test|no short|continu(?:ous|ity)|insulation|isolated, locked off/i;

const CAUTION = /live work|live reading, for/gi;

/** Places of every order to take a reading that is not one of a dead test. */
const ordersIn = (text: string): number[] =>
  ORDERS.flatMap((order) => [...text.matchAll(order)])
    .map(({ index }) => index)
    .filter((at) => !DEAD.test(text.slice(Math.max(at - 80, 0), at + 100)))
    .toSorted((a, b) => a - b);

/** Place of the first caution that says who may do live work, and with what; none: the end. */
const cautionIn = (text: string): number =>
  [...text.matchAll(CAUTION)]
    .map(({ index }) => index)
    .find((at) => {
      const said = text.slice(at, at + 300);
      return /competent/i.test(said) && /GS38/.test(said);
    }) ?? Infinity;

/** A test at a cylinder as a step names its place, or prose that sends a reader there. */
const AT_CYLINDER = /, (?:on the cylinder|cylinder cupboard)\b|\b(?:at|on) the cylinder\b/i;

describe('on every page that asks for a reading', () => {
  const found = pages.map((path) => {
    const text = textOf(readFileSync(join(DIST, path), 'utf8'));
    return { path, text, orders: ordersIn(text), caution: cautionIn(text) };
  });

  test('the caution of live work comes first', () => {
    const asking = found.filter(({ orders }) => orders.length > 0);
    expect(asking.length).toBeGreaterThan(100);
    const late = asking.flatMap(({ path, text, orders, caution }) =>
      orders
        .filter((at) => caution > at)
        .map((at) => `${path}: …${text.slice(Math.max(at - 60, 0), at + 120)}…`),
    );
    expect(late).toEqual([]);
  });

  test('that leads to a cylinder, so do the immersion heater’s own circuit and who may touch what', () => {
    const there = found.filter(({ orders, text }) => orders.length > 0 && AT_CYLINDER.test(text));
    expect(there.length).toBeGreaterThan(20);
    const bare = there
      .filter(
        ({ text }) =>
          !/immersion heater[^.]{0,60}own circuit/i.test(text) || !/unvented/i.test(text),
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
    expect(ordersIn(`Some words. ${order}`)[0]).toBeGreaterThan(0);
  });

  test.each([
    'Read the manufacturer’s instructions.',
    'Read what the display says.',
    'The reader calls it a thermostat.',
    'Isolated, locked off and proved dead. Read line to neutral, ohms.',
  ])('do not find: %s', (words) => {
    expect(ordersIn(words)).toEqual([]);
  });

  test('take no mention of live work for the caution', () => {
    expect(cautionIn('Live work is dangerous.')).toBe(Infinity);
  });
});
