import type { Name, Vocabulary } from '../../src/search/names.ts';

const name = (given: Partial<Name> & Pick<Name, 'name' | 'kind' | 'url'>): Name => ({
  aliases: [],
  about: '',
  ...given,
});

/** A small reference: two systems, their devices and terminals, a procedure, some words. */
export const VOCABULARY: Vocabulary = {
  names: [
    name({
      name: 'Combi boiler with two-wire room control',
      kind: 'system',
      url: 'systems/combi-two-wire/',
      aliases: ['combi and room stat'],
      about: 'One room control closes the boiler’s own call loop over two cores.',
      facets: { arrangement: ['combi'], control: ['two-wire control'], feature: [] },
    }),
    name({
      name: 'System boiler with two two-port valves',
      kind: 'system',
      url: 'systems/system-boiler-two-port/',
      about: 'Two zones, each with its own valve.',
      facets: {
        arrangement: ['system'],
        control: ['programmer and thermostats'],
        feature: ['two-port valves', 'wiring centre'],
      },
    }),
    name({
      name: 'Combi boiler, mains call',
      kind: 'device',
      url: 'devices/combi/',
      aliases: ['combination boiler'],
      about: 'Heats when its own live comes back.',
    }),
    ...[
      ['L', 'Permanent live in', []],
      ['N', 'Neutral in', []],
      ['call feed', 'Live out to the room control', ['LS']],
      ['call return', 'Live back from the room control', ['SL', 'call in']],
    ].map(([terminal, about, aliases]) =>
      name({
        name: terminal as string,
        kind: 'terminal',
        url: `devices/combi/#terminal-${(terminal as string).replaceAll(' ', '-')}`,
        about: about as string,
        aliases: aliases as string[],
        of: 'Combi boiler, mains call',
      }),
    ),
    name({ name: 'System boiler', kind: 'device', url: 'devices/system-boiler/' }),
    ...['L', 'N', 'SL'].map((terminal) =>
      name({
        name: terminal,
        kind: 'terminal',
        url: `devices/system-boiler/#terminal-${terminal.toLowerCase()}`,
        of: 'System boiler',
      }),
    ),
    name({
      name: 'Safe isolation',
      kind: 'procedure',
      url: 'procedures/safe-isolation/',
      about: 'Isolate, lock off, prove dead.',
    }),
    name({
      name: 'Switched live',
      kind: 'word',
      url: 'glossary/switched-live/',
      aliases: ['SL', 'S/L', 'switch wire'],
      about: 'A core that is live only while a contact is closed.',
    }),
    name({
      name: 'Hot water',
      kind: 'word',
      url: 'glossary/hot-water/',
      aliases: ['HW', 'DHW'],
      about: 'Water for taps.',
    }),
  ],
  systems: [
    {
      title: 'Combi boiler with two-wire room control',
      url: 'systems/combi-two-wire/',
      items: { E1: { device: 'devices/combi/', place: 'Kitchen wall' } },
    },
    {
      title: 'System boiler with two two-port valves',
      url: 'systems/system-boiler-two-port/',
      items: { E1: { device: 'devices/system-boiler/', place: 'Utility room' } },
    },
  ],
  words: [
    'boiler',
    'thermostat',
    'condensate',
    'isolation',
    'control',
    'valve',
    'thermal',
    'neutral',
    'switched',
    'contact',
    'programmer',
    'polarity',
  ],
};
