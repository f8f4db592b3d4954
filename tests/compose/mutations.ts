import type { Module } from '../../schemas/index.ts';

/** A module as somebody wrote it wrongly. */
export interface WrongModule {
  readonly name: string;
  readonly module: string;
  /** Changes a copy. */
  readonly edit: (module: Module) => void;
}

const exchange = (contact: { from: string; to: string }) => {
  [contact.from, contact.to] = [contact.to, contact.from];
};

/** Facts of modules that a person could get wrong, each of them once. */
export const WRONG_MODULES: readonly WrongModule[] = [
  {
    name: 'overflow switch in no net',
    module: 'condensate-pump',
    edit: ({ variants }) => {
      delete variants['in supply']!.cut;
    },
  },
  {
    name: 'overflow switch in the supply said to stop the call alone',
    module: 'condensate-pump',
    edit: ({ variants }) => {
      variants['in supply']!.stops = 'call';
    },
  },
  {
    name: 'overflow switch in the call said to take the supply',
    module: 'condensate-pump',
    edit: ({ variants }) => {
      variants['in call']!.stops = 'supply';
    },
  },
  {
    name: 'overflow switch fed by the pump’s own two cores',
    module: 'condensate-pump',
    edit: (module) => {
      module.through = ['pump.L', 'pump.overflow NC'];
    },
  },
  {
    name: 'overflow cores of the lead swapped with the supply’s',
    module: 'condensate-pump',
    edit: ({ items }) => {
      const lead = items.pump!.lead!;
      [lead.BN, lead.OG] = [lead.OG!, lead.BN!];
    },
  },
  {
    name: 'valve opened by its end switch',
    module: 'two-port-valve',
    edit: ({ valve }) => {
      [valve!.opens, valve!['end switch']!.to] = [valve!['end switch']!.to, valve!.opens];
    },
  },
  {
    name: 'valve without its end switch',
    module: 'two-port-valve',
    edit: ({ valve }) => {
      delete valve!['end switch'];
    },
  },
  {
    name: 'end switch fed where it should call',
    module: 'two-port-valve',
    edit: ({ valve }) => exchange(valve!['end switch']!),
  },
  {
    name: 'neutral of the valve on the live',
    module: 'two-port-valve',
    edit: ({ joins }) => {
      delete joins.neutral;
      joins.live = ['valve.N'];
    },
  },
  {
    name: 'no earth at the valve',
    module: 'two-port-valve',
    edit: ({ joins }) => {
      delete joins.earth;
    },
  },
  {
    name: 'white and grey of the mid-position valve swapped',
    module: 'mid-position-valve',
    edit: ({ shared }) => {
      [shared!.heating, shared!['hot water off']] = [shared!['hot water off'], shared!.heating];
    },
  },
  {
    name: 'orange of the mid-position valve left off',
    module: 'mid-position-valve',
    edit: ({ shared }) => {
      delete shared!['boiler call'];
    },
  },
  {
    name: 'cylinder stat joined at satisfied for call',
    module: 'cylinder-stat',
    edit: ({ contacts }) => {
      const call = contacts.call!;
      [call.to, call.rest] = [call.rest!, call.to];
    },
  },
  {
    name: 'programmer’s hot water off for on',
    module: 'programmer',
    edit: ({ contacts }) => {
      const water = contacts['hot water']!;
      [water.to, water.rest] = [water.rest!, water.to];
    },
  },
  {
    name: 'programmer’s channels swapped',
    module: 'programmer',
    edit: ({ contacts }) => {
      [contacts.heating!.to, contacts['hot water']!.to] = [
        contacts['hot water']!.to,
        contacts.heating!.to,
      ];
    },
  },
  {
    name: 'receiver joined at its break contact',
    module: 'wireless-receiver',
    edit: ({ contacts }) => {
      contacts.call!.to = 'receiver.NC';
    },
  },
  {
    name: 'receiver said to call with its wireless room stat lost',
    module: 'wireless-receiver',
    edit: ({ stands }) => {
      stands.call = { all: ['receiver.fitted', 'receiver.calling'] };
    },
  },
  {
    name: 'boiler’s switched live on its permanent live',
    module: 'heat-only-overrun',
    edit: ({ joins }) => {
      joins['boiler call'] = ['boiler.L'];
      joins['boiler live'] = ['boiler.SL'];
    },
  },
  {
    name: 'pump on the boiler’s call beside its output',
    module: 'circulating-pump',
    edit: ({ joins }) => {
      joins['boiler call'] = ['pump.L'];
    },
  },
  {
    name: 'cut-out said to be closed when overheated',
    module: 'overheat-cut-out',
    edit: (module) => {
      module.open = { not: 'limit.overheated' };
    },
  },
  {
    name: 'frost stat alone said to call without the pipe stat',
    module: 'frost-pair',
    edit: ({ stands }) => {
      stands.call = 'frost.frost';
    },
  },
  {
    name: 'pipe stat left out of the pair',
    module: 'frost-pair',
    edit: (module) => {
      module.parallel = module.parallel!.slice(0, 1);
    },
  },
  {
    name: 'relay’s coil and contact swapped',
    module: 'interface-relay',
    edit: ({ relay }) => {
      [relay!.coil, relay!.contact.from] = [relay!.contact.from, relay!.coil];
    },
  },
  {
    name: 'manifold pump past its limit stat',
    module: 'underfloor-manifold',
    edit: ({ wires }) => {
      wires['manifold pump live'] = ['limit.live in', 'pump.L'];
    },
  },
];
