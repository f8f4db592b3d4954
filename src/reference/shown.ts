import type { Symptom } from '../../schemas/index.ts';
import {
  blownInAll,
  type NoFault,
  type Sighting,
  type SystemCauses,
  seenWith,
} from '../diagnosis/index.ts';
import type {
  Next,
  SequenceEnd,
  SequenceFigures,
  Step,
  TestSequence,
} from '../diagnosis/sequences/index.ts';
import type { Kept } from '../folder/index.ts';
import type { ComputedSystem } from './compute.ts';

/** Causes of a complaint that one repair mends. */
export interface ShownGroup {
  readonly repair: string;
  /** Per cent. */
  readonly share: number;
  /** The likeliest, and how many others there are. */
  readonly fault: { readonly title: string; readonly hazard: string | null };
  readonly others: number;
}

/** What gives a complaint in one system, and how it is begun with. */
export interface ShownComplaint {
  /** What is seen for certain where the complaint is. */
  readonly seen: readonly Sighting[];
  /** Fuse links that have blown for certain where it is, by their branches. */
  readonly blown: readonly string[];
  /** Whether a published sequence starts from it. */
  readonly hasSequence: boolean;
  /** Nothing broken. */
  readonly noFaults: readonly NoFault[];
  /** Likeliest first. */
  readonly groups: readonly ShownGroup[];
  /** The first test of its sequence; absent where one repair is left from the start. */
  readonly first?: Step;
  /** Repairs left after each of its answers. */
  readonly left: readonly number[];
  /** Where one repair is left from the start, the reading that proves it. */
  readonly proof?: NonNullable<SequenceEnd['proof']>;
}

/**
 * What pages beside a system's own show of it: plain data, so that it is kept from build to build
 * and a system that stands as it was need not be worked out for them.
 */
export interface Shown {
  /** Tests that its sequences choose from. */
  readonly tests: number;
  readonly untilNow: readonly SequenceFigures[];
  readonly sinceWork: readonly SequenceFigures[];
  /** What gives a complaint, by symptom id; undefined where it cannot show it. */
  readonly complaint: (symptom: string) => ShownComplaint | undefined;
}

/** The same as it is kept. */
interface KeptShown extends Omit<Shown, 'complaint'> {
  readonly complaints: Readonly<Record<string, ShownComplaint>>;
}

/** What is shown of every system: of one that stands as it was, what an earlier build kept. */
export class ShownSystems {
  readonly #kept: Kept;
  readonly #keyOf: (system: string) => string;
  readonly #make: (system: string) => Shown;
  readonly #known = new Map<string, Shown>();

  /**
   * @param keyOf names a system with all that its pages are made from
   * @param make what is shown of a system, each part worked out when it is asked for
   */
  constructor(kept: Kept, keyOf: (system: string) => string, make: (system: string) => Shown) {
    this.#kept = kept;
    this.#keyOf = keyOf;
    this.#make = make;
  }

  of(system: string): Shown {
    const known = this.#known.get(system) ?? this.#read(system) ?? this.#make(system);
    this.#known.set(system, known);
    return known;
  }

  /**
   * Works out and keeps what is shown of a system, where no earlier build did, complaint by
   * complaint: who asks may do other things between.
   */
  *keep(system: string, symptoms: Iterable<string>): Generator<void, void> {
    const before = this.#read(system);
    if (before) {
      this.#known.set(system, before);
      return;
    }
    const { tests, untilNow, sinceWork, complaint } = this.of(system);
    const complaints: Record<string, ShownComplaint> = {};
    for (const id of symptoms) {
      const own = complaint(id);
      if (own) complaints[id] = own;
      yield;
    }
    const made: KeptShown = { tests, untilNow, sinceWork, complaints };
    this.#kept.write(this.#keyOf(system), Buffer.from(JSON.stringify(made)));
  }

  prune(): void {
    this.#kept.prune();
  }

  #read(system: string): Shown | undefined {
    const bytes = this.#kept.read(this.#keyOf(system));
    if (!bytes) return undefined;
    // Our own writing, under the hash of what it says and the name of all that it is made from.
    const { complaints, ...shown } = JSON.parse(bytes.toString('utf8')) as KeptShown;
    return { ...shown, complaint: (symptom) => complaints[symptom] };
  }
}

/** What is shown of a system, each part worked out when it is asked for. */
export function shownOf(
  system: ComputedSystem,
  symptoms: ReadonlyMap<string, Pick<Symptom, 'shows'>>,
  causes: (symptom: string) => SystemCauses | undefined,
): Shown {
  const complaints = new Map<string, ShownComplaint | undefined>();
  return {
    get tests() {
      return system.signatures.tests.length;
    },
    get untilNow() {
      return system.sequences.map(figuresOf);
    },
    get sinceWork() {
      return system.sequencesSinceWork.map(figuresOf);
    },
    complaint(id) {
      if (!complaints.has(id)) {
        const own = causes(id);
        complaints.set(id, own && complaintOf(system, id, symptoms.get(id)!, own));
      }
      return complaints.get(id);
    },
  };
}

function complaintOf(
  { sequences, starts, network, signatures }: ComputedSystem,
  id: string,
  symptom: Pick<Symptom, 'shows'>,
  causes: SystemCauses,
): ShownComplaint {
  const sequence = sequences.find((one) => one.id === id);
  const first = sequence?.steps[0];
  const proof = first ? null : sequence?.ends[0]?.proof;
  /** Repairs left where an answer leads. */
  const left = ({ kind, number }: Next) =>
    kind === 'step' ? sequence!.steps[number - 1]!.open : 1;
  return {
    seen: seenWith(symptom, causes, network, signatures),
    hasSequence: sequence !== undefined,
    blown: blownInAll(starts.find((one) => one.id === id)?.shows ?? [], signatures.tests),
    noFaults: causes.noFaults,
    groups: causes.groups.map(({ repair, share, faults: [fault, ...others] }) => ({
      repair,
      share,
      fault: { title: fault!.title, hazard: fault!.hazard },
      others: others.length,
    })),
    left: first?.answers.map(({ next }) => left(next)) ?? [],
    ...(first ? { first } : {}),
    ...(proof ? { proof } : {}),
  };
}

/** All of a sequence but its steps and ends. */
const figuresOf = (sequence: TestSequence): SequenceFigures => ({
  id: sequence.id,
  title: sequence.title,
  mode: sequence.mode,
  history: sequence.history,
  faults: sequence.faults,
  groups: sequence.groups,
  tests: sequence.tests,
  minutes: sequence.minutes,
  lowerBound: sequence.lowerBound,
  gap: sequence.gap,
  proven: sequence.proven,
  expanded: sequence.expanded,
  liveOrderMinutes: sequence.liveOrderMinutes,
  first: sequence.first,
});
