import {
  ARRANGEMENTS,
  CONTROLS,
  FEATURES,
  type OwnFeature,
  type System,
} from '../../../schemas/index.ts';
import { capital } from '../../words/index.ts';
import { slug } from '../text/words.ts';

/** One choice of a facet. */
export interface Choice {
  /** Id of its input, `arrangement-combi`. */
  readonly id: string;
  readonly value: string;
  readonly label: string;
}

/** A question about what is in front of the reader. */
export interface Facet {
  /** `arrangement`, `control`, `feature`, or `under-` and a heading of the firm's own. */
  readonly name: string;
  readonly question: string;
  /** Whether one answer is chosen, or any number. */
  readonly answers: 'one' | 'many';
  readonly choices: readonly Choice[];
}

const choices = (name: Facet['name'], values: readonly string[], suffix = ''): Choice[] =>
  values.map((value) => ({
    id: `${name}-${slug(value)}`,
    value,
    label: capital(value) + suffix,
  }));

/** What a system is recognised by, in the order an engineer sees it. */
const FACETS: readonly Facet[] = [
  {
    name: 'arrangement',
    question: 'Boiler',
    answers: 'one',
    choices: choices('arrangement', ARRANGEMENTS),
  },
  { name: 'control', question: 'Control', answers: 'one', choices: choices('control', CONTROLS) },
  {
    name: 'feature',
    question: 'Also there',
    answers: 'many',
    choices: choices('feature', FEATURES),
  },
];

/** Features of a firm's own, by name, as its settings say them. */
export type OwnFeatures = Readonly<Record<string, OwnFeature>>;

/** All facets: the reference's, with a firm's own features among its or under headings of their own. */
function facetsWith(own: OwnFeatures): readonly Facet[] {
  const names = Object.keys(own);
  const free = names.filter((name) => own[name]!.under === undefined);
  const headed = Map.groupBy(
    names.filter((name) => own[name]!.under !== undefined),
    (name) => own[name]!.under!,
  );
  return [
    ...FACETS.map((facet) =>
      facet.name === 'feature'
        ? { ...facet, choices: [...facet.choices, ...choices('feature', free)] }
        : facet,
    ),
    ...[...headed].map(
      ([under, those]): Facet => ({
        name: `under-${slug(under)}`,
        question: under,
        answers: 'many',
        choices: choices('feature', those),
      }),
    ),
  ];
}

/** The choices that a system answers to, as ids. */
export function choicesOf(system: System): string[] {
  return [
    `arrangement-${slug(system.arrangement)}`,
    `control-${slug(system.control)}`,
    ...system.features.map((feature) => `feature-${slug(feature)}`),
  ];
}

/** A facet with only the choices that some system of the list answers to. */
export function facetsFor(systems: Iterable<System>, own: OwnFeatures = {}): Facet[] {
  const present = new Set([...systems].flatMap(choicesOf));
  return facetsWith(own)
    .map((facet) => ({
      ...facet,
      choices: facet.choices.filter((choice) => present.has(choice.id)),
    }))
    .filter((facet) => facet.choices.length > 0);
}

/** Style rules by which the inputs alone choose the systems shown, with no script. */
export function facetStyles(own: OwnFeatures = {}): string {
  return facetsWith(own)
    .flatMap((facet) => facet.choices)
    .map(({ id }) => `:root:has(#${id}:checked) .system-entry:not(.${id}){display:none}`)
    .join('\n');
}
