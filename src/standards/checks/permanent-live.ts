import type { ElementBranch, Settled } from '../../circuit/index.ts';
import { reached } from '../reach.ts';
import { elementName, list, modeName, pointName, whereOf } from '../say.ts';
import { contactsOf, familyOf, loadsOf, type Subject } from '../subject.ts';
import { again, withOpen } from '../trials.ts';
import { apart, type Check, type Finding, verdict } from '../types.ts';
import { isLive } from '../volts.ts';

/** A permanent live stays whatever the controls do. */
export const permanentLive: Check<'permanent live not through a control'> = {
  words: ({ families, controls }) =>
    `The terminal by which each ${list(families, 'or')} takes its own supply is live in a working mode, and stays so in every mode in which it is live when every contact of each ${list(controls, 'or')} is opened. A safety device may stand in it.`,
  run({ families, controls }, subject) {
    const terminals = supplyTerminals(subject, families);
    if (terminals.length === 0) return apart(`no ${list(families, 'or')} has a permanent live`);
    const contacts = contactsOf(subject, controls);
    const opened = withOpen(subject.network, contacts);
    const findings = terminals.flatMap((node): Finding[] => {
      const point = pointName(subject.network.nodes[node]!.id);
      const live = subject.working.filter((settled) => isLive(subject, settled, node));
      const where = whereOf(subject, node);
      if (live.length === 0) {
        const message = `${point} is live in no working mode`;
        return [{ ...where, message, mend: `Join ${point} to the permanent live` }];
      }
      const lost = live.find((settled) => !isLive(subject, again(opened, settled), node));
      if (!lost) return [];
      const through = contacts.filter((contact) => loses(subject, contact, lost, node));
      const by = through.length > 0 ? list(through.map(elementName)) : 'the contacts of controls';
      return [
        {
          ...where,
          message: `${point} takes its permanent live through ${by}, as in ${modeName(subject.network, lost.mode)}`,
          mend: `Take ${point} from the permanent live ahead of ${through[0]?.item ?? 'every control'}`,
        },
      ];
    });
    return verdict(findings, `terminals: ${terminals.length}, contacts opened: ${contacts.length}`);
  },
};

/** Whether one contact, opened alone, takes the live away. */
const loses = (subject: Subject, contact: ElementBranch, lost: Settled, node: number): boolean =>
  !isLive(subject, again(withOpen(subject.network, [contact]), lost), node);

/** Line terminals that feed a load of their own item through links and fuses alone. */
function supplyTerminals(subject: Subject, families: readonly string[]): number[] {
  const { network, neutralNodes } = subject;
  return network.nodes.flatMap(({ index, item, terminal }) => {
    if (!item || terminal?.carries !== 'line' || terminal.voltage !== 'mains') return [];
    if (!families.includes(familyOf(network, item))) return [];
    const inside = reached(
      network,
      index,
      (b) => b.kind === 'element' && b.item === item && ['link', 'fuse'].includes(b.element.kind),
    );
    const feeds = loadsOf(subject).some(
      ({ from, to }) =>
        (inside.has(from) && neutralNodes.has(to)) || (inside.has(to) && neutralNodes.has(from)),
    );
    return feeds ? [index] : [];
  });
}
