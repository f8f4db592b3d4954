import type { Person } from '../../../schemas/index.ts';
import { buildNetwork, type Simulation, simulate, simulateAsFound } from '../../circuit/index.ts';
import {
  type Model,
  type Observation,
  posterior,
  problemWith,
} from '../../diagnosis/inference/index.ts';
import { ANSWER_WORDS, type TestAnswer } from '../../diagnosis/tests/index.ts';
import {
  type AsFound,
  asFoundOf,
  changesFor,
  changeText,
  compareModes,
  differencesOf,
  type FoundLink,
  foundLink,
  foundNetwork,
  hazardsOf,
  type ModePair,
  partText,
  type ReadingPair,
  type RestoringChange,
  readFoundLink,
  tellingOf,
  tidy,
} from '../../wiring/as-found/index.ts';
import { itemOf } from '../../wiring/index.ts';
import { type JobData, modelOf } from '../job-data.ts';
import { itemIn, refOf } from '../sheet.ts';
import { modeTitle, outcomeText, pairText, voltsText } from '../words.ts';
import { type FoundSheet, foundSheetOf } from './found-sheet.ts';
import { type ReadReadings, readingsLink, readReadingsLink } from './readings-link.ts';
import type { FoundResult, SaidMode, SaidReading, Suggestion } from './result.ts';
import { standsOf } from './stands.ts';

/** Wiring mistakes offered to be marked, at most; less believed than this share, none. */
const MOST_SUGGESTIONS = 5;
const LEAST_SHARE = 0.02;
/** Who marks what was found. */
const OURS: Person = 'controls engineer';

/** A job’s data; of an arrangement from parts what its faults show is not worked out beforehand. */
type FoundData = Omit<JobData, 'signatures'> & Partial<Pick<JobData, 'signatures'>>;

/** The engine of one system's circuit as found: the same code as the build. */
export class FoundEngine {
  readonly sheet: FoundSheet;
  readonly #data: FoundData;
  readonly #intended: Simulation;
  #model: Model | undefined;

  constructor(data: FoundData) {
    const { id, system, devices } = data;
    this.#data = data;
    this.#intended = simulate(buildNetwork(id, system, new Map(Object.entries(devices))));
    this.sheet = foundSheetOf(this.#intended);
  }

  /** Reads a link's sealed text. */
  readLink = (text: string): FoundLink => readFoundLink(this.#intended.network, text);

  /** Reads the readings of a link. */
  readReadings = (text: string): ReadReadings =>
    readReadingsLink(this.sheet.id, text, this.#data.system.formerly);

  /**
   * All that follows from what was marked.
   * @throws RangeError when something named is not in the system.
   */
  work(marked: AsFound, observations: readonly Observation[] = []): FoundResult {
    const intended = this.#intended;
    const { network } = intended;
    const found = tidy(network, marked);
    const circuit = foundNetwork(network, found);
    const asFound = simulateAsFound(circuit);
    const changes = changesFor(network, found);
    return {
      found,
      link: foundLink(network, found),
      differences: differencesOf(network, found).map(({ title }) => title),
      changes: changes.map((change) => changeText(network, change)),
      othersCovers: this.#othersCovers(changes),
      hazards: hazardsOf(simulate(circuit), intended).map(({ kind, title, advice }) => ({
        kind,
        title,
        advice,
      })),
      modes: compareModes(intended, asFound, found.absent).map((pair) => this.#said(pair)),
      readings: standsOf({ sheet: this.sheet, intended, asFound, found }, observations),
      readingsLink:
        observations.length > 0
          ? readingsLink(network.id, network.system.version, observations)
          : null,
    };
  }

  /** Wiring mistakes among the likeliest causes of some readings, ready to be marked. */
  suggest(observations: readonly Observation[]): Suggestion[] {
    const { network } = this.#intended;
    const { signatures } = this.#data;
    if (!signatures) return [];
    const usable = observations.filter((one) => problemWith(this.#intended, one) === null);
    if (usable.length === 0) return [];
    this.#model ??= modelOf({ ...this.#data, signatures }, 'since work');
    const { explanations } = posterior(this.#model, usable, []);
    return explanations
      .filter(({ share }) => share >= LEAST_SHARE)
      .toSorted((a, b) => b.share - a.share)
      .flatMap(({ hypothesis: { faults }, share }): Suggestion[] => {
        const [fault] = faults;
        if (fault?.origin !== 'wiring mistake') return [];
        const wired = fault.edit.rewire?.(network.system) ?? network.system;
        const found = asFoundOf(network, wired, fault.edit.changes);
        return found ? [{ title: fault.title, share, found }] : [];
      })
      .slice(0, MOST_SUGGESTIONS);
  }

  #said({ mode, changed, works, readings, blown }: ModePair): SaidMode {
    const { sheet } = this;
    const seen = (outcome: string, value: boolean | 'hunting') =>
      outcomeText(
        sheet,
        outcome,
        value === 'hunting' ? 'comes and goes' : value ? 'seen' : 'not seen',
      );
    return {
      id: mode,
      title: modeTitle(sheet, mode),
      changed: changed.map(({ outcome, due, found }) => ({
        subject: refOf(outcome),
        due: seen(outcome, due),
        found: seen(outcome, found),
      })),
      works: works.map((outcome) => `${refOf(outcome)} ${outcomeText(sheet, outcome, 'seen')}`),
      readings: readings.map(saidReading),
      blown: blown.map((id) => partText(this.#intended.network, id)),
    };
  }

  /** Items that some changes open and that somebody else than a controls engineer may. */
  #othersCovers(changes: readonly RestoringChange[]): string[] {
    const { system } = this.#intended.network;
    const cableItems = (cable: string) =>
      this.sheet.cables.find(({ ref }) => ref === cable)?.items ?? [];
    const items = changes.flatMap((change) => {
      switch (change.kind) {
        case 'cable':
          return cableItems(change.cable);
        case 'fit':
          return [change.item];
        case 'place':
          return [cableItems(change.end.cable)[change.end.end] ?? ''];
        case 'exchange':
          return change.ends.map(({ cable, end }) => cableItems(cable)[end] ?? '');
        case 'link':
          return system.links[change.link]!.between.map(itemOf);
        case 'unlink':
          return change.between.map(itemOf);
        default:
          return [refOf(change.branch)];
      }
    });
    return [...new Set(items)].flatMap((ref) => {
      const [opening] = itemIn(this.sheet, ref)?.openings.filter(({ by }) => by !== OURS) ?? [];
      const own = itemIn(this.sheet, ref)?.points.some(({ reads }) => reads !== 'none');
      return opening && !own ? [`${ref}: ${opening.by}`] : [];
    });
  }
}

function saidReading({ pair, due, found }: ReadingPair): SaidReading {
  const said = (reading: ReadingPair['due']) => {
    const answer = tellingOf(pair, reading) as TestAnswer;
    const figure = pair.kind === 'call' ? voltsText(reading.dc, 'dc') : voltsText(reading.ac);
    return { answer, text: `${ANSWER_WORDS[answer]}, ${figure}` };
  };
  return { subject: pairText(pair.from, pair.to), due: said(due), found: said(found) };
}
