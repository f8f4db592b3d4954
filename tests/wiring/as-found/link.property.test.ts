import { describe, expect, test } from 'vitest';
import {
  AS_ENTRY,
  type AsFound,
  foundLink,
  MOST_LINK,
  readFoundLink,
  seal,
  tidy,
  unseal,
} from '../../../src/wiring/as-found/index.ts';
import { property } from '../../support/property.ts';
import { shippedSystem, shippedSystems } from '../../support/shipped.ts';
import { randomFound } from './random-state.ts';

const { network } = shippedSystem('combi-condensate-pump');
const other = shippedSystem('combi-two-wire').network;
/** Three cores where five belong, and a link in place of the loop. */
const THREE_CORES: AsFound = {
  ...AS_ENTRY,
  cables: { W4: ['BN', 'BU', 'GNYE'] },
  extraLinks: [['X1.2', 'X1.3']],
};
const link = foundLink(network, THREE_CORES)!;
const said = (text: string) => {
  const read = readFoundLink(network, text);
  return 'found' in read ? null : read.message;
};

describe('a link of the wiring as found', () => {
  test('comes back as it went', () => {
    expect(readFoundLink(network, link)).toEqual({ found: tidy(network, THREE_CORES) });
    expect(readFoundLink(network, foundLink(network, AS_ENTRY)!)).toEqual({ found: AS_ENTRY });
  });

  test('is short, and passes through messengers whole', () => {
    expect(link).toBe(
      '1.combi-condensate-pump.1.eyJjIjp7Ilc0IjoiQk4tQlUtR05ZRSJ9LCJ4IjpbIlgxLjI-WDEuMyJdfQ.0zn064h',
    );
    expect(link).toMatch(/^[A-Za-z0-9._-]+$/);
  });

  property('any wiring of any system comes back', 300, (from) => {
    const { network: own } = from.pick(shippedSystems());
    const found = tidy(own, randomFound(own, from));
    const text = foundLink(own, found)!;
    expect(readFoundLink(own, text)).toEqual({ found });
    expect(text.length).toBeLessThan(1500);
  });

  test('one letter lost, added or changed anywhere is found out, whatever letter', () => {
    for (let at = 0; at < link.length; at++) {
      expect(said(link.slice(0, at))).not.toBeNull();
      for (const put of 'ABCabc019-_.') {
        for (const text of [
          link.slice(0, at) + link.slice(at + 1),
          link.slice(0, at) + put + link.slice(at),
          link.slice(0, at) + put + link.slice(at + 1),
        ])
          if (text !== link) expect(said(text), text).not.toBeNull();
      }
    }
  });
});

describe('a link that cannot be shown says so', () => {
  test('damaged', () => {
    expect(said(link.replace('eyJj', 'eyJk'))).toBe(
      'This link is damaged: letters were lost or changed on the way. Nothing of it was taken over. Ask for it again, or copy it whole.',
    );
    expect(said(link.slice(0, -3))).toBe(said(link.replace('eyJj', 'eyJk')));
  });

  test('too long', () => {
    expect(said(`1.${'A'.repeat(5000)}`)).toBe(
      'This link is too long: 5002 letters, and one made here has at most 4000. Nothing of it was taken over.',
    );
    expect(said('x'.repeat(MOST_LINK + 1))).toContain('too long');
  });

  test('foreign', () => {
    expect(said('section-3')).toBe('This link was not made here. Nothing of it was taken over.');
    expect(said('')).toBe('This link was not made here. Nothing of it was taken over.');
  });

  test('of a newer version', () => {
    expect(said(link.replace(/^1\./, '2.'))).toBe(
      'This link was made by a newer version of this reference. Take up the newer version, then open it again.',
    );
  });

  test('of another system', () => {
    expect(readFoundLink(network, foundLink(other, AS_ENTRY)!)).toEqual({
      problem: 'other system',
      message: 'This link is of another system, combi-two-wire. Nothing of it was taken over.',
      system: 'combi-two-wire',
    });
  });

  test('of another version of the wiring, and keeps what it marks', () => {
    const later = { ...network, system: { ...network.system, version: 2 } };
    expect(readFoundLink(later, link)).toEqual({
      problem: 'outdated',
      message:
        'This link was made for version 1 of the wiring; the drawing here is version 2. What it marks may not mean the same, so it is not shown unasked.',
      system: 'combi-condensate-pump',
      outdated: tidy(network, THREE_CORES),
    });
  });

  test('of something that the entry does not have', () => {
    const of = (value: unknown) => said(seal('combi-condensate-pump', 1, value));
    const says = (what: string) =>
      `This link names something that is not on the drawing: ${what}. Nothing of it was taken over.`;
    expect(of({ c: { W9: 'BN' } })).toBe(says('there is no cable W9'));
    expect(of({ e: ['W9.BN@1>loose'] })).toBe(says('there is no cable W9'));
    expect(of({ e: ['W4.PK@1>X1.1'] })).toBe(says('W4 has no core PK'));
    expect(of({ e: ['W4.BK@1>X1.9'] })).toBe(says('there is no terminal X1 9'));
    expect(of({ x: ['X1.1>X1.9'] })).toBe(says('there is no terminal X1 9'));
    expect(of({ x: ['X1.1>X1.1'] })).toBe(says('a link joins two terminals, not X1 1 to itself'));
    expect(of({ l: [7] })).toBe(says('there is no link 8'));
    expect(of({ b: ['M1/motor'] })).toBe(says('nothing to bridge at M1/motor'));
    expect(of({ a: ['Z9'] })).toBe(says('there is no item Z9'));
    expect(of({ r: { 'M1/motor': 13 } })).toBe(says('M1/motor is no fuse or breaker'));
    expect(of({ b: ['Q1/fuse'], r: { 'Q1/fuse': 13 } })).toBe(
      says('Q1/fuse is both bridged and of another rating'),
    );
  });

  test('of anything else', () => {
    const strange: unknown[] = [
      null,
      7,
      'text',
      [],
      { z: 1 },
      { c: 'W4' },
      { c: { W4: 5 } },
      { c: { __proto__: null, constructor: 'BN' } },
      { e: 'W4.BK@2' },
      { e: ['W4.BK@3>loose'] },
      { e: [null] },
      { e: ['W4.BK@2>gone'] },
      { l: [-1] },
      { l: ['0'] },
      { x: ['X1.1'] },
      { x: [['X1.1', 'X1.2']] },
      { b: ['<b>'] },
      { a: 'B1' },
      { r: { 'Q1/fuse': '13' } },
      { r: { 'Q1/fuse': 1e9 } },
      { r: { 'Q1/fuse': Number.NaN } },
    ];
    for (const value of strange)
      expect(said(seal('combi-condensate-pump', 1, value)), JSON.stringify(value)).toContain(
        'damaged',
      );
  });

  test('a state too large for a link is refused, not cut', () => {
    const points = network.nodes.filter((n) => n.terminal).map((n) => n.id);
    const extraLinks = points.flatMap((a, i) => points.slice(i + 1).map((b) => [a, b] as const));
    expect(foundLink(network, { ...AS_ENTRY, extraLinks })).toBeNull();
  });

  test('a text not sealed here opens as nothing', () => {
    expect(unseal('1.a.b.c.d')).toEqual(unseal('1.x.1..0000000'));
  });
});
