import { type Device, type Element, endsOf, type Logic } from '../../schemas/index.ts';
import { checkElement, logicProblems } from './logic-references.ts';
import { checkOpenings } from './opening-references.ts';
import { among } from './problem.ts';
import { type Report, reportFor } from './report.ts';
import type { Path, Places, Problem } from './types.ts';

/** Every name in a device that must be declared in it, and what its class asks for. */
export function deviceProblems(device: Device, places: Places): readonly Problem[] {
  const report = reportFor(places);
  checkNodes(device, report);
  for (const [name, element] of Object.entries(device.elements)) {
    checkEnds(device, report, places, name, element);
    if (element.kind === 'source' && element.poweredBy !== undefined)
      checkElement(device, element.poweredBy, ['elements', name, 'poweredBy'], report);
    if (element.kind === 'breaker' && element.residual)
      checkResidual(device, element.residual.neutral, name, report);
  }
  checkMechanism(device, report);
  for (const { path, rule } of rulesOf(device)) logicProblems(device, rule, path, report);
  checkParts(device, report);
  checkLinks(device, report);
  checkOpenings(device, report);
  checkEarth(device, report);
  checkMains(device, report);
  return report.problems;
}

/** Reports an RCBO whose neutral is not declared, or is no link through it. */
function checkResidual({ elements }: Device, neutral: string, name: string, report: Report): void {
  const links = Object.keys(elements).filter((other) => elements[other]!.kind === 'link');
  if (links.includes(neutral)) return;
  const found = Object.hasOwn(elements, neutral) ? elements[neutral]!.kind : undefined;
  const message = found
    ? `“${neutral}” is a ${found}; the neutral passes an RCBO as a link`
    : `this device has no element “${neutral}”`;
  const at = ['elements', name, 'residual', 'neutral'];
  report.value('element-undeclared', at, message, among(neutral, links));
}

function checkNodes({ nodes, terminals }: Device, report: Report): void {
  nodes.forEach((node, i) => {
    if (Object.hasOwn(terminals, node)) {
      const message = `“${node}” is a terminal already; a node needs a name of its own`;
      report.value('node-name-taken', ['nodes', i], message, { found: node });
    } else if (nodes.indexOf(node) !== i) {
      const message = `node “${node}” is declared twice`;
      report.value('node-name-taken', ['nodes', i], message, { found: node });
    }
  });
}

function checkEnds(
  { terminals, nodes }: Device,
  report: Report,
  places: Places,
  name: string,
  element: Element,
): void {
  const declared = [...Object.keys(terminals), ...nodes];
  const paths: readonly Path[] =
    element.kind === 'mains'
      ? [['line'], ['neutral'], ['earth']]
      : [
          ['between', 0],
          ['between', 1],
        ];
  endsOf(element).forEach((end, i) => {
    if (declared.includes(end)) return;
    const path = ['elements', name, ...paths[i]!];
    const message = `“${end}” is neither a terminal nor a node of this device`;
    report.value(
      'end-undeclared',
      places.has(path) ? path : ['elements', name],
      message,
      among(end, declared),
    );
  });
}

/** A part is played by one terminal, and a service asked for by one condition. */
function checkParts({ terminals, conditions }: Device, report: Report): void {
  const players = new Map<string, string>();
  for (const [name, { does }] of Object.entries(terminals)) {
    does.forEach((part, i) => {
      const first = players.get(part);
      players.set(part, first ?? name);
      if (first === undefined) return;
      const message = `“${first}” plays the part “${part}” already; a part has one terminal`;
      report.value('part-twice', ['terminals', name, 'does', i], message, { found: part });
    });
  }
  const askers = new Map<string, string>();
  for (const [name, { wants }] of Object.entries(conditions)) {
    if (wants === undefined) continue;
    const first = askers.get(wants);
    askers.set(wants, first ?? name);
    if (first === undefined) continue;
    const message = `“${first}” asks for ${wants} already; a service has one condition`;
    report.value('wants-twice', ['conditions', name, 'wants'], message, { found: wants });
  }
}

function checkLinks({ links, terminals }: Device, report: Report): void {
  const declared = Object.keys(terminals);
  links.forEach(({ between }, i) => {
    between.forEach((end, j) => {
      if (declared.includes(end)) return;
      const message = `“${end}” is no terminal of this device; a wire link lies between two`;
      report.value('end-undeclared', ['links', i, 'between', j], message, among(end, declared));
    });
  });
}

function checkMechanism({ mechanism }: Device, report: Report): void {
  if (!mechanism) return;
  const { positions, rest, moves } = mechanism;
  const check = (position: string, path: Path) => {
    if (positions.includes(position)) return;
    const message = `“${position}” is no position of this mechanism`;
    report.value('position-undeclared', path, message, among(position, positions));
  };
  check(rest, ['mechanism', 'rest']);
  moves.forEach(({ from, to }, i) => {
    check(from, ['mechanism', 'moves', i, 'from']);
    check(to, ['mechanism', 'moves', i, 'to']);
  });
}

/** Every rule of a device, with its path. */
function rulesOf(device: Device): { path: Path; rule: Logic }[] {
  const contacts = Object.entries(device.elements).flatMap(([name, element]) =>
    element.kind === 'contact'
      ? [{ path: ['elements', name, 'closed'], rule: element.closed }]
      : [],
  );
  const outcomes = Object.entries(device.outcomes).map(([name, { when }]) => ({
    path: ['outcomes', name, 'when'],
    rule: when,
  }));
  const moves = (device.mechanism?.moves ?? []).map(({ when }, i) => ({
    path: ['mechanism', 'moves', i, 'when'],
    rule: when,
  }));
  return [...contacts, ...outcomes, ...moves];
}

function checkEarth({ protection, terminals }: Device, report: Report): void {
  if (protection !== 'class I') return;
  if (Object.values(terminals).some(({ carries }) => carries === 'earth')) return;
  const message = 'class I equipment has an earth terminal; none here carries earth';
  report.value('earth-terminal-missing', ['protection'], message, { found: protection });
}

function checkMains({ family, elements }: Device, report: Report): void {
  const mains = Object.keys(elements).filter((name) => elements[name]!.kind === 'mains');
  if (family === 'supply' && mains.length !== 1) {
    const message = `a supply holds one element of kind mains; this one holds ${mains.length}`;
    report.value('mains-misplaced', ['family'], message, { found: family });
  }
  if (family === 'supply') return;
  for (const name of mains) {
    const message = `only a supply holds mains; this device is of the family ${family}`;
    report.value('mains-misplaced', ['elements', name, 'kind'], message, { found: 'mains' });
  }
}
