import type { Network } from '../../circuit/index.ts';
import {
  COLOUR_CODES,
  type ColourCode,
  temperatureFactor,
  VOLT_DROP_LIMIT,
} from '../../published/index.ts';
import { celsius } from '../../units/index.ts';
import type {
  CableLoad,
  CablesAndProtection,
  Continuity,
  CoreLoad,
  EarthFault,
  ProtectiveDevice,
} from '../../wiring/index.ts';
import { itemWords, NO_AMPS, wayWords } from '../../wiring/index.ts';
import { capital } from '../../words/index.ts';
import { list } from '../text/words.ts';

/** A current as a table says it: `0.62 A`; none where less flows than stray capacitance drives. */
export function ampsText(amps: number): string {
  if (amps < NO_AMPS) return 'none';
  if (amps < 0.01) return 'under 0.01 A';
  return `${fixed(amps, amps < 10 ? 2 : 0)} A`;
}

/** A volt drop as a table says it: `0.06 V`. */
export function voltsText(volts: number): string {
  if (volts === 0) return 'none';
  return volts < 0.01 ? 'under 0.01 V' : `${fixed(volts, 2)} V`;
}

/** An impedance as a table says it: `1.31 Ω`. */
export const loopText = (ohms: number): string => `${fixed(ohms, 2)} Ω`;

/** How many times what copper reads at 20 °C it reads at 70 °C: `1.20`. */
export const warmTimes: string = fixed(1 / temperatureFactor(celsius(70)), 2);

/** How the line of a continuity test is measured: in one, or core by core where contacts lie in it. */
export function continuityText(network: Network, { through }: Continuity): string {
  if (through.length === 0) return 'in one, from end to end';
  const passed = [...new Set(through.map((id) => id.slice(0, id.indexOf('/'))))];
  const named = passed.map((item) => `the ${itemWords(network, item)}`);
  return `core by core and added up: it passes ${list(named)}`;
}

/** A rated value without idle noughts: `13.5`. */
export const rated = (value: number): string => String(Number(value.toFixed(2)));

function fixed(value: number, places: number): string {
  return value.toFixed(places);
}

/** `3 A fuse at Q1`. */
export const deviceText = ({ title, rating }: ProtectiveDevice): string =>
  `${rated(rating)}\u00a0A ${title}`;

/** What stands for a cable's protection, and whether it does. */
export function protectionText(cable: CableLoad): {
  readonly text: string;
  readonly wrong: boolean;
} {
  const { protection, limiter, protectedWell, capacity } = cable;
  const device = protection ?? limiter;
  if (protectedWell === null) {
    if (!device) return { text: 'no mains live reaches it', wrong: false };
    return { text: `${deviceText(device)}; no rating known here`, wrong: false };
  }
  if (!device) return { text: 'nothing before it or behind it', wrong: true };
  const bears = (each: ProtectiveDevice | null) =>
    each !== null && capacity !== null && cable.amps <= each.rating && each.rating <= capacity;
  if (bears(protection)) return { text: deviceText(protection!), wrong: false };
  if (bears(limiter)) {
    return {
      text: `${deviceText(limiter!)}, behind it and nothing branches off before; ${deviceText(protection ?? limiter!)} against a short circuit`,
      wrong: false,
    };
  }
  const why =
    capacity !== null && device.rating > capacity ? 'more than it bears' : 'less than it carries';
  return { text: `${deviceText(device)}: ${why}`, wrong: true };
}

/** Cores in words: needed against there. */
export function coresText({ needed, there, lacking }: CableLoad): {
  readonly text: string;
  readonly wrong: boolean;
} {
  if (lacking.length === 0) return { text: `${needed} needed, ${there} there`, wrong: false };
  const points = list(
    lacking.map((point) => `${wayWords(point)} at ${point.slice(0, point.indexOf('.'))}`),
  );
  return {
    text: `${needed} needed, ${there} there: none for ${points}`,
    wrong: needed > there,
  };
}

