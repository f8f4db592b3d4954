import type { Simulation } from '../circuit/index.ts';
import { otherPerson, stepsBefore, type WorkStep } from '../components/replacement/work.ts';
import { isExtraLowPair } from '../components/system/extra-low.ts';
import { shownReading, shownText } from '../components/system/shown.ts';
import { isAtCylinder } from '../components/text/orders.ts';
import type { Catalogue } from '../compose/index.ts';
import type { ColourCode } from '../published/index.ts';
import { extraLowCaution, itemWords, pointMark, wayMark } from '../wiring/index.ts';
import {
  candidatesFor,
  coreAct,
  deadTestsOf,
  linkProofText,
  linkText,
  newCableText,
  newConditionText,
  notesOf,
  type Replacement,
  studyReplacement,
  VERDICT_WORDS,
  type Verdict,
  verdictText,
} from '../wiring/replacement/index.ts';
import { capital } from '../words/index.ts';

/** An item of an arrangement with the devices that can be offered for it, its own first. */
export interface Offer {
  readonly item: string;
  readonly title: string;
  readonly place: string;
  readonly devices: readonly { readonly id: string; readonly title: string }[];
}

/** One device in place of an item, as a sheet to take to the cupboard. Plain data. */
export interface ReplacingView {
  readonly title: string;
  readonly verdict: Verdict;
  readonly verdictWord: string;
  readonly verdictText: string;
  readonly cautions: readonly string[];
  readonly notes: readonly string[];
  readonly before: readonly WorkStep[];
  readonly newCable: string;
  readonly cores: readonly CoreView[];
  readonly links: readonly { readonly act: string; readonly proof: string }[];
  readonly dead: readonly string[];
  readonly proving: readonly ProvingView[];
  readonly newConditions: readonly string[];
  readonly others: readonly string[];
  readonly atCylinder: boolean;
}

interface CoreView {
  readonly cable: string;
  readonly colour: ColourCode;
  readonly sleeve: ColourCode | null;
  /** Empty where the core is new or spare, said by `act`. */
  readonly was: string;
  /** Empty where it has no place. */
  readonly now: string;
  readonly far: string;
  readonly act: string;
}

interface ProvingView {
  readonly title: string;
  readonly asked: string;
  readonly bring: string;
  readonly seen: readonly { readonly item: string; readonly text: string; readonly so: boolean }[];
  readonly readings: readonly {
    readonly from: string;
    readonly to: string;
    readonly text: string;
    readonly look: string;
  }[];
}

/** What can be offered for each item: of the devices that the parts hold. */
export const offersFor = ({ network }: Simulation, { devices }: Catalogue): Offer[] =>
  [...network.items.values()].flatMap(({ reference, title, place }): Offer[] => {
    const ids = candidatesFor(network, reference, devices);
    if (ids.length === 0) return [];
    const offered = ids.map((id, i) => ({
      id,
      title: i === 0 ? 'Another of the same kind' : devices.get(id)!.title,
    }));
    return [{ item: reference, title, place, devices: offered }];
  });

/** Puts a device in place of an item, solves both circuits, and says what comes of it. */
export function replacing(
  simulation: Simulation,
  { devices }: Catalogue,
  item: string,
  device: string,
): ReplacingView {
  return viewOf(studyReplacement(simulation, item, device, devices.get(device)!));
}

function viewOf(replacement: Replacement): ReplacingView {
  const { plan, before, changed, hazards, verdict, links, newConditions } = replacement;
  const { place } = before.items.get(plan.item)!;
  const words = itemWords(before, plan.item);
  const alike = plan.newId === plan.oldId;
  const pairCare = extraLowCaution(before, plan.item);
  const forgotten = plan.links.filter(({ act }) => act === 'not put back');
  const people = Object.values(plan.device.openings).map(({ by }) => by);
  return {
    title: alike ? `Replace ${words}, like for like` : `Replace ${words} by: ${plan.device.title}`,
    verdict,
    verdictWord: VERDICT_WORDS[verdict],
    verdictText: verdictText(replacement),
    cautions: [
      ...plan.device.cautions,
      ...hazards.slice(1).map(({ title, advice }) => `${title}. ${advice}`),
      ...(pairCare ? [pairCare] : []),
    ],
    notes: verdict === 'never' ? [] : notesOf(replacement),
    before: stepsBefore(`${words}, ${place}`),
    newCable: plan.newCable ? newCableText(plan) : '',
    cores: plan.cores.map((step) => ({
      cable: step.cable,
      colour: step.colour,
      sleeve: step.now === null ? null : (step.sleeve ?? null),
      was: step.was === null ? '' : wayMark(step.was),
      now: step.now === null ? '' : wayMark(step.now),
      far: pointMark(step.far),
      act: capital(coreAct(step)),
    })),
    links: [
      ...links.map((proof) => ({
        act: linkText(proof.link),
        proof: linkProofText(proof, replacement),
      })),
      ...forgotten.map((link) => ({ act: linkText(link), proof: '' })),
    ],
    dead: deadTestsOf(replacement),
    proving: replacement.proving.map((step) => ({
      title: step.mode.title,
      asked:
        step.asked.length === 0
          ? 'Everything as usual, nothing asked for.'
          : capital(`${step.asked.map(({ item, title }) => `${title} (${item})`).join('; ')}.`),
      bring: plan.device.family === plan.old.family ? (step.mode.bring ?? '') : '',
      seen: step.outcomes.map(({ item, text, so }) => ({ item, text, so })),
      readings: step.readings.map(({ pair, reading }) => {
        const isLow = isExtraLowPair(changed.network, pair.from, pair.to);
        const shown = shownReading(reading, isLow);
        return {
          from: wayMark(pair.from),
          to: wayMark(pair.to),
          text: shownText(shown),
          look: shown.look,
        };
      }),
    })),
    newConditions: newConditions.map((found) => newConditionText(found, changed.network)),
    others: [...new Set(people)].filter((by) => by !== 'controls engineer').map(otherPerson),
    atCylinder: isAtCylinder(place),
  };
}
