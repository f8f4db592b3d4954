import type { Element } from '../../../schemas/index.ts';
import {
  buildNetwork,
  type Change,
  changeNetwork,
  type Network,
  rewireNetwork,
  simulateAsFound,
} from '../../../src/circuit/index.ts';
import { compose, editedCircuit } from '../../../src/diagnosis/faults/index.ts';
import {
  ANSWER_CODES,
  type Hypothesis,
  type Model,
  type RankedRepair,
} from '../../../src/diagnosis/inference/index.ts';
import { answerIn } from '../../../src/diagnosis/tests/index.ts';
import { type CoreEnd, coreEnds, itemOf, moveCoreEnd } from '../../../src/wiring/index.ts';
import { type Random, random } from '../../support/random.ts';
import { detectable } from './jobs.ts';

/** Something that no list of faults has, on a real circuit. */
export interface Unmodelled {
  readonly kind: 'size between' | 'three at once' | 'other arrangement' | 'unlike its kind';
  readonly title: string;
  /** Items and cores at which it is. */
  readonly at: readonly string[];
  /** What every listed test answers; looking into a box and comparing it finds nothing. */
  readonly row: Uint8Array;
}

type Draft = Omit<Unmodelled, 'row'> & { readonly network: () => Network };

/**
 * Faults outside a model, some of each kind, that at least one listed test sees: their answers
 * differ from a sound system's.
 */
export function unmodelledOf(model: Model, each: number, seed = 1): Unmodelled[] {
  const pick = random(seed);
  const { network } = model.simulation;
  const sound = model.singles.at(-1)!.row!;
  const lists = [
    sizesBetween(network),
    threeAtOnce(model, pick),
    arrangements(network),
    unlike(network),
  ];
  return lists.flatMap((drafts) => {
    const found: Unmodelled[] = [];
    const left = [...drafts];
    while (found.length < each && left.length > 0) {
      const [{ network: circuit, ...draft }] = left.splice(pick.below(left.length), 1) as [Draft];
      const row = rowOf(model, circuit());
      if (row.some((code, at) => code !== sound[at])) found.push({ ...draft, row });
    }
    return found;
  });
}

/** What every listed test answers in a circuit; what is to be seen in a box, none does. */
function rowOf(model: Model, network: Network): Uint8Array {
  const found = simulateAsFound(network);
  return Uint8Array.from(model.tests, (test) => ANSWER_CODES[answerIn(found, test)]);
}

/** Ohms of joints and contacts between those of the list, which are none, 100 Ω and none at all. */
const JOINT_OHMS = [3, 20, 600, 4e3, 30e3, 300e3] as const;
/** Ohms of leaks between those of the list: 0.05 Ω, 5, 10 and 50 kΩ. */
const LEAK_OHMS = [20, 800, 25e3, 400e3] as const;

function sizesBetween(network: Network): Draft[] {
  const changed = (title: string, at: string[], change: Change): Draft => ({
    kind: 'size between',
    title,
    at,
    network: () => changeNetwork(network, [change]),
  });
  return network.branches.flatMap((branch, i): Draft[] => {
    const ohms = JOINT_OHMS[i % JOINT_OHMS.length]!;
    const { id } = branch;
    if (branch.kind === 'conductor' && branch.colour !== 'GNYE' && !id.includes('@'))
      return [
        changed(`${id}: ${ohms} Ω in a joint`, [id], { kind: 'series', branch: id, ohms }),
        ...leaks(network, branch.from).map(([to, leak]) =>
          changed(`${network.nodes[branch.from]!.id} to ${to}: ${leak} Ω`, [itemOf(to)], {
            kind: 'join',
            from: network.nodes[branch.from]!.id,
            to,
            ohms: leak,
          }),
        ),
      ];
    if (branch.kind === 'element' && branch.element.kind === 'contact')
      return [
        changed(`${id}: ${ohms} Ω when closed`, [branch.item], {
          kind: 'series',
          branch: id,
          ohms,
        }),
      ];
    return [];
  });
}

/** The next terminal of a node's box, with a resistance that no list has. */
function leaks(network: Network, node: number): [to: string, ohms: number][] {
  const { item } = network.nodes[node]!;
  const next = network.nodes.find((one) => one.item === item && one.terminal && one.index > node);
  return next ? [[next.id, LEAK_OHMS[node % LEAK_OHMS.length]!]] : [];
}

