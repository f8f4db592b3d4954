import { EMERGENCY_NUMBERS } from '../published/index.ts';
import type { Job } from './job.ts';
import { itemIn, type Sheet } from './sheet.ts';

/** How a repair stands: seen right where it had to be, seen astray, or not wholly looked at. */
export type Proof = 'proved' | 'astray' | 'open';

const PROOF_WORDS: Readonly<Record<Proof, string>> = {
  proved: 'We then ran the system, and it worked as it should.',
  astray: 'It does not yet work as it should.',
  open: 'We have not tried it in full since.',
};

const { gas, gasNorthernIreland, ambulance } = EMERGENCY_NUMBERS;

/**
 * What the customer does when something is dangerous, on every slip: whatever was repaired, they
 * keep the paper. As the page's own emergency box says it, to somebody who has no trade.
 */
export const EMERGENCY_LINES: readonly string[] = [
  `You smell gas: touch no switch, no flames. Gas off at the meter if that is safe (not in a cellar), doors and windows open, everyone out. From outside ring the gas emergency service, ${gas.number} (Northern Ireland ${gasNorthernIreland.number}; gas from a tank or bottle: the number on it).`,
  `A carbon monoxide alarm sounds: gas and other fuel appliances off, doors and windows open, everyone out, and ring the same number. Anyone ill: ${ambulance.number}.`,
  'Water on anything electrical: do not touch it. Power off at the fuse board if you can get there dry, and off it stays until an electrician or heating engineer has looked.',
];

/** Trade words for things in a house, with what the person who lives there calls them. */
const EVERYDAY: readonly (readonly [trade: RegExp, words: string])[] = [
  [/wiring centre/, 'wiring box'],
  [/fused spur/, 'fused switch'],
  [/circuit at the consumer unit/, 'fuse board'],
  [/boiler/, 'boiler'],
  [/cylinder (thermo)?stat/, 'hot water cylinder’s thermostat'],
  [/cut-out/, 'hot water safety switch'],
  [/receiver/, 'heating’s radio receiver'],
  [/(thermo|room )stat|room control/, 'room thermostat'],
  [/programmer/, 'heating programmer'],
  [/hot[- ]water valve/, 'hot water valve'],
  [/valve/, 'heating valve'],
  [/condensate pump/, 'boiler’s waste-water pump'],
  [/pump/, 'heating pump'],
];

/**
 * What the customer is told, in everyday words, made of the complaint, the repair and what
 * remains. No code of a terminal or item stands in it but what the engineer typed as remaining.
 */
export function customerText(sheet: Sheet, job: Job, proof: Proof): string {
  const complaint = job.complaint
    ? `You told us: “${job.complaint.words.trim().replace(/\.$/, '')}”.`
    : 'You asked us to look at your heating.';
  const danger = job.remarks.some(({ code }) => code === 'C1');
  const sentences = [
    complaint,
    ...repairWords(sheet, job, proof),
    ...(danger
      ? [
          'We also found something dangerous: leave it switched off or disconnected as we left it until it has been put right.',
        ]
      : job.remarks.length > 0
        ? ['We noticed something else that wants attention; it is listed in this record.']
        : []),
    ...(job.remains.trim() ? [`Still to be done: ${job.remains.trim().replace(/\.$/, '')}.`] : []),
  ];
  return sentences.join(' ');
}

function repairWords(sheet: Sheet, job: Job, proof: Proof): string[] {
  const last = job.repairs.at(-1);
  if (!last) return ['Nothing has been repaired yet.'];
  const where = placeWords(sheet, last.text);
  const other = /hand(?:ed)? over to (an? [^,.:;]+)/i.exec(last.text)?.[1];
  if (other) return [`The cause lies ${where ?? 'in a part'} that ${other} has to see to.`];
  const sure = !/not found for certain/i.test(last.text);
  const what = where
    ? `We ${sure ? 'found the cause' : 'think the cause was'} ${where} and have put it right.`
    : 'We have made a repair.';
  return [what, PROOF_WORDS[proof]];
}

/** Where a repair was made, in everyday words; null where it names nothing of the system. */
function placeWords(sheet: Sheet, text: string): string | null {
  // A cause names where it lies first; what follows is how it is put right.
  const [ref] = [...text.matchAll(/\b[A-Z]\d{1,2}\b/g)]
    .map(([found]) => found)
    .filter((found) => itemIn(sheet, found));
  const title = ref
    ? itemIn(sheet, ref)!.title
    : sheet.items.find((item) => text.toLowerCase().includes(item.title.toLowerCase()))?.title;
  const words = EVERYDAY.find(([trade]) => trade.test(title?.toLowerCase() ?? ''))?.[1];
  return words ? `at the ${words}` : null;
}
