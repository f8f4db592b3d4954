import { describe, expect, test } from 'vitest';
import { changedSequences } from '../../src/components/about/learned.ts';
import { systemDataFile } from '../../src/data/index.ts';
import { FAMILIES, type Family, HISTORIES, OUR_SHARES } from '../../src/diagnosis/index.ts';
import { solveSequence, walkTree } from '../../src/diagnosis/search/index.ts';
import { ANYTHING, isComplaint, problemOf } from '../../src/diagnosis/sequences/index.ts';
import { loadEntries } from '../../src/entries/index.ts';
import { DEFAULT_STRENGTH, FAMILY_IDS, learn } from '../../src/field/index.ts';
import { jobData, jobFiles } from '../../src/job/index.ts';
import { modelOf } from '../../src/job/job-data.ts';
import { type ComputedSystem, computeSystem } from '../../src/reference/compute.ts';
import { problemHash } from '../../src/reference/lock.ts';
import { keptResults } from '../../src/reference/results/index.ts';
import { keepingSolver } from '../../src/reference/solver.ts';
import { versionOf } from '../../src/reference/version.ts';
import { CONTENT, checkFirm, EXAMPLE, filesOf, said } from '../firm/memory.ts';
import { shippedSystem } from '../support/shipped.ts';

const ID = 'combi-two-wire';
const { entries } = loadEntries(CONTENT);
const devices = new Map([...entries.devices].map(([id, { data }]) => [id, data]));
const symptoms = new Map([...entries.symptoms].map(([id, { data }]) => [id, data]));
const results = keptResults();
/** States that a search may expand here: what is tested is true of any search. */
const LITTLE = 60;
const means = {
  symptoms,
  results,
  solve: (problem: Parameters<typeof solveSequence>[0]) => solveSequence(problem, LITTLE),
};
const plain = computeSystem(entries.systems.get(ID)!, devices, means);

const visits = (family: Family, count: number) =>
  Array.from({ length: count }, (_, i) => ({
    id: `visit-${String(i).padStart(5, '0')}`,
    on: '2026-05-01',
    system: ID,
    history: HISTORIES[0],
    family,
    minutes: null,
  }));
const has = new Set(
  [...plain.signatures.faults.map(({ fault }) => fault), ...plain.signatures.silent].map(
    ({ family }) => family,
  ),
);
const learnedWith = (counted: ReturnType<typeof visits>): ComputedSystem =>
  computeSystem(entries.systems.get(ID)!, devices, {
    ...means,
    learned: { ...learn(counted, DEFAULT_STRENGTH, () => has), before: () => plain },
  });

describe('without counts', () => {
  test('no file of a job and no open data say a word of it, and orders are as they ship', () => {
    const [, body] = [...jobFiles(plain)].find(([path]) => path === `${ID}.json`)!;
    expect(Object.keys(JSON.parse(body))).toEqual([
      'id',
      'system',
      'devices',
      'signatures',
      'orders',
    ]);
    const shipped = shippedSystem(ID);
    const hashes = (of: ComputedSystem) =>
      of.starts.map((start) => problemHash(problemOf(of.network, of.signatures, start).problem));
    expect(hashes(plain)).toEqual(hashes(shipped));
    expect(jobData(plain).families).toBeUndefined();
  });

  test('our own shares handed over by hand give the same bytes of open data', () => {
    // Whatever way the shares come, the same ones must come to the same: no rounding on the way.
    const none = learn([], DEFAULT_STRENGTH, () => has);
    expect(none.families).toEqual(OUR_SHARES);
    const by = computeSystem(entries.systems.get(ID)!, devices, {
      ...means,
      learned: { ...none, before: () => plain },
    });
    const bytes = (of: ComputedSystem) => {
      const data = JSON.parse(systemDataFile(of));
      for (const family of Object.values<{ source?: unknown }>(data.diagnosis.families))
        delete family.source;
      return JSON.stringify(data);
    };
    expect(bytes(by) === bytes(plain)).toBe(true);
  });

  test('a firm without the file, and one whose file counts nothing, are the same reference', () => {
    const { 'field/counts.json': counts, ...files } = filesOf(EXAMPLE);
    expect(counts).toBeDefined();
    const without = checkFirm(files);
    const empty = checkFirm({
      ...files,
      'field/counts.json': '{"proveline":"counts","version":1,"visits":[]}',
    });
    expect([without.firm!.visits, empty.firm!.visits]).toEqual([undefined, undefined]);
    expect(versionOf(empty.entries, empty.firm, '', '')).toBe(
      versionOf(without.entries, without.firm, '', ''),
    );
  });
});

