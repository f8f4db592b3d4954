import { ISOLATED } from '../../../schemas/index.ts';
import type { ConductorBranch, Settled } from '../../circuit/index.ts';
import { conductsIn, type Nodes, reached } from '../reach.ts';
import { coreName, corePath, count, itemName, list, modeName } from '../say.ts';
import { familyOf, type Subject } from '../subject.ts';
import { again } from '../trials.ts';
import { apart, type Check, type Finding, type Verdict, verdict } from '../types.ts';
import { isDead } from '../volts.ts';

/** One isolator switched off leaves every conductor behind it dead, in every mode. */
export const isolation: Check<'single point of isolation'> = {
  words: ({ doublePole }) =>
    [
      'The mode isolated switches one isolator off and no second one.',
      'With it off, every conductor behind it reads no volts to earth on a two-pole tester, whatever mode the system was in before.',
      doublePole ? 'The neutral behind it is disconnected from the supply’s neutral as well.' : '',
    ]
      .filter((sentence) => sentence !== '')
      .join(' '),
  run({ doublePole }, subject) {
    const { network, simulation } = subject;
    if (!simulation.modes.has(ISOLATED)) return apart('the system has no mode isolated');
    const off = isolatorsOff(subject);
    const items = [...new Set(Object.keys(off).map((id) => id.split('.')[0]!))];
    if (items.length !== 1) return notOne(items);
    const [isolator = ''] = items;
    const before = nodesBefore(subject, isolator);
    const behind = subject.conductors.filter((c) => !before.has(c.from) || !before.has(c.to));
    const live = new Map<ConductorBranch, string>();
    let last: Settled | undefined;
    for (const settled of simulation.modes.values()) {
      last = again(network, settled, off);
      for (const core of behind) {
        const dead = [core.from, core.to].every(
          (node) => before.has(node) || isDead(subject, last!, node),
        );
        if (!dead && !live.has(core)) live.set(core, settled.mode);
      }
    }
    const joined = doublePole && last ? neutralsLeft(subject, last, before, behind) : [];
    const findings = [
      ...atTheSource([...live.keys()], before).map((core): Finding => {
        const others = live.size - 1;
        const more = others > 0 ? `, and ${count(others, 'conductor')} beside it` : '';
        return {
          at: core.id,
          path: corePath(core),
          message: `${coreName(core)} stays live with ${itemName(network, isolator)} off, in ${modeName(network, live.get(core)!)}${more}`,
          mend: `Feed ${core.cable} from the load side of ${isolator}`,
        };
      }),
      ...atTheSource(joined, before).map(
        (core): Finding => ({
          at: core.id,
          path: corePath(core),
          message: `${coreName(core)} stays joined to the supply’s neutral with ${itemName(network, isolator)} off`,
          mend: `Take the neutral of ${core.cable} from the load side of ${isolator}, which opens both poles`,
        }),
      ),
    ];
    return verdict(
      findings,
      `isolator ${isolator}, conductors behind it: ${behind.length}, modes: ${simulation.modes.size}`,
    );
  },
};

/** Conditions of isolators that the mode isolated sets. */
function isolatorsOff({ network }: Subject): Record<string, boolean> {
  const given = Object.entries(network.system.modes[ISOLATED]?.conditions ?? {});
  return Object.fromEntries(
    given.filter(([id]) => familyOf(network, id.split('.')[0]!) === 'isolation'),
  );
}

function notOne(items: readonly string[]): Verdict {
  const message =
    items.length === 0
      ? 'no isolator is switched off in the mode isolated'
      : `${list(items)} are switched off in the mode isolated`;
  return verdict(
    [
      {
        at: items[1] ?? ISOLATED,
        path: items[1] ? ['items', items[1]] : ['modes', ISOLATED],
        message,
        allowed: 'one isolator for the whole of the controls',
        mend:
          items.length === 0
            ? 'Feed the controls through one isolator and switch it off in that mode'
            : `Feed everything from ${items[0]}`,
      },
    ],
    '',
  );
}

/** Nodes of the supply, and of isolating equipment, that stand before the isolator. */
function nodesBefore({ network, supply }: Subject, isolator: string): Nodes {
  const item = (node: number) => network.nodes[node]?.item;
  const ofSupply = (node: number) => {
    const own = item(node);
    return own !== undefined && ['supply', 'isolation'].includes(familyOf(network, own));
  };
  const found = new Set<number>();
  for (const start of [supply.line, supply.neutral, supply.earth]) {
    const nodes = reached(network, start, (branch) => {
      if (branch.kind === 'supply') return false;
      if (branch.kind === 'element' && branch.item === isolator) return false;
      return ofSupply(branch.from) && ofSupply(branch.to);
    });
    for (const node of nodes) found.add(node);
  }
  return found;
}

/** Conductors behind the isolator that are joined to the supply's neutral with it off. */
function neutralsLeft(
  { network, supply, earthNodes }: Subject,
  off: Settled,
  before: Nodes,
  behind: readonly ConductorBranch[],
): ConductorBranch[] {
  const joined = reached(network, supply.neutral, conductsIn(off));
  return behind.filter(({ from, to }) =>
    [from, to].some((node) => joined.has(node) && !before.has(node) && !earthNodes.has(node)),
  );
}

/** Those of some conductors that come from before the isolator; all, where none does. */
function atTheSource(cores: readonly ConductorBranch[], before: Nodes): ConductorBranch[] {
  const first = cores.filter(({ from, to }) => before.has(from) || before.has(to));
  return first.length > 0 ? first : [...cores];
}
