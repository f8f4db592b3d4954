import { INSTRUMENTS, type Network, read, type Simulation } from '../circuit/index.ts';
import { isExtraLowPair } from '../components/system/extra-low.ts';
import { seenIn } from '../components/system/seen.ts';
import { readingPlace, shownReading, shownText } from '../components/system/shown.ts';
import { placeOfTerminal, settledIn, situationIn } from '../site/index.ts';
import { itemOf, testPairs, wayMark } from '../wiring/index.ts';
import { capital } from '../words/index.ts';
import { joinedTo, partnerPoint, partnersOf, terminalOf } from './slots.ts';

/** Something said of each side; empty where a side has nothing of the kind. */
export interface Beside {
  readonly what: string;
  readonly a: string;
  readonly b: string;
}

/** A mode of both, with what is seen and read otherwise. */
export interface ModeBeside {
  readonly title: string;
  /** What is asked for in it on one side alone, where it is not the same on both. */
  readonly brought: Beside | null;
  readonly seen: readonly Beside[];
  readonly readings: readonly Beside[];
}

/** Two systems side by side. Plain data: a worker sends it. */
export interface Comparison {
  readonly titles: readonly [string, string];
  readonly both: readonly string[];
  readonly equipment: readonly Beside[];
  /** Terminals that both have and that are joined otherwise. */
  readonly conductors: readonly Beside[];
  readonly joinedAlike: number;
  readonly modes: readonly ModeBeside[];
  /** Modes that one of them has, by title. */
  readonly onlyModes: Beside;
}

/** Compares two simulated systems: equipment, what is joined, what is seen and read mode by mode. */
export function compared(a: Simulation, b: Simulation): Comparison {
  const [one, two] = [a.network, b.network];
  const partners = partnersOf(one, two);
  const { modes: own } = one.system;
  const { modes: others } = two.system;
  const shared = Object.keys(own).filter((mode) => Object.hasOwn(others, mode));
  const only = (modes: typeof own, beside: typeof own) =>
    Object.entries(modes)
      .filter(([id]) => !Object.hasOwn(beside, id))
      .map(([, { title }]) => title)
      .join('; ');
  return {
    titles: [one.system.title, two.system.title],
    ...equipmentOf(one, two, partners),
    ...conductorsOf(one, two, partners),
    modes: shared.flatMap((mode) => {
      const said = {
        title: own[mode]!.title,
        brought: broughtBeside(a, b, mode, partners),
        seen: seenBeside(a, b, mode, partners),
        readings: readingsBeside(a, b, mode, partners),
      };
      return said.seen.length + said.readings.length > 0 ? [said] : [];
    }),
    onlyModes: { what: 'Modes', a: only(own, others), b: only(others, own) },
  };
}

type Partners = ReadonlyMap<string, string>;

function equipmentOf(
  a: Network,
  b: Network,
  partners: Partners,
): Pick<Comparison, 'both' | 'equipment'> {
  const both: string[] = [];
  const equipment: Beside[] = [];
  const met = new Set(partners.values());
  const said = (network: Network, item: string) => `${network.items.get(item)!.title} (${item})`;
  for (const item of a.items.keys()) {
    const other = partners.get(item);
    const { deviceId, device } = a.items.get(item)!;
    if (other !== undefined && b.items.get(other)!.deviceId === deviceId)
      both.push(a.items.get(item)!.title);
    else
      equipment.push({
        what: capital(device.family),
        a: said(a, item),
        b: other === undefined ? '' : said(b, other),
      });
  }
  for (const [item, { device }] of b.items)
    if (!met.has(item)) equipment.push({ what: capital(device.family), a: '', b: said(b, item) });
  // Both have a box: it is no difference that it is another.
  const boxes = equipment.filter(({ what }) => what === 'Wiring centre');
  const one = boxes.find((box) => box.a !== '');
  const two = boxes.find((box) => box.b !== '');
  const rest = equipment.filter((row) => row !== one && row !== two);
  if (one && two) return { both: [...both, 'Box of terminals'], equipment: rest };
  return { both, equipment };
}

function conductorsOf(
  a: Network,
  b: Network,
  partners: Partners,
): Pick<Comparison, 'conductors' | 'joinedAlike'> {
  const [own, others] = [joinedTo(a), joinedTo(b)];
  const conductors: Beside[] = [];
  let joinedAlike = 0;
  for (const [point, joined] of own) {
    const there = partnerPoint(partners, b, point);
    if (there === undefined || isReturn(a, point)) continue;
    const beyond = others.get(there) ?? [];
    const mapped = joined.map((one) => partnerPoint(partners, b, one));
    const isAlike =
      mapped.every((one) => one !== undefined && beyond.includes(one)) &&
      mapped.length === beyond.length;
    if (isAlike) joinedAlike += 1;
    else
      conductors.push({
        what: capital(terminalOf(a, point)),
        a: listOf(a, joined),
        b: listOf(b, beyond),
      });
  }
  return { conductors, joinedAlike };
}

