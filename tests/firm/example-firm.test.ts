import { describe, expect, test } from 'vitest';
import { compareReferences } from '../../src/changes/index.ts';
import { buildNetwork, simulate } from '../../src/circuit/index.ts';
import { choicesOf, facetsFor } from '../../src/components/recognise/facets.ts';
import { testsOf } from '../../src/diagnosis/tests/index.ts';
import { frontmatterOf } from '../../src/entries/index.ts';
import { readReports } from '../../src/field/index.ts';
import { checkReference, recordFrom } from '../../src/firm/index.ts';
import { factsIn, readReleases } from '../../src/releases/index.ts';
import { testPairs } from '../../src/wiring/index.ts';
import { CONTENT, checkFirm, EXAMPLE, filesOf, ROOT, said, withFirm } from './memory.ts';

const example = filesOf(EXAMPLE);

describe('the example firm', () => {
  const checked = checkFirm(example);

  test('is in order, and one of its reviews is overdue', () => {
    expect(said(checked)).toEqual([]);
    expect(checked.warnings.map(({ code, file }) => `${code} ${file}`)).toEqual([
      'review-overdue firm/content/procedures/handing-over.mdx',
    ]);
  });

  test('adds, replaces, extends, hides and names', () => {
    const { systems, devices, procedures, standards, glossary } = checked.entries;
    expect(systems.get('combi-joint-box')?.origin).toBe('added');
    expect(systems.get('combi-two-wire')?.data.aliases).toContain('Ottermere drawing 1');
    expect(systems.has('combi-volt-free')).toBe(false);
    expect(devices.has('combi-boiler-volt-free-call')).toBe(false);
    expect(glossary.has('borrowed-neutral')).toBe(false);
    const control = devices.get('room-control-two-wire')!;
    expect(control.origin).toBe('replaced');
    expect(control.data.terminals).toHaveProperty('COM');
    expect(control.body).not.toContain('Two terminals, and no supply');
    const terminals = devices.get('combi-boiler-mains-call')!.data.terminals;
    expect(terminals['call feed']?.aliases).toContain('OH 5');
    const handing = procedures.get('handing-over')!;
    expect(handing.origin).toBe('extended');
    expect(handing.data.steps.length).toBeGreaterThan(11);
    expect(handing.body).toMatch(/If it cannot be left working[\s\S]*At Ottermere/);
    expect(standards.get('volt-drop')?.data.rule).toMatchObject({ most: 3 });
    expect(standards.get('controls-on-the-van')?.origin).toBe('added');
  });

  test('fails on its overdue review once its settings say so, and on no one else’s', () => {
    const settings = example['firm.yaml']!.replace('overdue: warn', 'overdue: fail');
    const strict = checkFirm({ ...example, 'firm.yaml': settings }, undefined, '2026-11-25');
    expect(said(strict).map((line) => line.split(':')[0])).toEqual([
      'firm/content/procedures/handing-over.mdx',
    ]);
    const later = checkFirm({ ...example, 'firm.yaml': settings }, undefined, '2030-01-01');
    expect(later.problems.filter(({ file }) => !file.startsWith('firm/'))).toEqual([]);
  });

  test('is told of an entry that nobody reviewed', () => {
    const file = 'content/glossary/heating-switch.mdx';
    const text = example[file]!.replace(/^review:.*\n/m, '');
    const codes = checkFirm({ ...example, [file]: text }).warnings.map(({ code }) => code);
    expect(codes).toContain('review-missing');
  });

  test('has features of its own, by which its readers choose', () => {
    const systems = [...checked.entries.systems.values()].map(({ data }) => data);
    const own = facetsFor(systems, checked.firm!.settings.features).filter(({ name }) =>
      name.startsWith('under-'),
    );
    expect(
      own.map(({ question, choices }) => [question, ...choices.map((one) => one.label)]),
    ).toEqual([['Between boiler and room stat', 'Joint box']]);
    const answering = systems.filter((one) => choicesOf(one).includes('feature-joint-box'));
    expect(answering.map(({ title }) => title)).toEqual([
      'Combi boiler, two-wire control through a joint box',
    ]);
  });

  test('shows its name, logo, contact and cautions', () => {
    const { settings, logo } = checked.firm!;
    expect([settings.name, settings.shortName]).toEqual(['Ottermere Heating', 'Ottermere']);
    expect(Object.keys(settings.contact)).toEqual(['phone', 'email', 'hours']);
    expect([logo?.type, settings.cautions.length]).toEqual(['image/svg+xml', 2]);
  });

  test('excepts a system of the reference from a rule of its own, for a reason and a time', () => {
    const stateOn = (today: string) =>
      checkFirm(example, undefined, today)
        .judgements.get('system-boiler-internal-pump')!
        .find(({ standard }) => standard === 'controls-on-the-van')!.state;
    expect([stateOn('2026-11-25'), stateOn('2027-05-25')]).toEqual(['excepted', 'breached']);
  });

  test('says how long its people take, and what they do not do', () => {
    const { systems, devices } = checked.entries;
    const definitions = new Map([...devices].map(([id, { data }]) => [id, data]));
    const system = systems.get('combi-joint-box')!.data;
    const simulation = simulate(buildNetwork('combi-joint-box', system, definitions));
    const at = (item: string) =>
      testsOf(simulation, testPairs(simulation.network)).flatMap((one) =>
        'pair' in one && one.pair.from.startsWith(`${item}.`) ? [one.kind] : [],
      );
    expect([...new Set(at('E1'))].toSorted()).toEqual(['dead', 'live']);
    expect([...new Set(at('B1'))]).toEqual(['dead']);
    expect(devices.get('room-control-two-wire')!.data.openings.backplate!.minutes).toBe(2);
  });

  test('has each entry reviewed by a second person, with what was read', () => {
    const own = Object.entries(example).filter(([path]) => /^content\/.*\.mdx$/.test(path));
    expect(own.length).toBe(8);
    for (const [path, text] of own) {
      const { author, review } = frontmatterOf(text) as Record<string, { by: string }>;
      expect(review!.by).toMatch(/\w/);
      expect(author).toMatch(/\w/);
      expect(author).not.toBe(review!.by);
      const record = path.replace('content/', 'reviews/').replace('.mdx', '.yaml');
      expect(recordFrom(example[record]!)?.review).toEqual(review);
    }
  });

  test('has no draft, and publishes none once a word of it changes', () => {
    const file = 'content/glossary/heating-switch.mdx';
    const changed = { ...example, [file]: example[file]!.replace('isolates', 'cuts off') };
    const publish = (files: typeof example) =>
      checkReference({
        content: CONTENT,
        firm: ROOT,
        effects: withFirm(files),
        today: '2026-11-25',
        publish: true,
      }).problems.map(({ code, file }) => `${code} ${file}`);
    expect(publish(example)).toEqual([]);
    expect(publish(changed)).toEqual([`review-stale firm/${file}`]);
  });

  test('keeps its visits with their minutes, its reports, and wiring that was met twice', () => {
    const visits = checked.firm!.visits!;
    expect(visits.length).toBeGreaterThan(100);
    expect(visits.filter(({ minutes }) => minutes !== null).length).toBeGreaterThan(100);
    const kept = readReports(example['field/reports.json']!);
    expect('reports' in kept && kept.reports.map(({ page }) => page)).toEqual([
      'systems/combi-joint-box/as-found/',
      'systems/combi-joint-box/as-found/',
      'procedures/handing-over/',
    ]);
    expect(example['field/drafts/combi-joint-box-as-found-1.mdx']).toContain(
      'W4 and blue core of W4 are crossed',
    );
    expect(checked.entries.systems.has('combi-joint-box-as-found-1')).toBe(false);
  });

  test('has two releases, each with a reason for what is dangerous, that can still be compared', async () => {
    const [older, newer, ...others] = await readReleases(EXAMPLE);
    expect(others).toEqual([]);
    expect([older?.name, newer?.name, newer?.after]).toEqual(['2026.10', '2026.11', '2026.10']);
    expect(newer?.changes.length).toBeGreaterThan(5);
    for (const { rank, reason } of newer!.changes)
      expect([rank, reason !== null]).toEqual([rank, rank === 'danger']);
    const again = compareReferences(factsIn(older!.snapshot), factsIn(newer!.snapshot));
    expect(again.map(({ rank }) => rank)).toEqual(newer!.changes.map(({ rank }) => rank));
  });
});
