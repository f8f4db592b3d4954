import { Device, type DeviceInput, System } from '../../schemas/index.ts';
import { buildNetwork, type Network } from '../../src/circuit/index.ts';

const openings = { lid: { title: 'lid', minutes: 1 } };
const mains = { function: 'of the test' };

const DEVICES: Readonly<Record<string, DeviceInput>> = {
  supply: {
    title: 'Supply',
    summary: 'A supply with its breaker.',
    letter: 'F',
    family: 'supply',
    terminals: {
      L: { ...mains, carries: 'line' },
      N: { ...mains, carries: 'neutral' },
      E: { ...mains, carries: 'earth' },
    },
    nodes: ['busbar', 'way'],
    elements: {
      mains: { kind: 'mains', line: 'busbar', neutral: 'N', earth: 'E' },
      pole: { kind: 'contact', between: ['busbar', 'way'], closed: { not: 'off' } },
      'neutral pole': { kind: 'contact', between: ['N', 'N out'], closed: { not: 'off' } },
      breaker: { kind: 'breaker', name: 'circuit-breaker', between: ['way', 'L'], rating: 6 },
    },
    conditions: { off: { title: 'Off' } },
    openings,
  },
  machine: {
    title: 'A machine with one of everything & a name that has to be broken',
    summary: 'Every kind of element.',
    letter: 'E',
    family: 'boiler',
    protection: 'class I',
    terminals: {
      L: { ...mains, carries: 'line' },
      N: { ...mains, carries: 'neutral' },
      E: { ...mains, carries: 'earth' },
      'call 1': { ...mains, carries: 'call', voltage: 'extra-low' },
      'call 2': { ...mains, carries: 'call', voltage: 'extra-low' },
      out: mains,
      test: mains,
    },
    nodes: ['inner L', 'call inside', 'relay L', 'dim L', 'lamp L'],
    elements: {
      fuse: { kind: 'fuse', name: 'board fuse', between: ['L', 'inner L'], rating: 3 },
      board: { kind: 'load', name: 'control board', between: ['inner L', 'N'], watts: 8 },
      'call source': {
        kind: 'source',
        between: ['call 1', 'call inside'],
        volts: 24,
        ohms: 100,
        poweredBy: 'board',
      },
      'call input': {
        kind: 'sensing',
        between: ['call inside', 'call 2'],
        ohms: 2200,
        ratedVolts: 24,
      },
      relay: {
        kind: 'contact',
        between: ['inner L', 'relay L'],
        closed: { energised: 'call input' },
      },
      pump: { kind: 'motor', name: 'circulating pump', between: ['relay L', 'N'], watts: 45 },
      coil: { kind: 'load', draws: 'coil', between: ['relay L', 'N'], watts: 2 },
      'feed out': { kind: 'link', between: ['relay L', 'out'] },
      dropper: { kind: 'resistor', between: ['relay L', 'dim L'], ohms: 10000 },
      warmer: { kind: 'load', draws: 'heater', between: ['dim L', 'N'], watts: 1 },
      'lamp switch': { kind: 'contact', between: ['inner L', 'lamp L'], closed: 'dark' },
      lamp: { kind: 'load', draws: 'lamp', between: ['lamp L', 'N'], watts: 5 },
    },
    conditions: { dark: { title: 'Dark' } },
    openings,
  },
  box: {
    title: 'Terminal box',
    summary: 'Numbered ways.',
    letter: 'X',
    family: 'wiring centre',
    terminals: {
      '1': mains,
      '2': mains,
      '3': mains,
      N: { ...mains, carries: 'neutral' },
      E: { ...mains, carries: 'earth' },
    },
    openings,
  },
  control: {
    title: 'Room control',
    summary: 'A contact.',
    letter: 'B',
    family: 'control',
    terminals: {
      COM: { ...mains, carries: 'call', voltage: 'extra-low' },
      NO: { ...mains, carries: 'call', voltage: 'extra-low' },
      E: { ...mains, carries: 'earth' },
    },
    elements: { contact: { kind: 'contact', between: ['COM', 'NO'], closed: 'calling' } },
    conditions: { calling: { title: 'Calling' } },
    openings,
  },
};

/**
 * A system in which every sign of the drawings is met: each kind of element, a sleeved core,
 * a spare core, a wire link, a labelled terminal, extra-low voltage, and a switched core long
 * enough to read neither live nor dead when it hangs free.
 */
export function everySign(): Network {
  const { supply, ...rest } = DEVICES;
  const withNeutralOut = {
    ...supply!,
    terminals: { ...supply!.terminals, 'N out': { ...mains, carries: 'neutral' as const } },
  };
  const devices = new Map(
    Object.entries({ ...rest, supply: withNeutralOut }).map(([id, d]) => [id, Device.parse(d)]),
  );
  const system = System.parse({
    title: 'Every sign <once>',
    summary: 'For the drawings.',
    arrangement: 'combi',
    control: 'volt-free control',
    recognise: ['It is only drawn.'],
    items: {
      F1: { device: 'supply', place: 'Board' },
      X1: {
        device: 'box',
        place: 'Cupboard',
        labels: { '1': 'permanent live', '2': 'out of the machine, to nothing yet' },
      },
      E1: { device: 'machine', place: 'Wall' },
      B1: { device: 'control', place: 'Hall' },
    },
    cables: {
      W1: {
        kind: 'twin and earth',
        size: 2.5,
        earthSize: 1.5,
        length: 15,
        cores: { BN: ['F1.L', 'X1.1'], BU: ['F1.N out', 'X1.N'], GNYE: ['F1.E', 'X1.E'] },
      },
      W2: {
        kind: 'flex',
        size: 0.75,
        length: 40,
        cores: {
          BN: ['X1.1', 'E1.L'],
          BU: ['X1.N', 'E1.N'],
          GNYE: ['X1.E', 'E1.E'],
          BK: { ends: ['X1.2', 'E1.out'], sleeve: 'BN' },
          WH: ['X1.3', 'E1.test'],
        },
        spare: ['GY'],
      },
      W3: {
        kind: 'flex',
        size: 0.75,
        length: 12,
        cores: { BN: ['E1.call 1', 'B1.COM'], BU: ['E1.call 2', 'B1.NO'], YE: ['E1.E', 'B1.E'] },
      },
    },
    links: [{ between: ['X1.2', 'X1.3'] }],
    modes: {
      rest: { title: 'Rest', expect: {} },
      call: { title: 'Call', conditions: { 'B1.calling': true, 'E1.dark': true }, expect: {} },
      off: { title: 'Off', conditions: { 'F1.off': true }, expect: {} },
    },
    checked: '2026-01-01',
    version: 1,
  });
  return buildNetwork('every-sign', system, devices);
}
