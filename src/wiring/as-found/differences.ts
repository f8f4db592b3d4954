import type { Network } from '../../circuit/index.ts';
import { COLOUR_CODES, CORE_SETS, type ColourCode } from '../../published/index.ts';
import { capital } from '../../words/index.ts';
import type { CoreEnd } from '../rewire.ts';
import { partnerOf } from './changes.ts';
import { coreText, itemText, listed, partText, spoken } from './names.ts';
import { type AsFound, coresOf, dueAt, type FoundEnd, isTerminal, itemAtEnd } from './state.ts';
import { ratingDue } from './tidy.ts';

/** One thing found otherwise than the entry says. */
export interface Difference {
  /** In plain words, as in `Core BK of W4 is in X1 3 instead of X1 2`. */
  readonly title: string;
  /** Terminals, items and branches it touches. */
  readonly at: readonly string[];
}

/**
 * What differs from the entry, each thing once: two ends in each other's terminals are one
 * difference, and a cable with other cores is one.
 * @param found as `tidy` gives it.
 */
export function differencesOf(intended: Network, found: AsFound): Difference[] {
  const { system } = intended;
  return [
    ...found.bridged.map((id) => ({
      title: `${capital(partText(intended, id))} is bridged`,
      at: [id],
    })),
    ...found.extraLinks.map(([a, b]) => ({
      title: `A link stands between ${spoken(a)} and ${spoken(b)} that does not belong there`,
      at: [a, b],
    })),
    ...found.absent.map((item) => ({
      title: `${capital(itemText(intended, item))} is not there`,
      at: [item],
    })),
    ...Object.entries(found.cables).map(([cable, there]) =>
      cableDifference(intended, cable, there),
    ),
    ...endDifferences(intended, found),
    ...found.missingLinks.map((i) => {
      const [a, b] = system.links[i]!.between;
      return { title: `The link between ${spoken(a)} and ${spoken(b)} is not fitted`, at: [a, b] };
    }),
    ...Object.entries(found.ratings).map(([id, rating]) => ({
      title: `${capital(partText(intended, id))} is ${rating} A instead of ${ratingDue(intended, id)} A`,
      at: [id],
    })),
  ];
}

const named = (colour: ColourCode): string => COLOUR_CODES[colour];

/** `W4 has 3 cores (brown, blue, green-yellow) where 5 belong: black and grey are not there`. */
function cableDifference(
  { system }: Network,
  cable: string,
  there: readonly ColourCode[],
): Difference {
  const due = coresOf(system.cables[cable]!);
  const gone = due.filter((colour) => !there.includes(colour));
  const added = there.filter((colour) => !due.includes(colour));
  const one = (colours: readonly string[]) => (colours.length === 1 ? 'is' : 'are');
  const said = [
    ...(gone.length > 0 ? [`${listed(gone.map(named))} ${one(gone)} not there`] : []),
    ...(added.length > 0
      ? [`${listed(added.map(named))} ${one(added)} there instead or beside`]
      : []),
  ].join(', ');
  const count = `${there.length} ${there.length === 1 ? 'core' : 'cores'}${there.length > 0 ? ` (${inTradeOrder(there).map(named).join(', ')})` : ''}`;
  return {
    title: `${cable} has ${count} where ${due.length} belong: ${said}`,
    at: gone.flatMap((colour) => [...(system.cables[cable]!.cores[colour]?.ends ?? [])]),
  };
}

/** Cores in the order of the trade's own five-core set, others after them. */
function inTradeOrder(colours: readonly ColourCode[]): ColourCode[] {
  const order: readonly ColourCode[] = ['BN', 'BU', ...CORE_SETS.plain[3]!.slice(1), 'GNYE'];
  const rank = (c: ColourCode) => (order.includes(c) ? order.indexOf(c) : order.length - 1.5);
  return colours.toSorted((a, b) => rank(a) - rank(b));
}

function endDifferences({ system }: Network, { ends }: AsFound): Difference[] {
  const due = (end: CoreEnd) => dueAt(system, end);
  const done = new Set<FoundEnd>();
  return ends.flatMap((a) => {
    if (done.has(a)) return [];
    done.add(a);
    const partner = partnerOf(a, ends, due, done);
    if (partner) {
      done.add(partner);
      return [
        {
          title: capital(
            `${coreText(a)} and ${coreText(partner)} are crossed: ${spoken(due(a))} and ${spoken(due(partner))}`,
          ),
          at: [due(a), due(partner)],
        },
      ];
    }
    return [endDifference(a, due(a), itemAtEnd(system, a.cable, a.end))];
  });
}

function endDifference(a: FoundEnd, due: string, item: string): Difference {
  const core = capital(coreText(a));
  if (!isTerminal(due))
    return { title: `${core} is in ${spoken(a.point)} and belongs in no terminal`, at: [a.point] };
  if (isTerminal(a.point))
    return {
      title: `${core} is in ${spoken(a.point)} instead of ${spoken(due)}`,
      at: [due, a.point],
    };
  return {
    title:
      a.point === 'short'
        ? `${core} is cut short at ${item} and does not reach ${spoken(due)}`
        : `${core} lies loose at ${item} instead of in ${spoken(due)}`,
    at: [due],
  };
}
