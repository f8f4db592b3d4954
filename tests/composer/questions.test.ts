import { describe, expect, it } from 'vitest';
import { addressOf, compose, readAddress } from '../../src/compose/index.ts';
import { MOST_ZONES } from '../../src/composer/questions.ts';
import { answersFor, specificationFor } from '../../src/composer/specification.ts';
import { catalogue } from '../compose/catalogue.ts';
import { combinations, nameOf, specificationOf } from '../compose/combinations.ts';
import { SPECIFICATIONS } from '../compose/specifications.ts';
import { questions } from './parts.ts';

const asked = questions();

/** A specification with its choices by their shortest names, as an address says it. */
const plainly = (address: string) =>
  address.replaceAll('condensate-pump~in+supply&', 'condensate-pump&').split('&').toSorted();

describe('the questions ask for every arrangement', () => {
  it.each(Object.entries(SPECIFICATIONS))('%s', (_, specification) => {
    const answers = answersFor(asked, specification);
    expect(answers).not.toBeNull();
    expect(asked.next(answers!)).toBeUndefined();
    const again = specificationFor(asked, answers!);
    expect(compose(again, catalogue()).nets).toEqual(compose(specification, catalogue()).nets);
  });

  it('each combination that is asked for comes back from its answers', () => {
    const some = combinations().filter((_, i) => i % 23 === 0);
    const lost = some.filter((one) => {
      const specification = specificationOf(one);
      const answers = answersFor(asked, specification);
      if (!answers) return true;
      const again = answersFor(asked, specificationFor(asked, answers));
      return JSON.stringify(again) !== JSON.stringify(answers);
    });
    expect(lost.map(nameOf)).toEqual([]);
    expect(some.length).toBeGreaterThan(200);
  });

  it('what they ask for is read again from its address, letter for letter', () => {
    for (const specification of Object.values(SPECIFICATIONS)) {
      const address = addressOf(specificationFor(asked, answersFor(asked, specification)!));
      const read = readAddress(address, catalogue().modules);
      expect('specification' in read && addressOf(read.specification)).toBe(address);
      expect(plainly(address).length).toBeGreaterThan(1);
    }
  });

  it('two controls in series are asked for by no answers', () => {
    expect(
      answersFor(asked, {
        heat: 'combi-mains-call',
        heating: [{ controls: ['room-stat-two-wire', 'wireless-receiver'] }],
      }),
    ).toBeNull();
  });
});

describe('one question after another', () => {
  it('a question has no answer twice, and says what it asks', () => {
    const answers = { boiler: 'combi boiler', cylinder: 'overheat-cut-out', zones: '4' };
    for (const { id, asks, about, options } of asked.list(answers)) {
      expect(new Set(options.map((option) => option.id)).size, id).toBe(options.length);
      expect(asks, id).toMatch(/\?$/);
      expect(about, id).not.toBe('');
      expect(options.length, id).toBeGreaterThan(1);
    }
  });

  it('each circuit of heating is asked for by itself, the answer before it first', () => {
    const answers = { zones: String(MOST_ZONES), 'valve-1': 'two-port-valve' };
    const valves = asked.list(answers).filter(({ id }) => /^valve-\d$/.test(id));
    expect(valves).toHaveLength(MOST_ZONES);
    expect(valves[1]!.options[0]!.id).toBe('two-port-valve');
  });

  it('a valve of its own is asked for where no valve is shared', () => {
    const of = (shared: string) =>
      asked
        .list({ boiler: 'combi boiler', cylinder: 'plain', shared })
        .filter(({ id }) => id.startsWith('valve'))
        .map(({ id }) => id);
    expect(of('each')).toEqual(['valve-1', 'valve-water']);
    expect(of('mid-position-valve')).toEqual([]);
    expect(of('gravity')).toEqual(['valve-water']);
  });

  it('answers to what is no longer asked are dropped', () => {
    const kept = asked.kept({
      boiler: 'combi boiler',
      call: 'system-boiler',
      cylinder: 'none',
      'control-water': 'cylinder-stat',
      zones: '1',
      'control-2': 'wireless-receiver',
    });
    expect(kept).toEqual({ boiler: 'combi boiler', cylinder: 'none', zones: '1' });
  });
});
