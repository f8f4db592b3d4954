import fc from 'fast-check';
import { expect, test } from 'vitest';
import { addressOf, readAddress } from '../../src/compose/index.ts';
import { property } from '../support/property.ts';
import { catalogue } from './catalogue.ts';
import { SPECIFICATIONS } from './specifications.ts';

const { modules } = catalogue();

test.each(Object.entries(SPECIFICATIONS))('%s stands in a short address', (_, specification) => {
  const { title: _title, ...said } = specification;
  const address = addressOf(said);
  expect(readAddress(address, modules)).toEqual({ specification: said });
  expect(address.length).toBeLessThan(300);
});

const choiceIn = (slot: string) =>
  fc.constantFrom(
    ...[...modules]
      .filter(([, module]) => module.slot === slot)
      .flatMap(([module, { variants }]) => [
        module,
        ...Object.keys(variants ?? {}).map((variant) => ({ module, variant })),
      ]),
  );
const service = fc.record(
  {
    controls: fc.array(choiceIn('control'), { maxLength: 3 }),
    valve: choiceIn('valve'),
    limit: choiceIn('limit'),
  },
  { requiredKeys: ['controls'] },
);
const specifications = fc.record(
  {
    heat: choiceIn('heat'),
    supply: choiceIn('supply'),
    pump: choiceIn('pump'),
    time: choiceIn('time'),
    valve: choiceIn('valve'),
    gravity: fc.constant(true),
    heating: fc.array(service, { minLength: 1, maxLength: 4 }),
    hotWater: service,
    additions: fc.array(choiceIn('addition'), { minLength: 1, maxLength: 3 }),
  },
  { requiredKeys: ['heat', 'heating'] },
);

property(
  'any specification comes back from its address',
  200,
  (specification) => {
    expect(readAddress(addressOf(specification), modules)).toEqual({ specification });
  },
  specifications,
);

property(
  'any other text is answered by what is wrong with it',
  300,
  (text) => {
    expect(readAddress(text, modules)).toHaveProperty('wrong', expect.stringMatching(/\.$/));
  },
  fc.string(),
);

test.each([
  ['v=2&heat=combi-mains-call&heating=', 'another version'],
  ['v=1&heating=', 'no heat source'],
  ['v=1&heat=combi-mains-call', 'no heating circuit'],
  ['v=1&heat=combi-mains-call&heat=combi-mains-call&heating=', 'twice'],
  ['v=1&heat=room-stat-two-wire&heating=', 'no part that can stand here'],
  ['v=1&heat=combi-mains-call&heating=%E0%A4%A', 'damaged'],
  ['v=1&heat=combi-mains-call&heating=&additions=condensate-pump~none', 'no way of wiring'],
  [`v=1&heat=${'a'.repeat(3000)}`, 'too long'],
])('%s', (text, message) => {
  expect(readAddress(text, modules)).toHaveProperty('wrong', expect.stringContaining(message));
});
