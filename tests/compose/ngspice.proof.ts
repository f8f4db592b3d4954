import { beforeAll, describe, expect, it } from 'vitest';
import { netlist, potential, simulate } from '../../src/circuit/index.ts';
import { compose } from '../../src/compose/index.ts';
import { spiceAt, worst } from '../support/beside-ngspice.ts';
import { ngspice, startNgspice, withBranchCurrents } from '../support/ngspice.ts';
import { SEED } from '../support/property.ts';
import { random } from '../support/random.ts';
import { catalogue, networkOf } from './catalogue.ts';
import { combinations, nameOf, specificationOf } from './combinations.ts';
import { tried } from './tried.ts';

/** Sound systems compared with the independent simulator. */
const HOW_MANY = 40;

beforeAll(() => startNgspice());

const from = random(SEED);
const all = combinations();
const sound: { name: string; composed: ReturnType<typeof compose> }[] = [];
while (sound.length < HOW_MANY) {
  const one = all[from.below(all.length)]!;
  if (tried(one).refused !== undefined) continue;
  sound.push({ name: nameOf(one), composed: compose(specificationOf(one), catalogue()) });
}

describe(`sound compositions drawn from seed ${SEED}`, () => {
  it.each(sound)('$name agrees with ngspice at every node of every mode', async ({ composed }) => {
    const network = networkOf('composed', composed);
    for (const settled of simulate(network).modes.values())
      for (const [kind, analysis] of [
        ['ac', 'ac'],
        ['dc', 'op'],
      ] as const) {
        const voltages = await ngspice(
          withBranchCurrents(netlist(network, settled.state, analysis)),
        );
        const { share, node } = worst(
          network,
          (i) => potential(settled.solution[kind], i),
          (i) => spiceAt(voltages, network, i),
        );
        expect(share, `${settled.mode}, ${kind}, worst at ${node}`).toBeLessThan(1);
      }
  });
});
