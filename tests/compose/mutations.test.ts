import { describe, expect, it } from 'vitest';
import type { System } from '../../schemas/index.ts';
import { buildNetwork, simulate } from '../../src/circuit/index.ts';
import { type Catalogue, compose, Refusal, type Specification } from '../../src/compose/index.ts';
import { moduleProblems } from '../../src/entries/module-references.ts';
import { catalogue, entries } from './catalogue.ts';
import { breaches, contentProblems } from './judged.ts';
import { WRONG_MODULES, type WrongModule } from './mutations.ts';
import { leadColours, netsOf } from './nets.ts';
import { heldTo } from './refusals.ts';
import { SPECIFICATIONS } from './specifications.ts';
import { againstTable } from './tried.ts';

/** Beside the shipped systems, what uses the modules that none of them has. */
const FURTHER: Readonly<Record<string, Specification>> = {
  frost: {
    heat: 'system-boiler',
    heating: [{ controls: ['room-stat-wired'], valve: 'two-port-valve' }],
    additions: [{ module: 'frost-pair', variant: 'fed from the live' }],
  },
  relay: {
    heat: 'system-boiler-volt-free',
    heating: [{ controls: ['room-stat-wired'], valve: 'two-port-valve' }],
    additions: ['interface-relay'],
  },
  underfloor: {
    heat: 'system-boiler',
    heating: [{ controls: ['room-stat-mains'], valve: 'underfloor-manifold' }],
  },
};

/** Whether a composed system joins other terminals, or has leads of other colours, than the written. */
function unlike(composed: System, written: System, from: Catalogue): boolean {
  const ours = leadColours(composed);
  return (
    netsOf(composed, from).join() !== netsOf(written, from).join() ||
    [...leadColours(written)].some(([terminal, colour]) => ours.get(terminal) !== colour)
  );
}

/** What notices a wrong module, in the systems that have it. */
function noticedBy({ module, edit }: WrongModule): string[] {
  const wrong = structuredClone(catalogue().modules.get(module)!);
  edit(wrong);
  const { devices } = catalogue();
  const changed = { devices, modules: new Map([...catalogue().modules, [module, wrong]]) };
  const noticed = new Set<string>();
  const { places } = entries().modules.get(module)!;
  const modules = new Set(catalogue().modules.keys());
  const known = { devices, ids: new Set(devices.keys()), modules };
  if (moduleProblems(wrong, places, known).length > 0) noticed.add('the check of the entry');
  for (const [id, specification] of Object.entries({ ...SPECIFICATIONS, ...FURTHER })) {
    if (!JSON.stringify(specification).includes(`"${module}"`)) continue;
    try {
      const composed = compose(specification, changed);
      const written = entries().systems.get(id)?.data;
      const differs = written && unlike(composed.system, written, changed);
      if (differs) noticed.add('the shipped system');
      const problems = contentProblems(composed);
      if (problems.length > 0) noticed.add('the checks of a system');
      const simulation = simulate(buildNetwork(id, composed.system, devices));
      for (const standard of breaches(simulation)) noticed.add(`the standard ${standard}`);
      if (againstTable(composed).refused !== undefined) noticed.add('the demand table');
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      noticed.add('the composer');
    }
  }
  return [...noticed].toSorted();
}

describe('a module that is wrong is noticed', () => {
  const all = WRONG_MODULES.map((wrong) => ({ ...wrong, noticed: noticedBy(wrong) }));

  it('of at least twenty', () => {
    expect(all.length).toBeGreaterThanOrEqual(20);
  });

  it.each(all)('$name', ({ noticed }) => {
    expect(noticed).not.toEqual([]);
  });

  it('each by what the list says', () => {
    const rows = all.map(
      ({ name, module, noticed }) => `| ${name} | ${module} | ${noticed.join('; ')} |`,
    );
    heldTo(
      'mutations.md',
      `${[
        '# What notices a module that is wrong',
        '',
        'Made by `mutations.test.ts`; `UPDATE_TABLES=1 npm run unit -- mutations` writes it anew.',
        '',
        '| wrong | module | noticed by |',
        '| --- | --- | --- |',
        ...rows,
      ].join('\n')}\n`,
    );
  });
});
