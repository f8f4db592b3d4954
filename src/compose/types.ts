import type { Device, Module, ModuleRule, System } from '../../schemas/index.ts';

/** A module, and the way of wiring it where it has several. */
export type Choice = string | { readonly module: string; readonly variant: string };

/** Controls in series that ask for one service, and what it is behind. */
export interface Service {
  /** Modules of the slot `control`, in the order in which the live meets them. */
  readonly controls?: readonly Choice[];
  readonly valve?: Choice;
  /** Safety cut-out in its live. */
  readonly limit?: Choice;
}

/** What is looked at and told: enough to compose a whole system. Names are those of modules. */
export interface Specification {
  readonly title?: string;
  readonly supply?: Choice;
  readonly isolator?: Choice;
  readonly heat: Choice;
  /** Pump outside the boiler. */
  readonly pump?: Choice;
  /** Clock, or receiver of two channels, ahead of the controls. */
  readonly time?: Choice;
  /** One valve that heating and hot water share. */
  readonly valve?: Choice;
  /** Hot water goes round by itself: it calls the boiler, and heating runs the pump alone. */
  readonly gravity?: boolean;
  /** Circuits of heating, first to last. */
  readonly heating: readonly Service[];
  readonly hotWater?: Service;
  readonly additions?: readonly Choice[];
}

/** What systems are composed from, by name. */
export interface Catalogue {
  readonly modules: ReadonlyMap<string, Module>;
  readonly devices: ReadonlyMap<string, Device>;
}

/** Why a specification has no circuit: something has no terminal to go to. */
export const REFUSALS = {
  'no such module': 'a name that no module bears, or one that stands in another place',
  'no such variant': 'a way of wiring that the module does not have',
  'no pump output': 'the pump is inside the boiler, which has no output for another',
  'no pump': 'the boiler has no pump inside, and none is there outside',
  'nothing calls': 'a service with neither control nor clock',
  'no contact for this service': 'the clock or control has no contact for this service',
  'its own live stands first':
    'a contact joined inside to its own live has no terminal for another',
  'no permanent live to cut': 'the boiler has no permanent live for a switch to stand in',
  'no live out to a control': 'the boiler sends no live out to a control',
  'no hot water off':
    'the shared valve needs a live while hot water is off; neither clock nor stat gives one',
  'no such service': 'a shared valve serves heating and hot water, one circuit of each',
  'no gravity': 'only a boiler without a pump output, with a clock and hot water, heats by gravity',
  'two calls for one relay': 'only one interface relay ends the call',
  'box too small': 'no box has so many ways',
} as const;
export type RefusalReason = keyof typeof REFUSALS;

/** A specification that has no circuit. */
export class Refusal extends Error {
  readonly reason: RefusalReason;
  /** Name of the module, the way of wiring or the service that it is about. */
  readonly at: string;
  constructor(reason: RefusalReason, at: string) {
    super(`${at}: ${REFUSALS[reason]}`);
    this.reason = reason;
    this.at = at;
  }
}

/** A condition, `supply on`, or rules joined; conditions are ITEM.condition. */
export type Rule = ModuleRule;

/** One thing that may ask for heat, apart from any wiring. */
export interface Demand {
  /** `heating`, `heating-2`, `hot-water`. */
  readonly id: string;
  readonly service: 'heating' | 'hot water';
  /** When all its controls stand, its clock among them. */
  readonly stands: Rule;
  /** Its clock alone; absent without one. */
  readonly clock?: Rule;
  /** When frost protection asks in its place. */
  readonly frost?: Rule;
  /** When the safety cut-out of its valve is open. */
  readonly limit?: Rule;
  /** Outcome by which the valve of its circuit is seen open, `Q2.open`. */
  readonly valve?: string;
  /** Outcome of a pump of that circuit’s own, and when it is stopped for its own sake. */
  readonly runs?: { readonly pump: string; readonly unless?: Rule };
}

/** What plays which role in a system: all that a demand table knows of it. */
export interface Roles {
  readonly kind: NonNullable<Module['kind']>;
  readonly boiler: string;
  /** Outcome that shows the pump running, `M1.running` or `E1.pump`. */
  readonly pump: string;
  /** Hot water goes round by itself; heating is the pump. */
  readonly gravity?: boolean;
  /** When the isolator and the circuit before it are on. */
  readonly on: Rule;
  readonly demands: readonly Demand[];
  readonly shared?: {
    readonly 'hot water': string;
    readonly both?: string;
    readonly heating: string;
  };
  readonly interlocks: readonly { readonly open: Rule; readonly stops?: 'supply' | 'call' }[];
  /** Further outcomes and when they must be seen. */
  readonly sees: ReadonlyMap<string, Rule>;
}

/** A system made from modules, with what says what must happen in it. */
export interface Composed {
  readonly system: System;
  readonly roles: Roles;
  /** Terminals by the name of what joins them; boxes are not among them. */
  readonly nets: ReadonlyMap<string, readonly string[]>;
  /** The module that each item came with, by reference; boxes are not among them. */
  readonly modules: ReadonlyMap<string, string>;
}
