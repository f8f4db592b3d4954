import { mkdtempSync, readdirSync, rmSync, truncateSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { simulateAsFound } from '../../src/circuit/index.ts';
import { signaturesOf } from '../../src/diagnosis/index.ts';
import { compactSignatures, signaturesFrom } from '../../src/diagnosis/inference/index.ts';
import { roundOf } from '../../src/diagnosis/settled-states.ts';
import { keptResults, RESULT_KINDS, type Source } from '../../src/reference/results/index.ts';
import { testPairs } from '../../src/wiring/index.ts';
import { candidatesFor, studyReplacement } from '../../src/wiring/replacement/index.ts';
import { altered } from '../support/altered.ts';
import { shippedSystem } from '../support/shipped.ts';

const SMALL = 'combi-two-wire';
const small = shippedSystem(SMALL);
const { simulation } = small;
const pairs = testPairs(small.network);
const signatures = signaturesOf(simulation, pairs);
/** What can be compared of a fault: its circuit is made when asked for. */
const plain = (value: unknown) => JSON.parse(JSON.stringify(value));

describe('what the faults of a system show', () => {
  it('is the same unpacked as simulated, though only said words were left out', () => {
    expect(plain(small.compact)).toEqual(plain(compactSignatures(simulation, signatures)));
    const unpacked = signaturesFrom(small.compact, simulation, pairs);
    expect(plain(unpacked)).toEqual(plain(signatures));
  });

  it('holds where every fault’s circuit comes to rest, as it settles by itself', () => {
    for (const { fault } of signatures.faults) {
      for (const [mode, { round }] of simulateAsFound(fault.circuit()).modes) {
        const settled = roundOf(small.compact.settled, fault.id, mode);
        expect(settled, `${fault.id} in ${mode}`).toEqual(
          round.map(({ conditions, ...state }) => expect.objectContaining(state)),
        );
      }
    }
  });

  it('of another system is refused', () => {
    const other = shippedSystem('combi-volt-free');
    expect(() => signaturesFrom(small.compact, other.simulation, testPairs(other.network))).toThrow(
      /not of combi-volt-free as it is now/,
    );
  });
});

describe('what replacements come to', () => {
  it('is the same as studied with every word and every device there', () => {
    const devices = new Map(
      [...shippedSystem(SMALL).network.items.values()].map((i) => [i.deviceId, i.device]),
    );
    for (const [item] of small.network.items) {
      const [own] = candidatesFor(small.network, item, devices);
      if (own === undefined) continue;
      const studied = studyReplacement(simulation, item, own, devices.get(own)!);
      const kept = small.replacements.find(({ plan }) => plan.item === item && plan.newId === own)!;
      const { changed, ...rest } = kept;
      const { changed: wanted, ...all } = studied;
      expect(rest).toEqual(all);
      expect(changed.network.branches).toEqual(wanted.network.branches);
    }
  });
});

describe('results kept from build to build', () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'results-'));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  const source: Source = small.sources.signatures;
  const results = (code = 'code') => keptResults(folder, () => code);

  it('are there for the same source and code alone', () => {
    const made = results().of('signatures', source);
    expect(made).toEqual(small.compact);
    expect(results().has('signatures', structuredClone(source))).toBe(true);
    expect(results().has('replacements', source)).toBe(false);
    expect(results('other code').has('signatures', source)).toBe(false);
    expect(results().has('signatures', { ...source, id: 'other' })).toBe(false);
  });

  it('are worked out anew, and so told, where a file is cut short', () => {
    const told = vi.spyOn(console, 'warn').mockImplementation(() => undefined);
    results().of('signatures', source);
    for (const file of readdirSync(folder)) truncateSync(join(folder, file), 100);
    expect(results().of('signatures', source)).toEqual(small.compact);
    expect(told).toHaveBeenCalledOnce();
    told.mockRestore();
  });

  const sourcesWith = (edit: Parameters<typeof altered>[1]) => {
    const { sources } = altered(SMALL, edit);
    return RESULT_KINDS.filter((kind) => {
      const was = JSON.stringify(small.sources[kind]);
      return JSON.stringify(sources[kind]) !== was;
    });
  };

  it('stay when words of the system change', () => {
    expect(
      sourcesWith((system) => {
        system.title = 'Other';
        system.summary = 'Other.';
        system.cautions.push('Mind it.');
        system.recognise.push('It hums.');
      }),
    ).toEqual([]);
  });

  it('are others when a core moves, a length, a rating, a mode, or a device’s contact', () => {
    const [cable] = Object.keys(small.entry.data.cables);
    const edits: Parameters<typeof altered>[1][] = [
      (system) => {
        const { cores } = system.cables[cable!]!;
        const [a, b] = Object.values(cores);
        [a!.ends[0], b!.ends[0]] = [b!.ends[0], a!.ends[0]];
      },
      (system) => {
        system.cables[cable!]!.length += 1;
      },
      (system) => {
        Object.values(system.modes)[1]!.minutes += 1;
      },
      (system, devices) => {
        const { device } = Object.values(system.items)[0]!;
        Object.values(devices.get(device)!.openings)[0]!.minutes += 1;
      },
    ];
    for (const edit of edits) expect(sourcesWith(edit)).toEqual(RESULT_KINDS);
  });

  it('of replacements alone are others with a device that is only offered', () => {
    const own = new Set(Object.values(small.entry.data.items).map(({ device }) => device));
    const offered = Object.keys(small.sources.replacements.devices).find((id) => !own.has(id))!;
    expect(
      sourcesWith((_, devices) => {
        Object.values(devices.get(offered)!.openings)[0]!.minutes += 1;
      }),
    ).toEqual(['replacements']);
  });
});
