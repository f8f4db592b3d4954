import type { Change, ElementBranch, Network } from '../../circuit/index.ts';
import { itemWords } from '../../wiring/index.ts';
import { capital } from '../../words/index.ts';
import { circuitEdit, madeBy } from './edit.ts';
import type { FaultKind } from './families.ts';
import type { Draft } from './fault.ts';
import { handOver } from './repairs.ts';

/** Resistance of a short inside a boiler, ohms (common practice, no source). */
const SHORT_OHMS = 0.5;

/**
 * A boiler is a boundary: what is inside it is known by what it shows at its terminals, and
 * ends in one handing over. Two parts in a row, with nothing else between them, show the same
 * and are one cause.
 */
export function boilerFaults(network: Network, item: string): Draft[] {
  const own = network.branches.filter(
    (b): b is ElementBranch => b.kind === 'element' && b.item === item,
  );
  const name = capital(itemWords(network, item));
  const cause = (
    id: string,
    what: string,
    shows: string,
    kind: FaultKind,
    changes: readonly Change[],
    hazard: string | null = null,
  ): Draft => ({
    id: `${item}:${id}`,
    origin: 'part',
    title: `${name}: ${what}`,
    hazard,
    ...handOver(item, shows),
    class: kind,
    ...madeBy(network, circuitEdit(changes)),
  });
  const supplied = 'Supply reaches the boiler';
  const short = (branch: ElementBranch) =>
    cause(
      'short inside',
      'blows the spur fuse, or its own, once its supply is connected',
      'The fuse blows only with the boiler connected.',
      'boilerOther',
      [
        {
          kind: 'join',
          from: network.nodes[branch.from]!.id,
          to: network.nodes[branch.to]!.id,
          ohms: SHORT_OHMS,
          inside: item,
        },
      ],
    );
  return own.flatMap((branch): Draft[] => {
    const { element, id } = branch;
    const open: Change[] = [{ kind: 'open', branch: id }];
    const called = element.name ?? branch.name;
    switch (element.kind) {
      case 'fuse':
      case 'breaker':
        return [
          cause(
            'nothing lit',
            'no display and nothing fed out, with its supply present',
            `${supplied}; it has no display.`,
            'boilerDead',
            open,
          ),
        ];
      case 'load':
        return branch.name === 'board'
          ? [
              cause(
                'no display',
                'no display with its supply present',
                `${supplied}; it has no display.`,
                'boilerDead',
                open,
              ),
              short(branch),
            ]
          : [
              cause(
                'does not fire',
                'does not fire with supply and call at its terminals',
                'Supply and call reach the boiler; it does not fire.',
                'boilerIdle',
                [{ kind: 'idle', branch: id }],
              ),
            ];
      case 'motor':
        return [
          cause(
            'pump inside',
            'pump does not run with supply and call at its terminals',
            'Supply and call reach the boiler; its pump does not run.',
            'boilerOther',
            [{ kind: 'idle', branch: id }],
          ),
        ];
      case 'sensing':
        return [
          cause(
            'call not taken',
            'does not respond to the call at its terminals',
            'Supply and call reach the boiler; it does not respond to the call.',
            'boilerOther',
            open,
          ),
        ];
      case 'contact': {
        const inRow = feedsOne(network, own, branch);
        const stays = cause(
          `${branch.name} stays closed`,
          inRow
            ? `${inRow} runs with no call at its terminals`
            : `${called} stays live with no call`,
          inRow === 'burner'
            ? 'The boiler fires with no call at its terminals.'
            : `No call reaches the boiler, and its ${inRow ?? 'pump output'} stays on after the overrun.`,
          inRow === 'burner' ? 'boilerFiresOn' : 'boilerStaysOn',
          [{ kind: 'welded', branch: id }],
          inRow === 'burner'
            ? 'The burner stays lit on its limit alone: switch it off at the fused spur, lock it off, and leave it off.'
            : null,
        );
        return inRow
          ? [stays]
          : [
              stays,
              cause(
                `${branch.name} does not close`,
                'no volts at its pump output, with supply and call at its terminals',
                'Supply and call reach the boiler; there are no volts at its pump output.',
                'boilerOther',
                open,
              ),
            ];
      }
      case 'link':
      case 'source':
        return [
          cause(
            `${branch.name} dead`,
            `${called} gives no volts, with the display on`,
            `${supplied} and its display is on; its ${called} gives no volts.`,
            'boilerOther',
            open,
          ),
        ];
      default:
        return [];
    }
  });
}

/** What a relay feeds through a point inside that nothing else touches; undefined otherwise. */
function feedsOne(
  network: Network,
  own: readonly ElementBranch[],
  relay: ElementBranch,
): string | undefined {
  if (network.nodes[relay.to]!.terminal) return undefined;
  const fed = own.filter((b) => b !== relay && (b.from === relay.to || b.to === relay.to));
  return fed.length === 1 ? fed[0]!.name : undefined;
}
