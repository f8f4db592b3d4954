import type { OwnFeature, Symptom } from '../../../schemas/index.ts';
import type { Entries } from '../../entries/types.ts';
import { capital, symptomName } from '../../words/index.ts';
import type { Name, Placed } from '../names.ts';
import { wordsOf } from '../text.ts';

/**
 * Every entry and every terminal of a device by name, in order of kind and entry.
 * @param features a firm's own, by name: systems are found by their words too
 */
export function namesOf(
  { systems, symptoms, devices, procedures, standards, glossary }: Entries,
  features: Readonly<Record<string, OwnFeature>> = {},
): Name[] {
  const wordsOfFeatures = (of: readonly string[]) =>
    of.flatMap((name) => {
      const own = features[name];
      return own ? [name, ...own.aliases] : [];
    });
  return [
    ...[...systems.values()].map(
      ({ id, data, body }): Name => ({
        name: data.title,
        kind: 'system',
        url: `systems/${id}/`,
        aliases: [...data.aliases, ...wordsOfFeatures(data.features)],
        about: data.summary,
        text: proseOf(body),
        facets: {
          arrangement: [data.arrangement],
          control: [data.control],
          feature: data.features,
        },
      }),
    ),
    ...[...symptoms.values()].map(
      ({ id, data, body }): Name => ({
        name: symptomName(data),
        kind: 'symptom',
        url: `symptoms/${id}/`,
        aliases: [data.title, ...data.aliases, ...data.says].filter(
          (also) => also !== symptomName(data),
        ),
        about: aboutSymptom(data),
        text: proseOf(body),
      }),
    ),
    ...[...devices.values()].flatMap(({ id, data, body }): Name[] => [
      {
        name: data.title,
        kind: 'device',
        url: `devices/${id}/`,
        aliases: data.aliases,
        about: data.summary,
        text: proseOf(body),
      },
      ...Object.entries(data.terminals).map(
        ([name, terminal]): Name => ({
          name,
          kind: 'terminal',
          url: `devices/${id}/#terminal-${slug(name)}`,
          aliases: terminal.aliases,
          about: capital(terminal.function),
          of: data.title,
        }),
      ),
    ]),
    ...[...procedures.values()].map(
      ({ id, data, body }): Name => ({
        name: data.title,
        kind: 'procedure',
        url: `procedures/${id}/`,
        aliases: data.aliases,
        about: data.summary,
        text: proseOf(body),
      }),
    ),
    ...[...standards.values()].map(
      ({ id, data, body }): Name => ({
        name: data.title,
        kind: 'standard',
        url: `standards/${id}/`,
        aliases: data.aliases,
        about: data.summary,
        text: proseOf(body),
      }),
    ),
    ...[...glossary.values()].map(
      ({ id, data, body }): Name => ({
        name: data.title,
        kind: 'word',
        url: `glossary/${id}/`,
        aliases: [...data.abbreviations, ...data.aliases],
        about: data.summary,
        text: proseOf(body),
      }),
    ),
  ];
}

/** What a complaint is, in a line: what an engineer calls it first, where the customer says it otherwise. */
const aboutSymptom = (symptom: Symptom): string =>
  symptomName(symptom) === symptom.title ? symptom.summary : `${symptom.title}. ${symptom.summary}`;

/** The items of every system, by reference designation. */
export function placedIn({ systems }: Entries): Placed[] {
  return [...systems.values()].map(({ id, data }) => ({
    title: data.title,
    url: `systems/${id}/`,
    items: Object.fromEntries(
      Object.entries(data.items).map(([reference, { device, place }]) => [
        reference,
        { device: `devices/${device}/`, place },
      ]),
    ),
  }));
}

/** The words of an entry’s prose, each once; what its markup says is no prose. */
const proseOf = (body: string): string =>
  [...new Set(wordsOf(body.replaceAll(/<[^>]*>|\{[^}]*\}|\]\([^)]*\)|^import .*$/gm, ' ')))].join(
    ' ',
  );

/** A name as a part of an address, as the pages write it. */
const slug = (text: string) => text.toLowerCase().replace(/[^a-z0-9]+/g, '-');
