import type { Module } from '../../schemas/index.ts';
import type { Choice, Service, Specification } from './types.ts';

/** What an address says: a specification, or what is wrong with it and what is allowed. */
export type ReadAddress =
  | { readonly specification: Specification }
  | { readonly wrong: string; readonly allowed: readonly string[] };

type Modules = ReadonlyMap<string, Pick<Module, 'slot' | 'variants'>>;

/** Counted up when an address of now would say something else. */
const VERSION = '1';
const SINGLE = ['supply', 'isolator', 'heat', 'pump', 'time', 'valve'] as const;
const FIELDS: readonly string[] = ['v', ...SINGLE, 'gravity', 'heating', 'hotWater', 'additions'];
const MOST_LETTERS = 2000;

class Wrong extends Error {
  readonly allowed: readonly string[];
  constructor(message: string, allowed: readonly string[] = []) {
    super(message);
    this.allowed = allowed;
  }
}

// A space is the commonest sign of a variant's name, so it takes one letter.
const written = (name: string): string =>
  encodeURIComponent(name).replaceAll('~', '%7E').replaceAll('%20', '+');

const choiceText = (choice: Choice): string =>
  typeof choice === 'string'
    ? written(choice)
    : `${written(choice.module)}~${written(choice.variant)}`;

const listText = (choices: readonly Choice[] = []): string => choices.map(choiceText).join(',');

const serviceText = ({ controls, valve, limit }: Service): string =>
  [listText(controls), valve ? choiceText(valve) : '', limit ? choiceText(limit) : '']
    .join(';')
    .replace(/;+$/, '');

/** A specification as the part of an address behind its `#`; its title is not kept. */
export function addressOf(specification: Specification): string {
  const fields = [`v=${VERSION}`];
  for (const name of SINGLE) {
    const choice = specification[name];
    if (choice) fields.push(`${name}=${choiceText(choice)}`);
  }
  if (specification.gravity) fields.push('gravity=yes');
  for (const service of specification.heating) fields.push(`heating=${serviceText(service)}`);
  if (specification.hotWater) fields.push(`hotWater=${serviceText(specification.hotWater)}`);
  if (specification.additions?.length)
    fields.push(`additions=${listText(specification.additions)}`);
  return fields.join('&');
}

function plain(text: string): string {
  try {
    return decodeURIComponent(text.replaceAll('+', ' '));
  } catch {
    throw new Wrong(`“${text}” is damaged.`);
  }
}

function choiceOf(text: string, slot: Module['slot'], modules: Modules): Choice {
  const [name = '', variant, ...more] = text.split('~').map(plain);
  const module = modules.get(name);
  if (module?.slot !== slot || more.length > 0) {
    const allowed = [...modules].filter(([, each]) => each.slot === slot).map(([each]) => each);
    throw new Wrong(`“${name}” is no part that can stand here.`, allowed);
  }
  if (variant === undefined) return name;
  const variants = Object.keys(module.variants ?? {});
  if (!variants.includes(variant)) {
    throw new Wrong(`“${variant}” is no way of wiring “${name}”.`, variants);
  }
  return { module: name, variant };
}

const listOf = (text: string, slot: Module['slot'], modules: Modules): Choice[] =>
  text === '' ? [] : text.split(',').map((each) => choiceOf(each, slot, modules));

function serviceOf(text: string, modules: Modules): Service {
  const [controls = '', valve, limit, ...more] = text.split(';');
  if (more.length > 0) throw new Wrong('A circuit has controls, a valve and a cut-out, no more.');
  return {
    controls: listOf(controls, 'control', modules),
    ...(valve ? { valve: choiceOf(valve, 'valve', modules) } : {}),
    ...(limit ? { limit: choiceOf(limit, 'limit', modules) } : {}),
  };
}

function fieldsOf(text: string): Map<string, string[]> {
  if (text.length > MOST_LETTERS) throw new Wrong('The address is too long.');
  const fields = new Map<string, string[]>();
  for (const field of text.split('&')) {
    const at = field.indexOf('=');
    const name = at < 0 ? field : field.slice(0, at);
    if (at < 0 || !FIELDS.includes(name)) {
      throw new Wrong(`“${name}” is nothing that this address can say.`, FIELDS);
    }
    const before = fields.get(name) ?? [];
    if (before.length > 0 && name !== 'heating') throw new Wrong(`“${name}” is there twice.`);
    fields.set(name, [...before, field.slice(at + 1)]);
  }
  return fields;
}

function specificationOf(text: string, modules: Modules): Specification {
  const fields = fieldsOf(text);
  const one = (name: string): string | undefined => fields.get(name)?.[0];
  if (one('v') !== VERSION) throw new Wrong('The address is of another version.', [VERSION]);
  const single: Partial<Record<(typeof SINGLE)[number], Choice>> = {};
  for (const name of SINGLE) {
    const value = one(name);
    if (value !== undefined) single[name] = choiceOf(value, name, modules);
  }
  const { heat, ...rest } = single;
  if (!heat) throw new Wrong('The address names no heat source.');
  const gravity = one('gravity');
  if (gravity !== undefined && gravity !== 'yes') throw new Wrong('Gravity is “yes” or not there.');
  const heating = fields.get('heating');
  if (!heating) throw new Wrong('The address names no heating circuit.');
  const hotWater = one('hotWater');
  const additions = one('additions');
  return {
    heat,
    ...rest,
    ...(gravity ? { gravity: true } : {}),
    heating: heating.map((each) => serviceOf(each, modules)),
    ...(hotWater === undefined ? {} : { hotWater: serviceOf(hotWater, modules) }),
    ...(additions === undefined ? {} : { additions: listOf(additions, 'addition', modules) }),
  };
}

/** Reads what `addressOf` wrote; anything else is answered by what is wrong and what is allowed. */
export function readAddress(text: string, modules: Modules): ReadAddress {
  try {
    return { specification: specificationOf(text, modules) };
  } catch (error) {
    if (error instanceof Wrong) return { wrong: error.message, allowed: error.allowed };
    throw error;
  }
}
