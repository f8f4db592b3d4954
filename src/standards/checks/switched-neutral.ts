import type { ConductorBranch, ElementBranch, Settled } from '../../circuit/index.ts';
import { waysFrom } from '../../wiring/index.ts';
import { conductsIn, reached } from '../reach.ts';
import { corePath, elementName, list } from '../say.ts';
import { familyOf, loadsOf, type Subject } from '../subject.ts';
import { apart, type Check, type Finding, verdict } from '../types.ts';

/** Nothing but an isolator opens a neutral. */
export const switchedNeutral: Check<'no switched neutral'> = {
  words: ({ families }) =>
    `The neutral of every load is reached from the supply’s neutral in each working mode without passing a contact, fuse or MCB, other than one of the ${list(families, 'or')}.`,
  run({ families }, subject) {
    const { network, supply, working } = subject;
    const loads = loadsOf(subject);
    const may = (item: string) => families.includes(familyOf(network, item));
    const through = new Map<
      string,
      { opener: ElementBranch; core?: ConductorBranch; load: ElementBranch }
    >();
    let looked = 0;
    for (const settled of working) {
      const conducts = conductsIn(settled);
      const all = reached(network, supply.neutral, conducts);
      const whole = reached(
        network,
        supply.neutral,
        (b, i) => conducts(b, i) && !(isOpener(b) && !may(b.item)),
      );
      for (const load of loads) {
        for (const node of [load.from, load.to]) {
          if (all.has(node)) looked++;
          if (!all.has(node) || whole.has(node)) continue;
          const found = openerOnTheWay(subject, settled, node, may);
          if (found && !through.has(found.opener.id))
            through.set(found.opener.id, { ...found, load });
        }
      }
    }
    if (looked === 0) return apart('no load stands on the neutral');
    const findings = [...through.values()].map(
      ({ opener, core, load }): Finding => ({
        at: core?.id ?? opener.item,
        path: core ? corePath(core) : ['items', opener.item],
        message: `${elementName(opener)} stands in the neutral of ${elementName(load)}`,
        mend: `Join the neutral of ${load.item} straight to the neutral, and put ${elementName(opener)} in its line`,
      }),
    );
    return verdict(findings, `loads: ${loads.length}, modes: ${working.length}`);
  },
};

type Opener = ElementBranch;
const isOpener = (branch: { readonly kind: string }): branch is Opener =>
  branch.kind === 'element' &&
  ['contact', 'fuse', 'breaker'].includes((branch as ElementBranch).element.kind);

/** The first contact or fuse on the way from the neutral to a node, and the core before it. */
function openerOnTheWay(
  { network, supply }: Subject,
  settled: Settled,
  node: number,
  may: (item: string) => boolean,
): { opener: ElementBranch; core?: ConductorBranch } | null {
  const way = waysFrom(network, supply.neutral, conductsIn(settled)).get(node) ?? [];
  const at = way.findIndex((b) => isOpener(b) && !may(b.item));
  const opener = way[at];
  if (!opener || !isOpener(opener)) return null;
  const core = way.slice(0, at).findLast((b): b is ConductorBranch => b.kind === 'conductor');
  return core ? { opener, core } : { opener };
}
