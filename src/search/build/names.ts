import type { Entries } from '../../entries/types.ts';
import type { Name, Placed } from '../names.ts';

/** Every entry and every terminal of a device by name, in order of kind and entry. */
export function namesOf({
  systems,
  symptoms,
  devices,
  procedures,
  standards,
  glossary,
}: Entries): Name[] {
  return [
    ...[...systems.values()].map(
      ({ id, data }): Name => ({
        name: data.title,
        kind: 'system',
        url: `systems/${id}/`,
        aliases: data.aliases,
        about: data.summary,
        facets: {
          arrangement: [data.arrangement],
          control: [data.control],
          feature: data.features,
        },
      }),
    ),
    ...[...symptoms.values()].map(
      ({ id, data }): Name => ({
        name: data.title,
        kind: 'symptom',
        url: `symptoms/${id}/`,
        aliases: [...data.aliases, ...data.says],
        about: data.summary,
      }),
    ),
    ...[...devices.values()].flatMap(({ id, data }): Name[] => [
      {
        name: data.title,
        kind: 'device',
        url: `devices/${id}/`,
        aliases: data.aliases,
        about: data.summary,
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
      ({ id, data }): Name => ({
        name: data.title,
        kind: 'procedure',
        url: `procedures/${id}/`,
        aliases: data.aliases,
        about: data.summary,
      }),
    ),
    ...[...standards.values()].map(
      ({ id, data }): Name => ({
        name: data.title,
        kind: 'standard',
        url: `standards/${id}/`,
        aliases: data.aliases,
        about: data.summary,
      }),
    ),
    ...[...glossary.values()].map(
      ({ id, data }): Name => ({
        name: data.title,
        kind: 'word',
        url: `glossary/${id}/`,
        aliases: [...data.abbreviations, ...data.aliases],
        about: data.summary,
      }),
    ),
  ];
}

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

/** A name as a part of an address, as the pages write it. */
const slug = (text: string) => text.toLowerCase().replace(/[^a-z0-9]+/g, '-');

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
