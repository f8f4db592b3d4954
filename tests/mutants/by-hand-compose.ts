import type { HandMade } from './by-hand.ts';

const WITNESS = ['tests/compose/witness.test.ts'];
const WIRED = ['tests/compose/wired.test.ts'];

/** Rules of the composer, each broken once: a system it then makes would be wrong or kill. */
export const COMPOSE_BY_HAND: readonly HandMade[] = [
  {
    name: 'an overflow switch leaves the boiler on the call before it',
    file: 'src/compose/insertions.ts',
    was: 'nets.move(call, consumers, past);',
    becomes: '',
    tests: WITNESS,
  },
  {
    name: 'the live to an overflow switch ends in the box',
    file: 'src/compose/insertions.ts',
    was: 'nets.tie(own, live);',
    becomes: '',
    tests: WITNESS,
  },
  {
    name: 'a control that sends its own live stands behind a clock',
    file: 'src/compose/chains.ts',
    was: "if (own && !this.#first) throw new Refusal('its own live stands first', placed.id);",
    becomes: '',
    tests: ['tests/compose/refused.test.ts'],
  },
  {
    name: 'a control’s own live is joined to what the boiler sends out',
    file: 'src/compose/chains.ts',
    was: 'if (!own) this.#nets.join(this.at, refer(placed, from));',
    becomes: 'this.#nets.join(this.at, refer(placed, from));',
    tests: ['tests/compose/hazards.test.ts'],
  },
  {
    name: 'the cut-out is left out of the hot-water live',
    file: 'src/compose/chains.ts',
    was: 'if (limit) chain.through(',
    becomes: "if (limit && name === '') chain.through(",
    tests: WITNESS,
  },
  {
    name: 'a pump without an output of the boiler is fed by nothing',
    file: 'src/compose/chains.ts',
    was: "if (pump && !output) nets.unite('boiler call', 'pump live');",
    becomes: '',
    tests: ['tests/compose/pairs.test.ts'],
  },
  {
    name: 'a full reservoir leaves the boiler its supply in the demand table',
    file: 'src/compose/demand.ts',
    was: "fed: isOn && !open('supply'),",
    becomes: 'fed: isOn,',
    tests: WITNESS,
  },
  {
    name: 'a terminal lies on two nets that are not one',
    file: 'src/compose/nets.ts',
    was: 'if (before) this.unite(before[0], net);',
    becomes: '',
    tests: ['tests/compose/mutations.test.ts'],
  },
  {
    name: 'extra-low voltage shares a cable with mains',
    file: 'src/compose/cables.ts',
    was: "if (this.#lowNets.has(net)) return need('call', 'extra-low');",
    becomes: '',
    tests: WIRED,
  },
  {
    name: 'an earth is brought to what has extra-low voltage alone',
    file: 'src/compose/layout.ts',
    was: "return low && protection !== 'class I' ? others : members;",
    becomes: 'return members;',
    tests: WIRED,
  },
];
