import { type Device, type Element, endsOf } from '../../../schemas/index.ts';
import { ohmsText } from '../text/quantities.ts';
import { ruleWords } from './rule-words.ts';

/** An element of a device as a row of a table. */
export interface ElementRow {
  readonly name: string;
  /** What kind of part it is: `Contact`, `Load`. */
  readonly kind: string;
  /** Terminals and inner points it lies between; inner points are not terminals. */
  readonly ends: readonly { readonly name: string; readonly inner: boolean }[];
  /** How it behaves: when it is closed, what it draws. */
  readonly behaviour: string;
}

const KINDS: Readonly<Record<Element['kind'], string>> = {
  link: 'Join',
  contact: 'Contact',
  fuse: 'Fuse',
  breaker: 'MCB or RCBO',
  load: 'Load',
  motor: 'Motor',
  sensing: 'Sensing input',
  resistor: 'Resistor',
  source: 'Extra-low-voltage source',
  mains: 'Supply',
};

/** What lies inside a device, in the order its entry gives. */
export function elementRows(device: Device): ElementRow[] {
  return Object.entries(device.elements).map(([name, element]) => ({
    name: element.name ?? name,
    kind: KINDS[element.kind],
    ends: endsOf(element).map((end) => ({ name: end, inner: device.nodes.includes(end) })),
    behaviour: behaviour(element, device),
  }));
}

function behaviour(element: Element, device: Device): string {
  switch (element.kind) {
    case 'link':
      return 'Joined at all times';
    case 'contact':
      return `Closed when ${ruleWords(element.closed, device)}`;
    case 'fuse':
      return `${element.rating} A, ${element.standard}`;
    case 'breaker':
      return `${element.rating} A, EN 60898 type B`;
    case 'load':
    case 'motor':
      return `${element.watts} W at ${element.ratedVolts} V, power factor ${element.powerFactor}`;
    case 'sensing':
      return `Senses ${element.ratedVolts} V through electronics; ohms across it say nothing`;
    case 'resistor':
      return ohmsText(element.ohms);
    case 'source':
      return `${element.volts} V DC from electronics${
        element.poweredBy
          ? `, while ${device.elements[element.poweredBy]?.name ?? element.poweredBy} is energised`
          : ''
      }`;
    case 'mains':
      return `230 V 50 Hz, ${element.earthing}`;
  }
}
