import { expect, test } from 'vitest';
import { asDone, eitherOf } from '../../src/job/done.ts';
import { shippedSystems } from '../support/shipped.ts';

test.each([
  [
    'Isolate, prove dead, cut back, strip and remake the black core of W7; replace a burnt terminal, and the cable if the core is broken along it.',
    'Isolated, proved dead, cut back, stripped and remade the black core of W7.',
  ],
  [
    'Isolate, prove dead, find the water at the pump, stop it, dry or replace what was wet; it stays off until then.',
    'Isolated, proved dead, found the water at the pump, stopped it, dried or replaced what was wet.',
  ],
  [
    'Spur or supply side: hand over to an electrician, with what was read.',
    'Handed over to an electrician.',
  ],
  [
    'Put the lever of the valve head back to automatic.',
    'Put the lever of the valve head back to automatic.',
  ],
  ['Find out who switched Q1 off, and why, before it is switched on again.', ''],
  ['Nothing found to repair here: ask again what the customer saw, and when.', ''],
])('%s is told as done', (repair, done) => {
  expect(asDone(repair)).toBe(done);
});

/** The same verbs in the form in which a repair is ordered; those that do not change are left out. */
const ORDERED =
  /(?:^|, |, and | and )(?:isolate|prove|clean|connect|draw|dry|find|fit|free|move|remake|replace|report|run|stop|strip|swap|switch|take|treat)\b/i;

test('no repair of any shipped system is told as an order, and few are not told', () => {
  const repairs = new Set(
    shippedSystems().flatMap(({ signatures }) =>
      signatures.faults.map(({ fault }) => fault.repair),
    ),
  );
  expect(repairs.size).toBeGreaterThan(100);
  const told = [...repairs].map(asDone);
  expect(told.filter((text) => ORDERED.test(text))).toEqual([]);
  expect(told.filter((text) => text === '').length).toBeLessThan(repairs.size / 20);
});

test.each([
  [
    'Isolated, proved dead, replaced the motor or the head of the valve Q3.',
    ['the motor', 'the head'],
    'Isolated, proved dead, replaced the head of the valve Q3.',
  ],
  [
    'Found the water at the pump, stopped it, dried or replaced what was wet.',
    ['dried', 'replaced'],
    'Found the water at the pump, stopped it, replaced what was wet.',
  ],
])('of one thing or another the record asks which: %s', (text, what, second) => {
  const either = eitherOf(text);
  expect(either.map((one) => one.what)).toEqual(what);
  expect(either[1]!.text).toBe(second);
  // Said once, it says one thing.
  expect(eitherOf(second)).toEqual([]);
});

test('every repair of a shipped system that says one thing or another can be told as one', () => {
  const told = shippedSystems().flatMap(({ signatures }) =>
    signatures.faults.map(({ fault }) => asDone(fault.repair)),
  );
  const either = told.filter((text) => / or /.test(text));
  expect(either.length).toBeGreaterThan(0);
  expect(either.filter((text) => eitherOf(text).length !== 2)).toEqual([]);
});
