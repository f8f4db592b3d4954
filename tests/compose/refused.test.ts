import { describe, expect, it } from 'vitest';
import {
  type Catalogue,
  compose,
  REFUSALS,
  Refusal,
  type RefusalReason,
  type Specification,
} from '../../src/compose/index.ts';
import { catalogue } from './catalogue.ts';

const STAT = [{ controls: ['room-stat-wired'] }];
const CYLINDER = { controls: ['cylinder-stat'] };

/** For every reason a specification that is refused for it. */
const CASES: Readonly<Record<RefusalReason, Specification>> = {
  'no such module': { heat: 'room-stat-wired', heating: STAT },
  'no such variant': {
    heat: 'system-boiler',
    heating: STAT,
    additions: [{ module: 'condensate-pump', variant: 'in the loft' }],
  },
  'no pump output': { heat: 'system-boiler', pump: 'circulating-pump', heating: STAT },
  'no pump': { heat: 'heat-only-overrun', heating: STAT },
  'nothing calls': { heat: 'system-boiler', heating: [{ controls: [] }] },
  'no contact for this service': {
    heat: 'system-boiler',
    time: 'time-switch',
    heating: STAT,
    hotWater: CYLINDER,
  },
  'its own live stands first': {
    heat: 'system-boiler',
    time: 'programmer',
    heating: [{ controls: ['room-stat-mains'] }],
  },
  'no permanent live to cut': {
    heat: 'heat-only-no-overrun',
    pump: 'circulating-pump',
    heating: STAT,
    additions: [{ module: 'condensate-pump', variant: 'in supply' }],
  },
  'no live out to a control': {
    heat: 'combi-switched-live',
    heating: STAT,
    additions: [{ module: 'frost-pair', variant: 'fed from the live to stat' }],
  },
  'no hot water off': {
    heat: 'system-boiler',
    time: 'receiver-two-channel-mains',
    valve: 'mid-position-valve',
    heating: [{}],
    hotWater: { controls: ['cylinder-stat-single'] },
  },
  'no such service': { heat: 'system-boiler', valve: 'mid-position-valve', heating: STAT },
  'no gravity': { heat: 'system-boiler', gravity: true, heating: STAT, hotWater: CYLINDER },
  'two calls for one relay': {
    heat: 'system-boiler',
    heating: STAT,
    additions: ['interface-relay', 'interface-relay'],
  },
  'box too small': {
    heat: 'system-boiler',
    time: 'programmer',
    heating: Array.from({ length: 30 }, () => ({
      controls: ['room-stat-wired'],
      valve: 'two-port-valve',
    })),
  },
};

function refused(specification: Specification, from: Catalogue = catalogue()): Refusal | undefined {
  try {
    compose(specification, from);
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
  return undefined;
}

describe('what has no terminal to go to is refused, and nothing else', () => {
  it.each(Object.entries(CASES))('%s', (reason, specification) => {
    const refusal = refused(specification);
    expect(refusal?.reason).toBe(reason);
    expect(refusal?.message).toContain(REFUSALS[reason as RefusalReason]);
  });

  it('composes what is unsound: that is for the circuit to show', () => {
    const unsound: Specification[] = [
      { heat: 'combi-volt-free', heating: [{ controls: ['room-stat-mains'] }] },
      {
        heat: 'combi-mains-call',
        heating: [{ controls: ['room-stat-two-wire'] }],
        additions: [{ module: 'condensate-pump', variant: 'alarm only' }],
      },
    ];
    for (const one of unsound) expect(refused(one)).toBeUndefined();
  });
});
