import { describe, expect, it } from 'vitest';
import { simulate } from '../../src/circuit/index.ts';
import { compose, type Specification } from '../../src/compose/index.ts';
import { judge } from '../../src/standards/index.ts';
import { catalogue, networkOf, standards } from './catalogue.ts';

/** What the standards find in a composed system, as `standard: message`. */
function found(specification: Specification): string[] {
  const simulation = simulate(networkOf('composed', compose(specification, catalogue())));
  return judge(standards(), simulation, '2026-12-01').flatMap(({ standard, findings }) =>
    findings.map(({ message }) => `${standard}: ${message}`),
  );
}

const CONDENSATE = { module: 'condensate-pump', variant: 'in supply' };
const fromLiveToStat = { module: 'frost-pair', variant: 'fed from the live to stat' };

/**
 * Hazards that ordinary parts make together, none of them wrong alone; each was met while every
 * combination was tried. A standard must refuse each by the circuit, whatever composed it.
 */
describe('parts that are harmless alone', () => {
  it('light a boiler with its reservoir full: a control’s own live comes back through a frost pair', () => {
    const specification: Specification = {
      heat: 'combi-mains-call',
      heating: [{ controls: ['room-stat-mains'] }],
      additions: [CONDENSATE, fromLiveToStat],
    };
    expect(found(specification)).toEqual([
      'overflow-stops-the-boiler: “Boiler firing” at E1 with the overflow switch of M1 open, when B1.calling, B2.frost and B3.pipe cold',
    ]);
    // Without the frost pair, or with it on the live, nothing comes back.
    expect(found({ ...specification, additions: [CONDENSATE] })).toEqual([]);
  });

  it('light it so from any control that sends its own live', () => {
    const [first, ...more] = found({
      heat: 'combi-mains-call',
      heating: [{ controls: ['receiver-mains-switched'] }],
      additions: [CONDENSATE, fromLiveToStat],
    });
    expect(first).toMatch(/^overflow-stops-the-boiler: .* when K1\.calling.*B1\.frost/);
    expect(more).toEqual([]);
  });

  it('light it past a switch in the call: a hot tap asks another way', () => {
    expect(
      found({
        heat: 'combi-mains-call',
        heating: [{ controls: ['room-stat-two-wire'] }],
        additions: [{ module: 'condensate-pump', variant: 'in call' }],
      }),
    ).toEqual([
      'overflow-stops-the-boiler: “Boiler firing” at E1 with the overflow switch of M1 open, in “Hot tap open”',
    ]);
  });

  it('leave the boiler firing where the overflow switch only tells', () => {
    const standards = found({
      heat: 'system-boiler',
      heating: [{ controls: ['room-stat-wired'] }],
      additions: [{ module: 'condensate-pump', variant: 'alarm only' }],
    }).map((one) => one.slice(0, one.indexOf(':')));
    expect(standards).toEqual(['five-cores-to-a-condensate-pump', 'overflow-stops-the-boiler']);
  });

  it('light it past a switch in the supply: a frost pair’s live comes back through a closed stat', () => {
    expect(
      found({
        heat: 'combi-mains-call',
        heating: [{ controls: ['room-stat-two-wire'] }],
        additions: [CONDENSATE, { module: 'frost-pair', variant: 'fed from the live' }],
      }),
    ).toEqual([
      expect.stringMatching(
        /^overflow-stops-the-boiler: .* when B1\.calling, B2\.frost and B3\.pipe cold$/,
      ),
    ]);
  });

  it('bring mains to a boiler’s pair: frost stats that a valve’s live comes back through', () => {
    const messages = found({
      heat: 'system-boiler-volt-free',
      heating: [{ controls: ['room-stat-two-wire'], valve: 'two-port-valve' }],
      additions: [fromLiveToStat],
    });
    expect(
      messages.filter((one) => /^no-mains-on-extra-low-voltage: call 1 at E1/.test(one)),
    ).toEqual([
      expect.stringMatching(/stands at 2\d\d V when B1\.calling, B2\.frost and B3\.pipe cold$/),
    ]);
  });

  // Approved Document G3: the cut-out of an indirect cylinder shuts a valve on its primary coil. A
  // three-port valve at rest, or in the middle, is open to the coil whatever the cut-out does.
  it.each(['mid-position-valve', 'diverter-valve'])(
    'go on heating an unvented cylinder past its cut-out, which shuts no %s',
    (valve) => {
      const shared: Specification = {
        heat: 'heat-only-overrun',
        pump: 'circulating-pump',
        time: 'programmer',
        valve,
        heating: [{ controls: ['room-stat-wired'] }],
        hotWater: { controls: ['cylinder-stat'], limit: 'overheat-cut-out' },
      };
      expect(found(shared)).toEqual([
        expect.stringMatching(
          /^cut-out-shuts-the-valve: nothing is seen open that the cut-out contact of F\d could end$/,
        ),
      ]);
      const { limit: _, ...without } = shared.hotWater!;
      expect(found({ ...shared, hotWater: without })).toEqual([]);
    },
  );
});
