import type { Specification } from '../../src/compose/index.ts';
import { entries } from './catalogue.ts';

/** The shipped systems that were written by hand, each as what is looked at and told of it. */
export const WRITTEN: Readonly<Record<string, Specification>> = {
  'combi-two-wire': {
    heat: 'combi-mains-call',
    heating: [{ controls: ['room-stat-two-wire'] }],
  },
  'combi-volt-free': {
    heat: 'combi-volt-free',
    heating: [{ controls: ['room-stat-volt-free'] }],
  },
  'combi-wireless': {
    heat: 'combi-mains-call',
    heating: [{ controls: ['wireless-receiver'] }],
  },
  'combi-condensate-pump': {
    supply: 'supply-circuit-rcbo',
    heat: 'combi-mains-call',
    heating: [{ controls: ['room-stat-two-wire'] }],
    additions: [{ module: 'condensate-pump', variant: 'in supply by its own box' }],
  },
  'combi-wireless-condensate-pump': {
    heat: 'combi-mains-call',
    heating: [{ controls: ['wireless-receiver'] }],
    additions: [{ module: 'condensate-pump', variant: 'in supply' }],
  },
  'heat-only-two-port': {
    heat: 'heat-only-overrun',
    pump: 'circulating-pump',
    time: 'programmer',
    heating: [{ controls: ['room-stat-wired'], valve: 'two-port-valve' }],
    hotWater: {
      controls: ['cylinder-stat'],
      valve: 'two-port-valve',
      limit: 'overheat-cut-out',
    },
  },
  'heat-only-condensate-pump': {
    heat: 'heat-only-overrun',
    pump: 'circulating-pump',
    time: 'programmer',
    heating: [{ controls: ['room-stat-wired'], valve: 'two-port-valve' }],
    hotWater: {
      controls: ['cylinder-stat'],
      valve: 'two-port-valve',
      limit: 'overheat-cut-out',
    },
    additions: [{ module: 'condensate-pump', variant: 'in call' }],
  },
  'heat-only-mid-position': {
    supply: 'supply-circuit-rcbo',
    heat: 'heat-only-overrun',
    pump: { module: 'circulating-pump', variant: 'at the boiler' },
    time: 'programmer',
    valve: 'mid-position-valve',
    heating: [{ controls: ['room-stat-wired'] }],
    hotWater: { controls: ['cylinder-stat'] },
  },
  'system-boiler-internal-pump': {
    heat: 'system-boiler',
    time: 'programmer',
    heating: [{ controls: ['room-stat-wired'], valve: 'two-port-valve' }],
    hotWater: { controls: ['cylinder-stat-single'], valve: 'two-port-valve' },
  },
};

/** Every shipped system: those written by hand, and those whose entry is a composition. */
export const SPECIFICATIONS: Readonly<Record<string, Specification>> = {
  ...WRITTEN,
  ...Object.fromEntries(
    [...entries().systems.values()].flatMap(({ id, data: { compose } }) => {
      if (!compose) return [];
      const { additions, ...rest } = compose;
      return [[id, (additions.length > 0 ? compose : rest) as Specification]];
    }),
  ),
};