describe('with counts', () => {
  const joints = learnedWith(visits('joint', 200));

  test('the example firm’s are read, and make another version', () => {
    const files = filesOf(EXAMPLE);
    const read = checkFirm(files);
    expect(said(read)).toEqual([]);
    expect(read.firm!.visits!.length).toBeGreaterThan(100);
    const { 'field/counts.json': _, ...rest } = files;
    const without = checkFirm(rest);
    expect(versionOf(read.entries, read.firm, '', '')).not.toBe(
      versionOf(without.entries, without.firm, '', ''),
    );
  });

  test('a damaged file is a problem with its cause, and nothing is counted', () => {
    const read = checkFirm({ ...filesOf(EXAMPLE), 'field/counts.json': '{"proveline":"counts"' });
    expect(said(read)).toEqual(['firm/field/counts.json:1 counts-unfit: it is not whole JSON']);
    expect(read.firm!.visits).toBeUndefined();
  });

  test('shares are as the posterior says, among what the system has', () => {
    // Of this system alone: (strength × prior among its own + count) over (strength × their sum + visits).
    const percent = (family: Family) => FAMILIES[family].percent[0];
    const total = FAMILY_IDS.reduce((sum, family) => sum + percent(family), 0);
    const own = [...has].reduce((sum, family) => sum + percent(family) / total, 0);
    const due =
      ((DEFAULT_STRENGTH * percent('joint')) / total + 200) / (DEFAULT_STRENGTH * own + 200);
    const faults = [
      ...joints.signatures.faults.map(({ fault }) => fault),
      ...joints.signatures.silent,
    ];
    const stated = faults
      .filter(({ family }) => family === 'joint')
      .reduce((sum, { shares }) => sum + shares[HISTORIES[0]], 0);
    expect(stated).toBeCloseTo(due, 9);
  });

  test('a job on the phone starts from them', () => {
    const priorOf = (of: ComputedSystem) =>
      modelOf(JSON.parse(JSON.stringify(jobData(of)))).singles.reduce(
        (sum, { faults: [fault], prior }) => sum + (fault?.family === 'joint' ? prior : 0),
        0,
      );
    const shareOf = (of: ComputedSystem) =>
      of.signatures.faults
        .concat(of.signatures.silent.map((fault) => ({ fault, answers: [] })))
        .reduce((sum, { fault }) => sum + (fault.family === 'joint' ? fault.weight : 0), 0);
    expect(priorOf(joints) / priorOf(plain)).toBeCloseTo(shareOf(joints) / shareOf(plain), 9);
    expect(priorOf(joints)).toBeGreaterThan(5 * priorOf(plain));
  });

  test('open data say where the shares come from', () => {
    const { diagnosis } = JSON.parse(systemDataFile(joints));
    expect(diagnosis.families.joint.source.cite).toBe(
      'this firm, 200 visits, over common practice',
    );
    expect(diagnosis.families.joint.percent[HISTORIES[1]]).toBe(FAMILIES.joint.percent[1]);
  });

  test('no order is slower than the reference’s own would be', () => {
    for (const [i, sequence] of joints.sequences.entries()) {
      if (!isComplaint(sequence)) continue;
      const old = problemOf(plain.network, plain.signatures, plain.starts[i]!).problem;
      const { problem } = problemOf(joints.network, joints.signatures, joints.starts[i]!);
      const along = walkTree(problem, means.solve(old).tree).minutes;
      expect([sequence.id, sequence.minutes <= along + 1e-9]).toEqual([sequence.id, true]);
    }
  });
});

test('the page of figures tells each complaint once, with the act it begins with before and now', () => {
  const joints = learnedWith(visits('joint', 200));
  const solver = keepingSolver({ folder: null, budget: LITTLE });
  const told = changedSequences(plain, joints, solver);
  const complaints = [...joints.sequences, ...joints.sequencesSinceWork].filter(
    ({ id }) => id !== ANYTHING,
  );
  expect(told.map(({ sequence }) => sequence)).toEqual(complaints);
  // With two hundred joints met and nothing else, some complaint begins with another act.
  expect(told.some(({ isOther }) => isOther)).toBe(true);
  for (const { minutes } of told.filter(({ sequence }) => sequence.history === HISTORIES[0]))
    expect(minutes.after).toBeLessThanOrEqual(minutes.before + 1e-9);
  expect(changedSequences(plain, plain, solver).some(({ isOther }) => isOther)).toBe(false);
});