const CARRIES: Readonly<Record<CoreLoad['carries'], string>> = {
  line: 'switched live',
  neutral: 'neutral',
  earth: 'earth',
  'extra-low': 'extra-low voltage',
};

/** What a core is for, in two words. */
export const carriesText = ({ carries, permanent }: CoreLoad): string =>
  permanent ? 'permanent live' : CARRIES[carries];

const colourName = (code: ColourCode | null): string => (code === null ? 'no' : COLOUR_CODES[code]);

/** What marking a core's ends need. */
export function markingText({ marking, sleeve, colour }: CoreLoad): {
  readonly text: string;
  readonly wrong: boolean;
} {
  const { wanted, verdict } = marking;
  if (verdict === 'forbidden') {
    return { text: 'green-yellow is for the earth, and it alone', wrong: true };
  }
  if (verdict === 'needed')
    return { text: `needs a ${colourName(wanted)} sleeve at both ends`, wrong: true };
  if (verdict === 'usual')
    return { text: `${colourName(wanted)} sleeve at both ends`, wrong: false };
  if (sleeve !== null && sleeve !== colour)
    return { text: `sleeved ${colourName(sleeve)}, as it must be`, wrong: false };
  return { text: wanted === null ? 'label it at both ends' : 'by its own colour', wrong: false };
}

/** Whether and how fast an earth fault clears. */
export function clearedText({ seconds, most }: EarthFault): {
  readonly text: string;
  readonly wrong: boolean;
} {
  if (most === null) return { text: 'no limit known here', wrong: false };
  if (seconds === null) return { text: `not in 5 s: over ${rated(most)} Ω`, wrong: true };
  if (seconds === 5) return { text: `in 5 s, not in 0.4 s: over ${rated(most)} Ω`, wrong: true };
  return { text: `within 0.4 s, up to ${rated(most)} Ω`, wrong: false };
}

/** What the fuse link's own time–current zone says of an earth fault; empty where it says nothing. */
export const zoneText = ({ zoneSeconds }: EarthFault): string =>
  zoneSeconds === null ? '' : `its zone: ${rated(zoneSeconds)} s at most`;

/** A cable's load and protection in few words, for the printed sheet: `0.62 of 6 A, Q1 3 A`. */
export function sheetText({ amps, capacity, protection, limiter }: CableLoad): string {
  const device = protection ?? limiter;
  const carried = capacity === null ? [] : [`${fixed(amps, 2)} of ${rated(capacity)} A`];
  const at = device && `${device.id.slice(0, device.id.indexOf('/'))} ${rated(device.rating)} A`;
  return [...carried, ...(at ? [at] : [])].join(', ');
}

/** What is not in order, one line each; empty where all is. */
export function findings({ cables, fuses, faults, drops }: CablesAndProtection): string[] {
  return [
    ...cables.flatMap((cable) =>
      [
        { of: protectionText(cable), says: 'protection' },
        { of: coresText(cable), says: 'cores' },
      ].flatMap(({ of, says }) => (of.wrong ? [`${cable.cable}, ${says}: ${of.text}`] : [])),
    ),
    ...cables
      .filter(({ mixed }) => mixed)
      .map(({ cable }) => `${cable} carries mains and extra-low voltage side by side`),
    ...cables.flatMap(({ cores }) =>
      cores.flatMap((core) => {
        const { text, wrong } = markingText(core);
        return wrong ? [`${core.id.replace('.', ' ')}: ${text}`] : [];
      }),
    ),
    ...fuses
      .filter(({ within }) => !within)
      .map(({ device }) => `${capital(device.title)}, ${rated(device.rating)} A: its load is more`),
    ...faults.flatMap((fault) => {
      const { text, wrong } = clearedText(fault);
      return wrong ? [`${fault.item}, fault to earth: clears ${text}`] : [];
    }),
    ...drops
      .filter(({ within }) => !within)
      .map(
        ({ item, volts }) =>
          `${item}: volt drop ${voltsText(volts)}, over ${VOLT_DROP_LIMIT.volts} V`,
      ),
  ];
}