/** Draws of three faults of three repairs. */
const TRIPLES = 40;

function threeAtOnce(model: Model, pick: Random): Draft[] {
  const singles = detectable(model);
  return Array.from({ length: TRIPLES }, () => [
    pick.pick(singles),
    pick.pick(singles),
    pick.pick(singles),
  ])
    .filter((three) => new Set(three.map(({ repairKey }) => repairKey)).size === 3)
    .filter((three) => three.every((a, i) => three.slice(i + 1).every((b) => together(a, b))))
    .map((three) => ({
      kind: 'three at once' as const,
      title: three.map(({ id }) => id).join(' + '),
      at: three.flatMap(placesOf),
      network: () =>
        editedCircuit(
          model.simulation.network,
          three.map(({ faults }) => faults[0]!.edit),
        ),
    }));
}

const together = (a: Hypothesis, b: Hypothesis): boolean =>
  compose(a.faults[0]!.edit, b.faults[0]!.edit);

/** Whether a repair is at one of some items or cores: what it puts right, some member names. */
export const isAt = ({ explanations }: RankedRepair, at: readonly string[]): boolean =>
  explanations.some(({ hypothesis }) => placesOf(hypothesis).some((place) => at.includes(place)));

/** Items and cores that an explanation and its repair name. */
export const placesOf = ({ id, repairKey }: Hypothesis): string[] =>
  `${id} ${repairKey}`.match(/\b[A-Z]\d+(\.[A-Z]+\b)?/g) ?? [];

/**
 * Wired otherwise where nobody sees it: three cores of a box passed on in a ring, and two cores
 * exchanged with two of another cable, in a joint under the floor.
 */
function arrangements(network: Network): Draft[] {
  const boxes = [...Map.groupBy(coreEnds(network.system), ({ point }) => itemOf(point))];
  return boxes.flatMap(([item, ends]) => {
    const cores = ends.filter(({ colour }) => colour !== 'GNYE');
    return cores.flatMap((_, i): Draft[] => {
      const ring = [0, 1, 2].map((n) => cores[(i + n) % cores.length]!);
      const four = [0, 1, 2, 3].map((n) => cores[(i + n) % cores.length]!);
      return [
        ...(cores.length < 3 ? [] : [turned(network, item, ring)]),
        ...(cores.length < 4
          ? []
          : [turned(network, item, [four[0]!, four[2]!, four[1]!, four[3]!])]),
      ];
    });
  });
}

/** Every end of a list where the next one belongs. */
function turned(
  network: Network,
  item: string,
  ends: readonly (CoreEnd & { point: string })[],
): Draft {
  const names = ends.map(({ cable, colour }) => `${cable}.${colour}`);
  return {
    kind: 'other arrangement',
    title: `${item}: ${names.join(', ')} passed on in a ring`,
    at: names,
    network: () =>
      rewireNetwork(
        network,
        ends.reduce(
          (system, end, i) => moveCoreEnd(system, end, ends[(i + 1) % ends.length]!.point),
          network.system,
        ),
      ),
  };
}

/** Parts of another kind in a part's place: contacts the other way round, loads of other sizes. */
function unlike(network: Network): Draft[] {
  return [...network.items].flatMap(([item, { deviceId, device }]) => {
    const swapped = (what: string, elements: Record<string, Element>): Draft => ({
      kind: 'unlike its kind',
      title: `${item}: ${what}`,
      at: [item],
      network: () => {
        const devices = new Map(
          [...network.items.values()].map((one) => [one.deviceId, one.device]),
        );
        devices.set(deviceId, { ...device, elements });
        return buildNetwork(network.id, network.system, devices, network.options);
      },
    });
    return Object.entries(device.elements).flatMap(([name, element]): Draft[] => {
      const other = unlikeElement(element);
      return other.map(([what, one]) =>
        swapped(`${name} ${what}`, { ...device.elements, [name]: one }),
      );
    });
  });
}

function unlikeElement(element: Element): [what: string, other: Element][] {
  if (element.kind === 'contact')
    return [['the other way round', { ...element, closed: { not: element.closed } }]];
  if (element.kind === 'load' || element.kind === 'motor')
    return [
      ['of a fiftieth of its watts', { ...element, watts: element.watts / 50 }],
      ['of fifty times its watts', { ...element, watts: element.watts * 50 }],
    ];
  return [];
}
