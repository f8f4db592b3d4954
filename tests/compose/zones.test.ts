import { describe, expect, it } from 'vitest';
import { compose, type Specification } from '../../src/compose/index.ts';
import { catalogue } from './catalogue.ts';

const systemOf = (specification: Specification) => compose(specification, catalogue()).system;

const ZONE = { controls: ['room-stat-mains'], valve: 'two-port-valve' };
const ZONES = { heat: 'combi-switched-live', heating: [ZONE, ZONE] };

describe('two circuits of heating', () => {
  const { modes, items } = systemOf(ZONES);

  it('are told apart in every mode, and no hot water is named where there is none', () => {
    expect(
      [modes['heating-1'], modes['heating-2'], modes.heating].map((mode) => mode!.title),
    ).toEqual(['Heating 1 only', 'Heating 2 only', 'Heating 1 and heating 2']);
  });

  it('say at which control each is turned up or down', () => {
    expect(modes['heating-1']!.bring).toMatch(
      /^B1: turn the .* a call\. B2: turn the .* no call\. /,
    );
    expect(modes['heating-2']!.bring).toMatch(/^B1: turn .* no call\. B2: turn .* a call\. /);
    expect(modes.heating!.bring).toMatch(/^B1 and B2: turn the room stat well above /);
    expect(modes.standby!.bring).toMatch(/^B1 and B2: turn the room stat well below /);
  });

  it('give their valves and controls names of their own', () => {
    expect(items).toMatchObject({
      B1: { title: 'Room stat, heating 1' },
      B2: { title: 'Room stat, heating 2' },
      Q2: { title: 'Heating 1 valve' },
      Q3: { title: 'Heating 2 valve' },
    });
  });

  it('have their stats in rooms of their own, and no valve at a cylinder that is not there', () => {
    expect(items).toMatchObject({
      B1: { place: 'Hall or living room' },
      B2: { place: 'Another floor, or another room' },
      Q2: { place: 'Beside the boiler' },
      Q3: { place: 'Beside the boiler' },
    });
    expect(systemOf(ZONES).cautions.join(' ')).not.toMatch(/cylinder/);
  });
});

describe('one circuit of heating', () => {
  const { modes, items } = systemOf({
    heat: 'system-boiler',
    time: 'programmer',
    heating: [{ controls: ['room-stat-wired'], valve: 'two-port-valve' }],
    hotWater: { controls: ['cylinder-stat-single'], valve: 'two-port-valve' },
  });

  it('and hot water are called as they are, their controls by their kind', () => {
    expect([modes.heating, modes['hot-water'], modes.both].map((mode) => mode!.title)).toEqual([
      'Heating only',
      'Hot water only',
      'Heating and hot water',
    ]);
    expect(modes.heating!.bring).not.toContain('B1');
  });

  // As in the systems written by hand.
  it('have valves that are named by what they serve', () => {
    expect(items).toMatchObject({
      Q2: { title: 'Heating valve' },
      Q3: { title: 'Hot-water valve' },
    });
    expect(items.B1).not.toHaveProperty('title');
    expect(items.Q2!.place).toBe('Beside the cylinder or the boiler');
  });
});
