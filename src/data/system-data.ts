import { z } from 'zod';
import {
  type Branch,
  CLASS_LIMITS,
  EXTRA_LOW_LEAST,
  type Instrument,
  partsOf,
  REFERENCE,
  type State,
} from '../circuit/index.ts';
import { EXTRA_LOW_LIMITS, SUPPLY_HERTZ } from '../published/index.ts';
import type { ComputedSystem } from '../reference/compute.ts';
import { settledIn } from '../site/index.ts';
import { CablesData, cablesData } from './cables-data.ts';
import { Definition, definitionOf } from './definition.ts';
import { DiagnosisData, diagnosisData } from './diagnosis-data.ts';
import { ReplacementsData, replacementsData } from './replacements-data.ts';
import { SequenceData, sequenceData } from './sequence-data.ts';
import { SettlingData, settlingData } from './settling-data.ts';
import {
  alteredSituations,
  PlaceData,
  placesData,
  readInsteadData,
  SituationData,
  situationsData,
} from './site-data.ts';

/** Version of the data format: counts up when a reader would have to change. */
export const DATA_VERSION = 4;

const number = z.number();
const text = z.string();
const readingClass = z.enum(['live', 'dead', 'between', 'high']);

/** What a branch is made of: resistance and inductance in series, a capacitance beside them. */
const Parts = z.strictObject({
  ohms: number
    .nullable()
    .meta({ description: 'Series resistance, Ω; null where nothing conducts' }),
  henries: number.meta({ description: 'Series inductance, H' }),
  farads: number.meta({ description: 'Capacitance beside the series part, F' }),
  volts: number.meta({ description: 'Series source, V: RMS if alternating, `from` positive' }),
  current: z.enum(['ac', 'dc', 'none']).meta({ description: 'Kind of current the source drives' }),
});

const Node = z.strictObject({
  id: text.meta({ description: 'ITEM.terminal, ITEM#inside, or CABLE.COLOUR@end of a spare core' }),
  item: text.nullable(),
  carries: text
    .nullable()
    .meta({ description: 'line, switched, neutral, earth or call; null inside' }),
  voltage: text.nullable().meta({ description: 'mains or extra-low; null inside' }),
});

const BranchData = z.strictObject({
  id: text,
  kind: text.meta({ description: 'conductor, wire link, stray, supply, or the element’s kind' }),
  from: text.meta({ description: 'Node id, or `supply` for the supply’s star point' }),
  to: text,
  presence: text.nullable().meta({
    description: 'Condition without which its device is off its base and it conducts nothing',
  }),
  parts: Parts.meta({ description: 'In every mode and situation that `otherwise` does not name' }),
  otherwise: z.record(text, Parts).meta({ description: 'By mode or situation, where it differs' }),
});

const ModeData = z.strictObject({
  id: text,
  title: text,
  after: text.nullable(),
  conditions: z.record(text, z.boolean()).meta({ description: 'Every condition’s value' }),
  expected: z.record(text, z.boolean()).meta({ description: 'Outcomes the entry expects' }),
  outcomes: z.record(text, z.union([z.boolean(), z.literal('hunting')])),
  positions: z.record(text, text).meta({ description: 'Position of each mechanism, by item' }),
  blown: z.array(text),
  hunting: z.array(text).meta({ description: 'Items that do not come to rest' }),
});

const Pair = z.strictObject({
  id: text,
  item: text,
  from: text,
  to: text,
  kind: text,
  title: text,
});

const Reading = z
  .tuple([number, number, readingClass])
  .meta({ description: 'V AC (RMS), V DC, class of the alternating part' });

const Wire = z.strictObject({
  id: text,
  cable: text,
  colour: text,
  sleeve: text.nullable(),
  function: text,
  from: text,
  to: text,
  ohms: number,
});

/** Everything computed of one system, enough to recompute it with other tools. */
export const SystemData = z.strictObject({
  $schema: text,
  version: z.literal(DATA_VERSION),
  id: text,
  title: text,
  formerly: z.array(text).meta({ description: 'Ids it had before' }),
  supply: z.strictObject({ hertz: number }),
  definition: Definition,
  nodes: z.array(Node),
  branches: z.array(BranchData),
  modes: z.array(ModeData),
  settling: SettlingData.meta({ description: 'How a mode comes to rest' }),
  places: z.array(PlaceData).meta({ description: 'Where a hand and a probe get' }),
  readInstead: z.record(text, text.nullable()).meta({
    description:
      'By terminal that is not read as it stands: where its conductor is read with everything connected and working; null: nowhere',
  }),
  situations: z.array(SituationData).meta({
    description: 'Modes as an open place, or a link laid there, leaves the circuit',
  }),
  wiring: z.array(Wire),
  instruments: z.array(z.strictObject({ id: text, title: text, ohms: number, farads: number })),
  pairs: z.array(Pair),
  classes: z
    .strictObject({
      dead: number.meta({ description: 'V AC up to which a reading is dead' }),
      live: number.meta({ description: 'V AC from which it is live; below: between' }),
      high: number.meta({ description: 'V AC above which it is high' }),
      direct: z.tuple([number, number]).meta({
        description: 'V DC, least and most of a call that answers dc',
      }),
    })
    .meta({ description: 'Limits of what a reading tells' }),
  readings: z
    .record(text, z.record(text, z.record(text, Reading)))
    .meta({ description: 'By mode, instrument and pair' }),
  diagnosis: DiagnosisData,
  sequences: z.array(SequenceData),
  cables: CablesData.meta({ description: 'Cables and protection' }),
  replacements: ReplacementsData.meta({ description: 'Devices in place of each item' }),
});
export type SystemData = z.infer<typeof SystemData>;

