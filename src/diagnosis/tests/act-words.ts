import { namesIn } from '../../../schemas/index.ts';
import type { Network } from '../../circuit/index.ts';
import { COLOUR_CODES, type ColourCode, INSULATION_LIMITS } from '../../published/index.ts';
import { isAtUnvented, placeNamed } from '../../site/index.ts';
import {
  atItem,
  type CoreEnd,
  cableWords,
  coreEnds,
  itemOf,
  itemWords,
  nameOf,
  pairWords,
  wayWords,
} from '../../wiring/index.ts';
import type { ActTest } from './kinds.ts';

/** What hands do, in words. */
export interface ActWords {
  /** In a line, as in `Ohms, brown to blue of the pump cable W5, disconnected at the pump M1`. */
  readonly title: string;
  /** What to do, in order. */
  readonly how: string;
  /** What to mind; beside isolating and proving dead, which every act at an open place asks. */
  readonly caution: string;
}

const colour = (point: string): string =>
  COLOUR_CODES[/\.([A-Z]+)@/.exec(point)![1] as ColourCode] ?? point;

const BORROWED =
  'A neutral that is taken out may be borrowed by another circuit: test it to earth before, and both ends before touching.';

/** Whether a neutral is among the core ends that are taken out. */
const takesNeutral = (network: Network, isOut: (end: CoreEnd & { point: string }) => boolean) =>
  coreEnds(network.system).some(
    (end) =>
      isOut(end) &&
      network.nodes[network.nodeIndex.get(end.point)!]?.terminal?.carries === 'neutral',
  );

/** An act in words. */
export function actWords(
  network: Network,
  { act, place, points, outcome, without }: ActTest,
): ActWords {
  const { item, opening } = placeNamed(network, place);
  const [from = '', to = ''] = points;
  const here = itemWords(network, item);
  const Here = here.charAt(0).toUpperCase() + here.slice(1);
  /** Off its backplate its pins are read, and no core comes out. */
  const isInHand =
    opening.moves.fitted === false &&
    ['control', 'receiver'].includes(network.items.get(item)!.device.family);
  const down = without === undefined ? '' : ', turned down';
  switch (act) {
    case 'prove':
      return {
        title: `${Here}: prove dead`,
        how: 'Prove the tester, test line to neutral, line to earth, neutral to earth and every core to earth, prove the tester again.',
        caution: 'Live here: stop. It does not isolate, or a second supply comes in.',
      };
    case 'inside':
      if (isAtUnvented(network, item))
        return {
          title: `${Here}: look inside`,
          how: 'Look, and move nothing: a loose core, insulation under a screw, scorch, water, a link left in or out. Write down what is seen.',
          caution:
            'Part of an unvented cylinder’s safety: what is found there is for a person qualified for unvented hot water. Water or scorch: it stays off until it is put right.',
        };
      return {
        title: `${Here}: look inside, tug each core`,
        how: 'Look for a loose core, insulation under a screw, scorch, water, a link left in or out; then tug each core. Note where it was before a screw is turned.',
        caution: 'Water or scorch: it stays off until it is put right.',
      };
    case 'compare':
      return {
        title: `${Here}: compare each core with the wiring table`,
        how: 'Core by core, colour and terminal, against the wiring table. Photograph it first.',
        caution: '',
      };
    case 'core':
      return {
        title: `Ohms, ${colour(from)} to ${colour(to)} of the ${cableWords(network, /^(.+)\.[A-Z]+@/.exec(from)![1]!)}, disconnected ${atItem(network, item)}${down}`,
        how: 'Label the cores of this cable, take them out of their terminals, read one to the other, put them back.',
        caution: takesNeutral(network, (end) => from.startsWith(`${end.cable}.`)) ? BORROWED : '',
      };
    case 'part':
      return {
        title: `Ohms, ${wayWords(from)} to ${wayWords(to)} of the ${here} alone${down}`,
        how: isInHand
          ? `With the ${here} off its backplate, in your hand${inHand(network, item, without)}, read across its own pins. Where pins and terminals are one, label the cores and take them out first.`
          : `Label the cores ${atItem(network, item)}, take them out, read across its own terminals; put the cores back.`,
        caution:
          !isInHand && takesNeutral(network, ({ point }) => itemOf(point) === item) ? BORROWED : '',
      };
    case 'insulation':
      return insulationWords(network, points, here, item);
    case 'spindle':
      return {
        title: `${Here}: head off, does the spindle turn?`,
        how: 'Take the head off its body, leave its lead as it is, turn the spindle by hand or gently with pliers; put the head back on. A head that does not come off by itself stays on.',
        caution: 'Its cores stay connected: it stays isolated until the head is back on.',
      };
    case 'link': {
      const seen = outcome ?? '';
      const { title } = network.items.get(itemOf(seen))!.device.outcomes[nameOf(seen)]!;
      return {
        title: `Link ${pairWords(network, from, to)}, then restore: ${title.charAt(0).toLowerCase()}${title.slice(1)} (${itemOf(seen)})?`,
        how: `With the supply off, link ${wayWords(from)} to ${wayWords(to)}; restore, stand by and look; isolate, take the link out, prove dead again.`,
        caution:
          'Across this control alone, both terminals of one supply and one voltage. Never across a limit, a cut-out, an overflow switch or a pressure switch. The link does not stay.',
      };
    }
  }
}

/**
 * How a part stands that is read in the hand. One that is fed from the mains calls there no more;
 * a contact that stays where it was put is turned down while there is still a supply.
 */
function inHand(network: Network, item: string, without: string | undefined): string {
  const { elements } = network.items.get(item)!.device;
  const isFed = Object.values(elements).some(
    (one) => one.kind === 'contact' && namesIn(one.closed).elements.length > 0,
  );
  if (isFed) return ', turned off or down before the supply went off';
  return without === undefined ? ' and calling' : ' and turned down';
}

function insulationWords(
  network: Network,
  points: readonly string[],
  here: string,
  item: string,
): ActWords {
  const { testVolts, megohms } = INSULATION_LIMITS.equipmentConnected;
  const limit = `${testVolts} V DC: ${megohms} MΩ or more is in order.`;
  const lead = /^(.+)\.[A-Z]+@/.exec(points[0]!)?.[1];
  if (lead === undefined) {
    const [live = '', neutral = ''] = points;
    return {
      title: `Insulation, ${wayWords(live)} and ${wayWords(neutral)} joined, to earth at the ${here}`,
      how: `Join the two, so that no electronics stand between; insulation tester from them to earth at ${limit} It is blind past an open contact. Take the join out before the supply goes back.`,
      caution: INSULATION_CARE,
    };
  }
  return {
    title: `Insulation of the ${cableWords(network, lead)} with what it feeds, disconnected ${atItem(network, item)}`,
    how: `Label the cores, take them out, join all but the green-yellow; insulation tester from them to the green-yellow at ${limit} Put the cores back.`,
    caution: [
      INSULATION_CARE,
      takesNeutral(network, (end) => points[0]!.startsWith(`${end.cable}.`)) ? BORROWED : '',
    ]
      .filter(Boolean)
      .join(' '),
  };
}

const INSULATION_CARE =
  'Never from a live to a neutral, never on an extra-low-voltage pair or a bus. Nobody touches a core while it tests; let it discharge.';
