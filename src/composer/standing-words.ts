import type { Agreed } from './engine.ts';
import type { View } from './view.ts';

/** What the page says of an arrangement before anything else. */
export interface StandingWords {
  /** What is wrong, gravest first, each in a sentence or two; empty where nothing is known to be. */
  readonly wrong: readonly { readonly title: string; readonly said: string }[];
  /** The one sentence that stands with every composed arrangement, in its parts. */
  readonly standing: string;
}

/** The gravest first: what kills, then what fails, then advice. */
export const GRAVITY = { danger: 0, fault: 1, advice: 2 } as const;
const numbers = (n: number) => n.toLocaleString('en-GB');

/**
 * Says where a composed arrangement stands, with figures that were computed and no others.
 * @param agreed how the comparison with what must happen stands; null before it has begun.
 */
export function standingWords(
  { verdicts, missed }: Pick<View, 'verdicts' | 'missed'>,
  agreed: Agreed | null,
  isAgreed: boolean,
): StandingWords {
  const broken = verdicts
    .filter(({ state, severity }) => state === 'breached' && severity !== 'advice')
    .toSorted((a, b) => GRAVITY[a.severity] - GRAVITY[b.severity]);
  const holding = verdicts.filter(({ state }) => state === 'holds').length;
  const wrong = [
    ...broken.map(({ title, severity, findings: [first, ...more] }) => {
      const allowed = first?.allowed === undefined ? '' : ` Allowed: ${first.allowed}.`;
      const others = more.length > 0 ? ` And ${numbers(more.length)} more like it.` : '';
      const danger = severity === 'danger' ? 'Danger. ' : '';
      return {
        title: `Against “${title}”`,
        said: `${danger}Found: ${first?.message}.${allowed}${others} To repair: ${first?.mend}.`,
      };
    }),
    ...missed.map(({ mode, what }) => ({
      title: 'It does otherwise than it must',
      said: `In “${mode}” ${what}.`,
    })),
  ];
  if (agreed?.miss && missed.length === 0) {
    const { what, when } = agreed.miss;
    wrong.push({
      title: 'It does otherwise than it must',
      said: when === '' ? `With all as usual ${what}.` : `${what}, with ${when}.`,
    });
  }
  const met = [
    holding === 1 ? '1 house standard met' : `${numbers(holding)} house standards met`,
    ...(broken.length > 0 ? [`${numbers(broken.length)} not met`] : []),
  ].join(', ');
  return {
    wrong: wrong.map(({ title, said }) => ({
      title,
      said: said.charAt(0).toUpperCase() + said.slice(1),
    })),
    standing: `Composed from parts. Circuit computed; ${met}; ${agreement(agreed, isAgreed)}. No person has reviewed this arrangement: check it against what is in front of you.`,
  };
}

function agreement(agreed: Agreed | null, isAgreed: boolean): string {
  if (!agreed) return 'what must happen is still being compared';
  const { tried, of, miss } = agreed;
  if (miss)
    return `of ${numbers(tried)} combinations of conditions one does not agree with what must happen`;
  if (!isAgreed)
    return `${numbers(tried)} of ${numbers(of)} combinations of conditions compared so far agree with what must happen`;
  return tried < of
    ? `${numbers(tried)} of ${numbers(of)} combinations of conditions agree with what must happen, and the others were not tried`
    : `${numbers(tried)} combinations of conditions agree with what must happen`;
}
