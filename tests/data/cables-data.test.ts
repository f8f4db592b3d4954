import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { CablesData, cablesData } from '../../src/data/index.ts';
import { EXTERNAL_LOOP_OHMS, VOLTAGE_FACTOR_MIN } from '../../src/published/index.ts';
import { shippedSystems } from '../support/shipped.ts';

describe.each(shippedSystems().map((s) => [s.id, s] as const))('cable data of %s', (_, system) => {
  const data = CablesData.parse(JSON.parse(JSON.stringify(cablesData(system.cables))));

  it('holds every cable and every core of the wiring', () => {
    expect(data.cables.map(({ cable }) => cable)).toEqual(
      system.wiring.runs.map(({ cable }) => cable),
    );
    expect(data.cables.flatMap(({ cores }) => cores.map(({ id }) => id)).toSorted()).toEqual(
      system.wiring.runs.flatMap(({ rows }) => rows.map(({ id }) => id)).toSorted(),
    );
  });

  it('names the source of every published value', () => {
    for (const { capacity, drop, source } of data.cables) {
      expect(capacity === null || source !== null).toBe(true);
      expect(drop === null || source !== null).toBe(true);
    }
    for (const { most, source } of data.faults) expect(most === null || source !== null).toBe(true);
    const cited = [...Object.values(data.sources), ...data.fuses.map(({ source }) => source)];
    for (const { cite } of cited) expect(cite.length).toBeGreaterThan(5);
  });

  it('lets another tool recompute its drops and fault currents', () => {
    for (const { amps, drop, length, size, kind } of data.cables) {
      // mV/A/m: BS 7671 Tables 4F3B and 4D5.
      const flex: Record<number, number> = { 0.5: 93, 0.75: 62, 1: 46, 1.5: 32, 2.5: 19 };
      const flat: Record<number, number> = { 1: 44, 1.5: 29, 2.5: 18, 4: 11 };
      const table = kind === 'twin and earth' || kind === 'single' ? flat : flex;
      expect(drop).toBeCloseTo((table[size]! * amps * length) / 1000, 7);
    }
    for (const { loop, amps } of data.faults) {
      expect(loop).toBeGreaterThanOrEqual(EXTERNAL_LOOP_OHMS['TN-C-S']);
      expect(amps * loop).toBeCloseTo(VOLTAGE_FACTOR_MIN * 230, 5);
    }
  });
});

it('its schema can be written as JSON Schema', () => {
  expect(z.toJSONSchema(CablesData)).toMatchObject({ type: 'object', additionalProperties: false });
});
