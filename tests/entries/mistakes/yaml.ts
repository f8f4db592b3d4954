import { HOUSE, type Mistake, slip } from './slip.ts';

/** Slips in writing: indents, marks, numbers. */
export const YAML: readonly Mistake[] = [
  slip(
    'indented with a tab',
    HOUSE,
    [['  W7:\n    kind: flex', '  W7:\n\tkind: flex']],
    'kind: flex',
    /spaces, not tabs/,
  ),
  slip(
    'indented a key too deep',
    HOUSE,
    [
      [
        '    length: 1\n    cores: { BN: [Q1.load L',
        '      length: 1\n    cores: { BN: [Q1.load L',
      ],
    ],
    '      length: 1',
    /deep|indent/,
  ),
  slip(
    'left out the room after a colon',
    HOUSE,
    [['    length: 15\n', '    length:15\n']],
    'length:15',
    /no space after the colon; write length: 15/,
  ),
  slip(
    'left a bracket open',
    HOUSE,
    [['GNYE: [X1.E, F2.E]', 'GNYE: [X1.E, F2.E']],
    'GNYE: [X1.E, F2.E',
    /\[ has no closing \]/,
  ),
  slip(
    'wrote the items as a list',
    HOUSE,
    [['  F1: { device: supply-circuit', '  - F1: { device: supply-circuit']],
    '- F1',
    /a list begins here with -/,
  ),
  slip(
    'pasted typographic quotation marks',
    HOUSE,
    [['title: Heating valve', 'title: “Heating valve”']],
    '“Heating valve”',
    /typographic quotation marks|quotation marks/,
    /Heating valve/,
  ),
  slip(
    'wrote a colon in a plain title',
    HOUSE,
    [['title: Our house with two valves', 'title: Our house: two valves']],
    'Our house: two valves',
    /colon|quotation/,
  ),
  slip('gave two cables one name', HOUSE, [['  W7:\n', '  W6:\n']], '  W6:', /W6/, /twice|already/),
  slip(
    'misspelt a key',
    HOUSE,
    [['length: 15', 'lenght: 15']],
    'lenght: 15',
    /found +lenght/,
    /did you mean length\?/,
  ),
  slip(
    'wrote the unit behind a number',
    HOUSE,
    [['length: 15', 'length: 15 m']],
    'length: 15 m',
    /number/,
    /found +15 m/,
  ),
  slip(
    'wrote a decimal comma',
    HOUSE,
    [['    size: 1\n    length: 1\n', '    size: 0,75\n    length: 1\n']],
    'size: 0,75',
    /found +0,75/,
    /0\.75/,
  ),
  slip(
    'wrote no for false',
    HOUSE,
    [
      [
        'bring: Switch both channels off at the programmer, turn the room stat down and leave',
        'testable: no\n    bring: Switch both channels off at the programmer, turn the room stat down and leave',
      ],
    ],
    'testable: no',
    /found +no/,
    /true|false/,
  ),
  slip(
    'left out what a key needs',
    HOUSE,
    [
      [
        'M1: { device: circulating-pump, place: Cylinder cupboard }',
        'M1: { device: circulating-pump }',
      ],
    ],
    'M1: {',
    /place/,
  ),
  slip(
    'wrote a colour without its quotation marks',
    'firm.yaml',
    [['light: "#0b5c4b", dark: "#8fd8c2" }', 'light: #0b5c4b, dark: #8fd8c2 }']],
    'light: #0b5c4b',
    /a text that begins with # stands in quotation marks/,
  ),
];
