import type { System } from '../../schemas/index.ts';
import type { Layout } from './layout.ts';
import type { Arrangement, Placed } from './placed.ts';
import type { Specification } from './types.ts';

/** Title, summary, facets, cues, notes and cautions of a composed system. */
export function wordsOf(
  specification: Specification,
  arrangement: Arrangement,
  layout: Layout,
  absent: readonly string[],
): Omit<System, 'items' | 'cables' | 'links' | 'modes' | 'exceptions' | 'checked' | 'version'> {
  const { heat, all, time, services } = arrangement;
  const modules = all.map(({ module }) => module);
  const controlling = [time, ...services.flatMap(({ controls }) => controls)].filter(Boolean);
  const variants = all.flatMap(({ variant }) => (variant ? [variant] : []));
  const features = modules.flatMap((module) => module.features);
  if (layout.box) features.push(...boxFeatures(layout));
  return {
    title: specification.title ?? titleOf(arrangement),
    summary: services.map((service) => chainSentence(arrangement, service)).join(' '),
    aliases: [],
    arrangement: heat.module.arrangement!,
    control: (controlling as Placed[]).map(({ module }) => module.control).find(Boolean)!,
    features: unique(features),
    recognise: unique([...modules.flatMap(({ recognise }) => recognise), ...absent]),
    notes: unique([...pairNotes(all), ...[...modules, ...variants].flatMap(({ notes }) => notes)]),
    cautions: unique(modules.flatMap(({ cautions }) => cautions)),
  };
}

/** What is said of modules that stand together. */
function pairNotes(all: readonly Placed[]): string[] {
  const there = new Set(all.map(({ id }) => id));
  return all.flatMap(({ module, variantName }) =>
    module.pairs.flatMap(({ with: beside, when, note }) => {
      const isSo = when === undefined || (variantName !== undefined && when.includes(variantName));
      return isSo && beside.some((name) => there.has(name)) ? [note] : [];
    }),
  );
}

const unique = <T>(list: readonly T[]): T[] => [...new Set(list)];

/** From seven ways on a box is what the trade calls a wiring centre. */
const boxFeatures = ({ box }: Layout): System['features'] =>
  box!.ways.size > 8 ? ['wiring centre'] : [];

/** `room stat (wired)`: in a list a comma would part what belongs together. */
const named = ({ module, variant }: Placed): string =>
  (variant?.title ?? module.title).replace(/, (.+)$/, ' ($1)').toLowerCase();

/** What a reader is told of a named net, at the way of a box that holds it. */
const WAYS: Readonly<Record<string, string>> = {
  live: 'permanent live',
  'boiler live': "boiler's permanent live",
  'call feed': 'live to stat, from the boiler',
  'boiler call': "call, to the boiler's switched live",
  'relay call': "call, to the relay's coil",
  'call pair 1': 'call pair, one side',
  'call pair 2': 'call pair, other side',
  'pump live': 'pump live',
  neutral: 'neutrals',
  earth: 'earths',
};

/** How a way of a box is labelled. */
export const wayLabel = (net: string): string => {
  const [, base = net, rest = ''] = /^(.+?)( past the .+)?$/.exec(net) ?? [];
  return `${WAYS[base] ?? base}${rest}`;
};

function titleOf({ heat, time, services, shared, additions }: Arrangement): string {
  const valves = services.filter(({ valve }) => valve).length;
  const what = [
    ...(valves > 0 ? [`${NUMBERS[valves] ?? valves} two-port valve${valves > 1 ? 's' : ''}`] : []),
    ...(shared ? [named(shared)] : []),
    ...(time ? [named(time)] : []),
    ...unique(services.flatMap(({ controls }) => controls.map((one) => named(one)))),
    ...additions.map((one) => named(one)),
  ];
  return what.length === 0 ? heat.module.title : `${heat.module.title}: ${what.join(', ')}`;
}

const NUMBERS: Readonly<Record<number, string>> = { 1: 'one', 2: 'two', 3: 'three', 4: 'four' };

/** How one demand reaches the boiler, as a sentence. */
export function chainSentence(
  { time, shared, gravity }: Arrangement,
  { name, service, controls, limit, valve }: Arrangement['services'][number],
): string {
  const steps = [
    ...(time ? [named(time)] : []),
    ...controls.map(named),
    ...(limit ? [named(limit)] : []),
  ];
  const end = valve
    ? valve.module.valve?.['end switch']
      ? 'it opens a valve, whose end switch calls the boiler'
      : 'it opens a valve and calls the boiler at once'
    : shared && service === 'heating' && shared.module.shared?.heating
      ? 'it drives the shared valve, which calls the boiler'
      : gravity && service === 'heating'
        ? 'it runs the pump'
        : 'it calls the boiler';
  const whole = `${name}: a live through ${steps.join(', then ')}; ${end}.`;
  return `${whole.charAt(0).toUpperCase()}${whole.slice(1)}`;
}
