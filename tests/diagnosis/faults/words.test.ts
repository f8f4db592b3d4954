import { expect, test } from 'vitest';
import { simulate } from '../../../src/circuit/index.ts';
import { faultsOf } from '../../../src/diagnosis/faults/index.ts';
import { actsOf, actWords } from '../../../src/diagnosis/tests/index.ts';
import { shippedNetworks } from '../../support/content.ts';

const networks = shippedNetworks();
const faultsIn = (id: string) => faultsOf(simulate(networks.get(id)!));
const named = (id: string, fault: string) => faultsIn(id).find((one) => one.id === fault)!;

// What an orange or a boiler's switched live lacks is its call: neither is a permanent live.
test('only a core that carries a permanent live is said to need one', () => {
  const needing = faultsIn('heat-only-two-port')
    .filter(({ title }) => title.includes('needs a permanent live'))
    .map(({ title }) => title.replace(/ in .*/, ''));
  expect([...new Set(needing)].toSorted()).toEqual([
    'Brown core of the boiler cable W3',
    'Brown core of the fused spur supply W1',
    'Brown core of the programmer cable W4',
    'Brown core of the wiring centre supply W2',
    'Grey core of the heating valve lead W8',
    'Grey core of the hot-water valve lead W9',
  ]);
});

// Approved Document G3: without the qualification the safety devices are looked at and read.
test('nothing is tugged at the stat or the cut-out of an unvented cylinder', () => {
  const network = networks.get('heat-only-two-port')!;
  const looks = actsOf(network).filter(({ act }) => act === 'inside');
  const without = looks.flatMap((one) => {
    const { title, how, caution } = actWords(network, one);
    if (/\btug/.test(`${title} ${how}`)) return [];
    expect(caution).toContain('qualified for unvented hot water');
    return one.place.replace(/\/.*/, '');
  });
  expect(without.toSorted()).toEqual(['B2', 'F2']);
});

test('a part in the hand calls only where it needs no mains to', () => {
  const inHand = (id: string, item: string) =>
    actsOf(networks.get(id)!)
      .filter(({ act, place }) => act === 'part' && place.startsWith(`${item}/`))
      .map((one) => actWords(networks.get(id)!, one).how.replace(/, read across.*/, ''));
  const off = 'With the room stat B1 off its backplate, in your hand';
  expect(inHand('combi-two-wire', 'B1')).toEqual([`${off} and calling`, `${off} and turned down`]);
  const fed = inHand('combi-three-wire', 'B1');
  expect(fed.length).toBeGreaterThan(0);
  expect([...new Set(fed)]).toEqual([`${off}, turned off or down before the supply went off`]);
});

test('a core that ends there is remade at the wiring centre, its other end by who is qualified', () => {
  const theirs = /Its end at the overheat cut-out F2 is for a person qualified/;
  expect(named('heat-only-two-port', 'W7.BN:broken').repair).toMatch(theirs);
  expect(named('heat-only-two-port', 'W5.BN:broken').repair).not.toContain('unvented');
});

test('what is put right is proved by what it does, and only a radio keeps a pairing', () => {
  const [flat] = faultsIn('combi-two-wire').filter(({ class: kind }) => kind === 'flatCells');
  expect(flat!.repair).not.toContain('pairing');
  const [radio] = faultsIn('combi-wireless').filter(({ class: kind }) => kind === 'flatCells');
  expect(radio!.repair).toContain('pairing');
  const settings = faultsIn('combi-two-wire').filter(({ origin }) => origin === 'setting');
  const boiler = settings.filter(({ id }) => id.startsWith('E1:'));
  expect(boiler.length).toBeGreaterThan(2);
  for (const { proving } of boiler) expect(proving).toContain('fires');
});