/** The part of it that says what the circuit is and does, without what is worked out from it. */
export type CircuitData = Omit<SystemData, 'diagnosis' | 'sequences' | 'cables' | 'replacements'>;

/** The open form of one computed system. */
export function systemData(system: ComputedSystem): SystemData {
  return {
    ...circuitData(system),
    diagnosis: diagnosisData(system),
    sequences: [...system.sequences, ...system.sequencesSinceWork].map(sequenceData),
    cables: cablesData(system.cables),
    replacements: replacementsData(system.replacements),
  };
}

/** The circuit of one computed system in open form; cheap, nothing is searched for. */
export function circuitData(system: ComputedSystem): CircuitData {
  const { network, simulation, readings } = system;
  return {
    $schema: '../schemas/system-data.schema.json',
    version: DATA_VERSION,
    id: system.id,
    title: system.entry.data.title,
    formerly: [...(system.entry.data.formerly ?? [])],
    supply: { hertz: SUPPLY_HERTZ },
    definition: definitionOf(network),
    nodes: network.nodes.map(({ id, item, terminal }) => ({
      id,
      item: item ?? null,
      carries: terminal?.carries ?? null,
      voltage: terminal?.voltage ?? null,
    })),
    branches: network.branches.map((branch) => branchData(system, branch)),
    modes: [...simulation.modes].map(([id, settled]) => {
      const mode = network.system.modes[id]!;
      return {
        id,
        title: mode.title,
        after: mode.after ?? null,
        conditions: Object.fromEntries(settled.state.conditions),
        expected: mode.expect,
        outcomes: Object.fromEntries(settled.outcomes),
        positions: Object.fromEntries(settled.state.positions),
        blown: [...settled.state.blown],
        hunting: [...settled.hunting],
      };
    }),
    settling: settlingData(simulation),
    places: placesData(network),
    readInstead: readInsteadData(network),
    situations: situationsData(simulation),
    wiring: wires(system),
    instruments: readings.instruments.map(({ id, title, ohms, farads }) => ({
      id,
      title,
      ohms,
      farads,
    })),
    pairs: readings.pairs.map((pair) => ({ ...pair })),
    classes: {
      dead: CLASS_LIMITS.dead,
      live: CLASS_LIMITS.live,
      high: CLASS_LIMITS.high,
      direct: [EXTRA_LOW_LEAST, EXTRA_LOW_LIMITS.dc],
    },
    readings: Object.fromEntries(
      readings.modes.map((mode) => [
        mode,
        Object.fromEntries(
          readings.instruments.map(({ id }) => [id, column(system, mode, id)] as const),
        ),
      ]),
    ),
  };
}

function branchData({ network, simulation }: ComputedSystem, branch: Branch) {
  const at = (node: number) => (node === REFERENCE ? 'supply' : network.nodes[node]!.id);
  const inMode = [
    ...[...simulation.modes].map(([mode, { state }]) => [mode, state] as const),
    ...alteredSituations(network).map(
      (situation) => [situation.id, settledIn(simulation, situation).state] as const,
    ),
  ].map(([name, state]) => [name, partsData(branch, state)] as const);
  const usual = inMode[0]![1];
  const key = JSON.stringify(usual);
  return {
    id: branch.id,
    kind: branch.kind === 'element' ? branch.element.kind : branch.kind,
    from: at(branch.from),
    to: at(branch.to),
    presence: branch.presence ?? null,
    parts: usual,
    otherwise: Object.fromEntries(inMode.filter(([, parts]) => JSON.stringify(parts) !== key)),
  };
}

function partsData(branch: Branch, state: State) {
  const parts = partsOf(branch, state, SUPPLY_HERTZ);
  return { ...parts, ohms: Number.isFinite(parts.ohms) ? parts.ohms : null };
}

function wires({ wiring, network }: ComputedSystem) {
  return wiring.runs.flatMap((run) =>
    run.rows.map((row) => {
      const branch = network.branches[network.branchIndex.get(row.id)!]!;
      return {
        id: row.id,
        cable: row.cable,
        colour: row.colour,
        sleeve: row.sleeve,
        function: row.function,
        from: row.from.point,
        to: row.to.point,
        ohms: branch.kind === 'conductor' ? branch.ohms : 0,
      };
    }),
  );
}

function column({ readings }: ComputedSystem, mode: string, instrument: Instrument['id']) {
  return Object.fromEntries(
    readings.pairs.map(({ id }) => {
      const { ac, dc, class: kind } = readings.at(id, mode, instrument);
      return [id, [significant(ac), significant(dc), kind] as [number, number, typeof kind]];
    }),
  );
}

/** Nine significant figures: more than the agreement the solver is held to. */
const significant = (value: number): number => Number(value.toPrecision(9));
