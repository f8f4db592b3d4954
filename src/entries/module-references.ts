import type { Device, Module, ModuleRule } from '../../schemas/index.ts';
import { among } from './problem.ts';
import { own, type Report, reportFor } from './report.ts';
import type { DevicesKnown } from './system-references.ts';
import type { Path, Places, Problem } from './types.ts';

/** What a name in a module is: a terminal, a condition or an outcome of one of its items. */
type Member = 'terminal' | 'condition' | 'outcome';

/** Every name in a module that one of its devices must declare, and what its slot asks for. */
export function moduleProblems(
  module: Module,
  places: Places,
  { devices, ids, modules }: DevicesKnown & { readonly modules: ReadonlySet<string> },
): readonly Problem[] {
  const report = reportFor(places);
  for (const [item, { device, lead }] of Object.entries(module.items)) {
    if (!ids.has(device)) {
      const message = `there is no device “${device}”`;
      report.value('device-unknown', ['items', item, 'device'], message, among(device, ids));
    }
    for (const [colour, core] of Object.entries(lead ?? {}))
      checkMember(
        module,
        devices,
        report,
        ['items', item, 'lead', colour],
        'terminal',
        `${item}.${core!.to}`,
      );
  }
  for (const { path, kind, name } of namesOf(module))
    checkMember(module, devices, report, path, kind, name);
  checkPairs(module, report, modules);
  checkSlot(module, report);
  return report.problems;
}

function checkMember(
  { items }: Module,
  devices: ReadonlyMap<string, Device>,
  report: Report,
  path: Path,
  kind: Member,
  reference: string,
): void {
  const dot = reference.indexOf('.');
  const [item, name] = [reference.slice(0, dot), reference.slice(dot + 1)];
  const about = own(items, item);
  if (!about) {
    const message = `this module has no item “${item}”`;
    report.value('module-name-unknown', path, message, among(item, Object.keys(items)));
    return;
  }
  const device = devices.get(about.device);
  if (!device) return;
  const declared = {
    terminal: device.terminals,
    condition: device.conditions,
    outcome: device.outcomes,
  }[kind];
  if (Object.hasOwn(declared, name)) return;
  const message = `${item} (${about.device}) has no ${kind} “${name}”`;
  const details = among(name, Object.keys(declared));
  // What is seen is a key of its list, and not the value beside it.
  if (path[0] === 'sees' && kind === 'outcome')
    report.key('module-name-unknown', path, message, details);
  else report.value('module-name-unknown', path, message, details);
}

/** Modules that a pair’s note is said beside, and own ways of wiring in which it is so. */
function checkPairs(
  { pairs, variants }: Module,
  report: Report,
  modules: ReadonlySet<string>,
): void {
  for (const [i, { with: beside, when = [] }] of pairs.entries()) {
    for (const [j, name] of beside.entries()) {
      if (modules.has(name)) continue;
      const message = `there is no module “${name}”`;
      report.value('module-name-unknown', ['pairs', i, 'with', j], message, among(name, modules));
    }
    const ways = Object.keys(variants);
    for (const [j, name] of when.entries()) {
      if (ways.includes(name)) continue;
      const message = `this module has no variant “${name}”`;
      report.value('module-name-unknown', ['pairs', i, 'when', j], message, among(name, ways));
    }
  }
}

interface Named {
  readonly path: Path;
  readonly kind: Member;
  readonly name: string;
}

/** Every terminal, condition and outcome that a module names, with its place. */
function namesOf(module: Module): Named[] {
  const terminals: Named[] = [
    ...strings(module.joins, ['joins']),
    ...strings(module.circuit, ['circuit']),
    ...strings(module.contacts, ['contacts']),
    ...strings(module.valve && { ...module.valve, shows: null, runs: null }, ['valve']),
    ...strings(module.wires, ['wires']),
    ...strings(module.shared && { ...module.shared, positions: {} }, ['shared']),
    ...strings(module.relay, ['relay']),
    ...strings(module.through, ['through']),
    ...strings(module.parallel, ['parallel']),
  ].map((found) => ({ ...found, kind: 'terminal' }));
  const outcomes: Named[] = [
    ...strings(module.shared?.positions, ['shared', 'positions']),
    ...strings(module.valve?.shows, ['valve', 'shows']),
    ...strings(module.valve?.runs, ['valve', 'runs']),
    ...Object.keys(module.sees).map((name) => ({ path: ['sees', name], name })),
  ].map((found) => ({ ...found, kind: 'outcome' }));
  const conditions: Named[] = [
    ...Object.entries(module.stands).flatMap(([service, rule]) =>
      inRule(rule!, ['stands', service]),
    ),
    ...(module.open ? inRule(module.open, ['open']) : []),
    ...Object.entries(module.sees).flatMap(([outcome, rule]) => inRule(rule, ['sees', outcome])),
    ...Object.entries(module.states).flatMap(([id, { set, unset }]) => [
      ...strings(set, ['states', id, 'set']),
      ...strings(unset, ['states', id, 'unset']),
    ]),
  ].map((found) => ({ ...found, kind: 'condition' }));
  return [...terminals, ...outcomes, ...conditions];
}

/** Every text inside a value, with its path. */
function strings(value: unknown, path: Path): { path: Path; name: string }[] {
  if (typeof value === 'string') return [{ path, name: value }];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    strings(inner, [...path, Array.isArray(value) ? Number(key) : key]),
  );
}

/** Conditions that a rule names; `supply on` is the table’s own. */
const inRule = (rule: ModuleRule, path: Path) =>
  strings(rule, path).filter(({ name }) => name !== 'supply on');

/** What the composer needs of a module in its slot. */
function checkSlot(module: Module, report: Report): void {
  const { slot } = module;
  const lacks = (what: string, is: unknown) => {
    if (is) return;
    const message = `a module of the slot ${slot} says ${what}`;
    report.value('module-incomplete', ['slot'], message, { found: slot });
  };
  if (slot === 'supply' || slot === 'isolator') {
    lacks('circuit', module.circuit);
    lacks('open', module.open);
  }
  if (slot === 'box') lacks('ways', module.ways);
  if (slot === 'heat') {
    lacks('kind', module.kind);
    lacks('arrangement', module.arrangement);
    lacks(
      'joins: boiler call, or call pair 1 and 2',
      module.joins['boiler call'] ?? module.joins['call pair 2'],
    );
  }
  if (slot === 'time' || slot === 'control') {
    lacks('control', module.control);
    for (const service of Object.keys(module.contacts))
      lacks(`when ${service} stands`, own(module.stands, service));
    lacks('contacts', Object.keys(module.contacts).length > 0);
  }
  if (slot === 'valve') lacks('valve or shared', module.valve ?? module.shared);
  if (slot === 'limit') {
    lacks('contacts: call', module.contacts.call);
    lacks('open', module.open);
  }
  if (slot === 'addition') {
    lacks('relay, through or parallel', module.relay ?? module.through ?? module.parallel);
    if (module.parallel) lacks('when call stands', module.stands.call);
    if (module.through) lacks('open', module.open);
  }
}
