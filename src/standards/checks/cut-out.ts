import type { RuleOf } from '../../../schemas/index.ts';
import type { ElementBranch, Item, Settled } from '../../circuit/index.ts';
import { nameOf } from '../../wiring/index.ts';
import { conductsIn } from '../reach.ts';
import { elementName, itemName, list } from '../say.ts';
import type { Subject } from '../subject.ts';
import {
  again,
  conditionsOfFamilies,
  demandsOf,
  outcomesThatAre,
  settings,
  under,
  withOpen,
} from '../trials.ts';
import { apart, type Check, type Finding, verdict } from '../types.ts';
import { outcomeWords } from './outcome-words.ts';

type Rule = RuleOf<'safety cut-out'>;

/** Families whose outcomes a cut-out may have to end. */
const ENDED: readonly string[] = ['valve', 'boiler', 'heater', 'pump'];
const CONTROLS: readonly string[] = ['control', 'receiver', 'sensor'];

/** A safety cut-out that opens shuts what brings the heat, and stays open until reset. */
export const cutOut: Check<'safety cut-out'> = {
  words: ({ devices, wants, stops, latches }, deviceName) =>
    [
      wants
        ? `With ${wants} alone asked for, clocks and every other condition of the controls in every position, from new and after any mode,`
        : 'In every working mode,',
      `opening the ${list(devices.map(deviceName), 'or')} ends ${list(stops, 'and')} wherever they are seen at a valve, boiler, heater or pump.`,
      `${stops.length > 1 ? `Each of ${list(stops, 'and')}` : stops[0]!} is seen at least once.`,
      latches ? 'Once tripped it stays open after its cause has gone.' : '',
    ]
      .filter((sentence) => sentence !== '')
      .join(' '),
  run(rule, subject) {
    const { network } = subject;
    const items = [...network.items.values()].filter(({ deviceId }) =>
      rule.devices.includes(deviceId),
    );
    if (items.length === 0) return none(rule);
    const trials = trialsOf(rule, subject);
    const findings = items.flatMap((item) => [
      ...stopsNothing(rule, subject, item, trials),
      ...(rule.latches ? resetsItself(subject, item) : []),
    ]);
    return verdict(findings, `cut-outs: ${items.length}, trials: ${trials.length}`);
  },
};

function none({ devices, needed }: Rule) {
  if (!needed) return apart(`it has no ${list(devices, 'or')}`);
  const finding: Finding = {
    at: 'items',
    path: ['items'],
    message: `there is no ${list(devices, 'or')}`,
    allowed: list(devices, 'or'),
    mend: `Add ${list(devices, 'or')} in the live of what brings the heat`,
  };
  return verdict([finding], '');
}

/**
 * The sound system at rest in each working mode, or in each way with one demand alone, from new
 * and after each working mode.
 */
function trialsOf({ wants }: Rule, { network, working }: Subject): Settled[] {
  if (!wants) return [...working];
  const demands = demandsOf(network, CONTROLS);
  const set = Object.fromEntries(demands.map((one) => [one.id, one.wants === wants]));
  const others = conditionsOfFamilies(network, CONTROLS).filter((id) => !(id in set));
  const starts = [undefined, ...working.map(({ state }) => state)];
  return starts.flatMap((memory) =>
    settings(others).map((rest) => under(network, { ...rest, ...set }, memory)),
  );
}

const contactsOfItem = ({ elements }: Subject, { reference }: Item): ElementBranch[] =>
  elements.filter(({ item, element }) => item === reference && element.kind === 'contact');

function stopsNothing(
  { stops }: Rule,
  subject: Subject,
  item: Item,
  trials: readonly Settled[],
): Finding[] {
  const { network } = subject;
  const contacts = contactsOfItem(subject, item);
  const opened = withOpen(network, contacts);
  const name = contacts[0] ? elementName(contacts[0]) : item.reference;
  const at = { at: item.reference, path: ['items', item.reference] };
  const unseen = new Set(stops);
  for (const trial of trials) {
    const before = outcomesThatAre(trial, network, ENDED, stops);
    for (const outcome of before) unseen.delete(nameOf(outcome));
    const after = outcomesThatAre(afterwards(opened, trial), network, ENDED, stops);
    const left = before.filter((outcome) => after.includes(outcome));
    if (left.length === 0) continue;
    return [
      {
        ...at,
        message: `${outcomeWords(network, left)} with ${name} open`,
        mend: `Put ${itemName(network, item.reference)} in the live of the valve on the primary coil, or of the heat source, and remove any link across it`,
      },
    ];
  }
  if (unseen.size === 0) return [];
  // What it never has before it, as a valve that opens for the cylinder alone, it cannot shut.
  const message =
    unseen.size === stops.length
      ? `nothing shows that ${name} ends anything: no trial gives ${list(stops, 'or')}`
      : `nothing is seen ${list([...unseen], 'or')} that ${name} could end`;
  return [
    {
      ...at,
      message,
      mend: 'Join what it must shut, and state a mode in which it works',
    },
  ];
}

/** The changed network under the conditions of a trial, from where the sound one rests. */
function afterwards(opened: Subject['network'], trial: Settled): Settled {
  if (Object.hasOwn(opened.system.modes, trial.mode)) return again(opened, trial);
  return under(opened, Object.fromEntries(trial.state.conditions), trial.state);
}

/** A finding when a cut-out that its own conditions have opened closes again without them. */
function resetsItself(subject: Subject, item: Item): Finding[] {
  const { network } = subject;
  const contacts = contactsOfItem(subject, item);
  const own = Object.keys(item.device.conditions).map((name) => `${item.reference}.${name}`);
  const isOpen = (settled: Settled) =>
    contacts.every((contact) => {
      const i = network.branchIndex.get(contact.id)!;
      return !conductsIn(settled)(contact, i);
    });
  const tripped = settings(own)
    .map((set) => under(network, set))
    .filter(isOpen);
  const at = { at: item.reference, path: ['items', item.reference] };
  const name = itemName(network, item.reference);
  if (tripped.length === 0) {
    const message = `nothing opens ${name}`;
    return [{ ...at, message, mend: 'Choose a cut-out whose contact opens on over-temperature' }];
  }
  if (tripped.every(({ state }) => isOpen(under(network, {}, state)))) return [];
  return [
    {
      ...at,
      message: `${name} closes again by itself`,
      mend: 'Fit a cut-out that stays open until a person resets it',
    },
  ];
}
