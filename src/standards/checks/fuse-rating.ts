import type { ElementBranch } from '../../circuit/index.ts';
import { conductsInSome, reached } from '../reach.ts';
import { elementName, itemName, list } from '../say.ts';
import { familyOf, loadsOf, type Subject } from '../subject.ts';
import { apart, type Check, type Finding, verdict } from '../types.ts';

/** Every mains load is fed through a fuse of the standard and of a rating allowed. */
export const fuseRating: Check<'fuse rating'> = {
  words: ({ standard, ratings, families }) =>
    `Every ${standard} fuse of the ${list(families, 'or')} is of ${list(ratings.map(String), 'or')} A, and with these fuses drawn no load is reached from the supply’s line in any mode.`,
  run({ standard, ratings, families }, subject) {
    const fuses = subject.elements.filter(
      ({ item, element }) =>
        element.kind === 'fuse' &&
        element.standard === standard &&
        families.includes(familyOf(subject.network, item)),
    );
    const fed = loadsReached(subject, []);
    if (fed.length === 0) return apart('no load is fed from the mains');
    const allowed = `${list(ratings.map(String), 'or')} A, ${standard}`;
    const wrong = fuses.flatMap((fuse): Finding[] => {
      const rating = 'rating' in fuse.element ? fuse.element.rating : 0;
      if (ratings.includes(rating)) return [];
      return [
        {
          at: fuse.item,
          path: ['items', fuse.item, 'ratings', fuse.name],
          message: `${elementName(fuse)} is of ${rating} A`,
          found: `${rating} A`,
          allowed,
          mend: `Fit a ${list(ratings.map(String), 'or')} A ${standard} fuse at ${fuse.item}`,
        },
      ];
    });
    const unfused = new Map(loadsReached(subject, fuses).map((load) => [load.item, load]));
    const past = [...unfused].map(([item, load]): Finding => {
      const none = fuses.length === 0;
      return {
        at: item,
        path: ['items', item],
        message: none
          ? `${elementName(load)} is fed, and no ${standard} fuse stands before it`
          : `${elementName(load)} is fed past ${list(fuses.map(elementName), 'or')}`,
        allowed,
        mend: `Feed ${itemName(subject.network, item)} from the load side of a fused spur`,
      };
    });
    return verdict([...wrong, ...past], `fuses: ${fuses.length}, loads behind them: ${fed.length}`);
  },
};

/** Loads that conductors, links and contacts join to the supply's line with some fuses drawn. */
function loadsReached(subject: Subject, drawn: readonly ElementBranch[]): ElementBranch[] {
  const conducts = conductsInSome([...subject.simulation.modes.values()]);
  const nodes = reached(
    subject.network,
    subject.supply.line,
    (branch, i) => conducts(branch, i) && !drawn.some(({ id }) => id === branch.id),
  );
  return loadsOf(subject).filter(({ from, to }) => nodes.has(from) || nodes.has(to));
}