/** Neutrals and earths reach everything: that they do is no difference. */
function isReturn(network: Network, point: string): boolean {
  const carries = network.nodes[network.nodeIndex.get(point)!]!.terminal?.carries;
  return carries === 'neutral' || carries === 'earth';
}

const listOf = (network: Network, points: readonly string[]): string =>
  points.length === 0 ? 'nothing' : points.map((point) => terminalOf(network, point)).join('; ');

function seenBeside(a: Simulation, b: Simulation, mode: string, partners: Partners): Beside[] {
  const others = seenIn(b.network, b.modes.get(mode)!);
  return seenIn(a.network, a.modes.get(mode)!).flatMap(({ item, text, so }): Beside[] => {
    const there = partners.get(item);
    const same = others.filter((other) => other.item === there);
    // What the partner has no such outcome for is a matter of the equipment.
    const isThere = same.some((other) => other.text === text && other.so === so);
    const other = same.find(
      (one) => one.so !== so && isOpposite(a, b, mode, item, there, text, one.text),
    );
    return isThere || !other ? [] : [{ what: item, a: text, b: other.text }];
  });
}

/** What equipment of both is asked in a mode on one side and not on the other; null where none is. */
function broughtBeside(
  a: Simulation,
  b: Simulation,
  mode: string,
  partners: Partners,
): Beside | null {
  const [own, others] = [a, b].map(({ modes }) => modes.get(mode)!.state.conditions);
  const differs = [...own!].flatMap(([id, so]) => {
    const there = partners.get(itemOf(id));
    const other =
      there === undefined ? undefined : others!.get(`${there}${id.slice(id.indexOf('.'))}`);
    return other === undefined || other === so ? [] : [{ id, so }];
  });
  if (differs.length === 0) return null;
  const said = (so: boolean) =>
    differs
      .filter((one) => one.so === so)
      .map(({ id }) => {
        const { title, device } = a.network.items.get(itemOf(id))!;
        const name = id.slice(id.indexOf('.') + 1);
        return `${device.conditions[name]!.title} (${title.split(',')[0]!.toLowerCase()})`;
      })
      .join('; ');
  return { what: 'In this mode', a: said(true), b: said(false) };
}

/** Whether two texts are said of one outcome that both devices have. */
function isOpposite(
  a: Simulation,
  b: Simulation,
  mode: string,
  item: string,
  there: string | undefined,
  text: string,
  other: string,
): boolean {
  if (there === undefined) return false;
  const one = a.network.items.get(item)!.device.outcomes;
  const two = b.network.items.get(there)!.device.outcomes;
  return Object.keys(one).some((name) => {
    if (!Object.hasOwn(two, name)) return false;
    const isSaid = (outcome: (typeof one)[string], said: string) =>
      [outcome.title, outcome.otherwise].includes(said);
    return (
      a.modes.get(mode)!.outcomes.get(`${item}.${name}`) !==
        b.modes.get(mode)!.outcomes.get(`${there}.${name}`) &&
      isSaid(one[name]!, text) &&
      isSaid(two[name]!, other)
    );
  });
}

function readingsBeside(a: Simulation, b: Simulation, mode: string, partners: Partners): Beside[] {
  const shown = (simulation: Simulation, from: string, to: string) => {
    const { network } = simulation;
    const place = placeOfTerminal(network, from);
    const { solution } = settledIn(simulation, situationIn(mode, place));
    const reading = read(solution, from, to, INSTRUMENTS[0]!);
    return shownReading(reading, isExtraLowPair(network, from, to));
  };
  return testPairs(a.network).flatMap(({ from, to, kind }): Beside[] => {
    if (kind !== 'line' && kind !== 'call') return [];
    const there = [from, to].map((point) => partnerPoint(partners, b.network, point));
    const [start, end] = there;
    if (start === undefined || end === undefined) return [];
    if (!readingPlace(a.network, from).here || !readingPlace(b.network, start).here) return [];
    const [one, two] = [shown(a, from, to), shown(b, start, end)];
    if (one.look === two.look && one.word === two.word) return [];
    const title = a.network.items.get(itemOf(from))!.title.split(',')[0]!;
    return [
      {
        what: `${title}: ${wayMark(from)} to ${wayMark(to)}`,
        a: shownText(one),
        b: shownText(two),
      },
    ];
  });
}
