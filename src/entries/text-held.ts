import { type Device, FEATURES, type Standard, type System } from '../../schemas/index.ts';
import { COLOUR_CODES, type ColourCode } from '../published/index.ts';
import type { Hidden } from './firm-layer.ts';
import { entriesByKind, KINDS } from './kinds.ts';
import { among } from './problem.ts';
import { own, reportFor } from './report.ts';
import { type Finder, type Finding, problemsInTexts } from './texts.ts';
import type { Entries, Entry, Problem } from './types.ts';

/**
 * What the texts of entries say and the entry itself knows otherwise: colours and counts of
 * cores, items and cables, fuses, limits of rules, figures that are computed; and
 * summaries that two entries share, as where one was copied.
 */
export const textProblems = (entries: Entries, hidden: Hidden = new Map()): Problem[] => [
  ...linksAstray(entries, hidden),
  ...[...entries.systems.values()].flatMap((system) =>
    problemsInTexts(system, heldAgainst(system.data, entries.devices)),
  ),
  ...[...entries.standards.values()].flatMap(limitProblems),
  ...copies(entries),
];

/** Folder and name of an entry in a link, as in `](/procedures/dead-tests/)`. */
const LINK = new RegExp(
  `\\]\\(/(${Object.values(KINDS)
    .map(({ folder }) => folder)
    .join('|')})/([a-z0-9-]+)(?=[/#?)])`,
  'g',
);

/** Links of prose that lead to no entry; what a firm hides its pages leave out by themselves. */
function linksAstray(entries: Entries, hidden: Hidden): Problem[] {
  const all = entriesByKind(entries);
  const known = new Set(
    all.flatMap(([, { folder }, { id, data }]) =>
      [id, ...((data as { formerly?: readonly string[] }).formerly ?? [])].map(
        (name) => `${folder}/${name}`,
      ),
    ),
  );
  for (const [kind, ids] of hidden) for (const id of ids) known.add(`${KINDS[kind].folder}/${id}`);
  return all.flatMap(([, , entry]) =>
    problemsInTexts(entry, (text, path) =>
      path.length > 0
        ? []
        : [...text.matchAll(LINK)].flatMap(({ 0: found, 1: folder, 2: id, index }) => {
            const to = `${folder}/${id}`;
            if (known.has(to)) return [];
            const of = [...known].filter((name) => name.startsWith(`${folder}/`));
            const message = `there is no page ${to} to lead to`;
            const at = index + found.indexOf('/');
            return [{ code: 'text-link' as const, message, details: among(to, of), at }];
          }),
    ),
  );
}

type Devices = ReadonlyMap<string, Entry<Device>>;

function heldAgainst(system: System, devices: Devices): Finder {
  const finders = [
    coloursOf(system),
    itemsOf(system),
    coresOf(system),
    terminalsOf(system, devices),
    waysOf(system, devices),
  ];
  const fuses = fusesOf(system, devices);
  const features = featuresOf(system, devices);
  return (text, path) => [
    ...finders.flatMap((find) => find(text, path)),
    // A caution may name the fuse that must not be fitted, and prose tell what it does.
    ...(['title', 'summary', 'recognise'].includes(String(path[0])) ? fuses(text, path) : []),
    ...(path[0] === 'recognise' ? features(text, path) : []),
    ...(path.length === 0 ? typedFigures(text) : []),
  ];
}

const EARTH = 'green(?:-| and |/)yellow';
const NAMES = new Map<string, ColourCode>(
  (Object.entries(COLOUR_CODES) as [ColourCode, string][]).map(([code, name]) => [name, code]),
);
const COLOUR = `(?:${EARTH}|${[...NAMES.keys()].join('|')})`;
/** Colours named one after the other before the word core, as in “a white, a grey and an orange core”. */
const COLOURED = new RegExp(
  `\\b${COLOUR}(?:(?:,| and| or|, and|, or)(?: an?| the)? ${COLOUR})*(?= (?:cores?|conductors?)\\b)`,
  'gi',
);
/** What says that a thing is not there. */
const NOT = /\b(?:no|without|neither|nor|instead of|never)(?: an?| any| the)? $/i;

function coloursOf({ cables }: System): Finder {
  const there = new Set(Object.values(cables).flatMap(({ cores }) => Object.keys(cores)));
  const names = [...there].map((code) => COLOUR_CODES[code as ColourCode]);
  return (text) =>
    [...text.matchAll(COLOURED)].flatMap(({ 0: list, index }) =>
      NOT.test(text.slice(0, index))
        ? []
        : [...list.matchAll(new RegExp(COLOUR, 'gi'))].flatMap(({ 0: found, index: within }) => {
            const plain = found.toLowerCase();
            const code = NAMES.get(plain) ?? 'GNYE';
            if (there.has(code)) return [];
            const message = `no core of this system is ${plain}`;
            const details = { found, allowed: names.join(', ') };
            return [{ code: 'text-colour' as const, message, details, at: index + within }];
          }),
    );
}

/** Items and cables by their letters: a letter that the system does not use stands for something else. */
function itemsOf({ items, cables }: System): Finder {
  const there = [...Object.keys(items), ...Object.keys(cables)];
  const letters = new Set(there.map((name) => name.replace(/\d+$/, '')));
  return (text) =>
    [...text.matchAll(/\b([A-Z]{1,2})\d{1,2}\b/g)].flatMap(({ 0: found, 1: letter, index }) => {
      if (there.includes(found) || !letters.has(letter!)) return [];
      const message = `this system has no ${found}`;
      return [{ code: 'text-item' as const, message, details: among(found, there), at: index }];
    });
}

const NUMBERS = ['two', 'three', 'four', 'five', 'six', 'seven', 'eight'];
const MANY_CORED = new RegExp(
  `\\b(${NUMBERS.join('|')}|[2-9])-core(?= (?:cables?|flex(?:es)?|leads?|cords?)\\b)`,
  'gi',
);

/** Cores are counted with the earth or without: both are said. */
function coresOf({ cables }: System): Finder {
  const counts = new Set(
    Object.values(cables).flatMap(({ cores }) => {
      const all = Object.keys(cores).length;
      return 'GNYE' in cores ? [all, all - 1] : [all];
    }),
  );
  return (text) =>
    [...text.matchAll(MANY_CORED)].flatMap(({ 0: found, 1: said, index }) => {
      const named = NUMBERS.indexOf(said!.toLowerCase());
      const number = named < 0 ? Number(said) : named + 2;
      if (counts.has(number) || NOT.test(text.slice(0, index))) return [];
      const message = `no cable of this system has ${number} cores`;
      const details = { found, allowed: [...counts].sort((a, b) => a - b).join(', ') };
      return [{ code: 'text-cores' as const, message, details, at: index }];
    });
}

/** Terminals by number, as `terminal 7`, and ways in a row, as `1 to 8`: of a box in the system. */
function terminalsOf({ items }: System, devices: Devices): Finder {
  const there = [
    ...new Set(
      Object.values(items).flatMap(({ device }) =>
        Object.keys(devices.get(device)?.data.terminals ?? {}).filter(isNumber),
      ),
    ),
  ];
  return (text) =>
    [...text.matchAll(/\b(?:terminals?|ways?) (\d{1,2})\b(?! (?:to|of) )/gi)].flatMap(
      ({ 0: whole, 1: found, index }) => {
        if (there.includes(found!) || NOT.test(text.slice(0, index))) return [];
        const message = `no item of this system has a terminal ${found}`;
        const details = {
          found: whole,
          ...(there.length > 0 ? { allowed: there.join(', ') } : {}),
        };
        return [{ code: 'text-terminal' as const, message, details, at: index }];
      },
    );
}

const isNumber = (name: string) => /^\d+$/.test(name);

const WAYS = [...NUMBERS, 'nine', 'ten', 'eleven', 'twelve'];
const MANY_WAYED = new RegExp(
  `\\b(${WAYS.join('|')}|\\d{1,2})-way(?= (?:wiring centre|junction box|joint box|box|(?:terminal )?strip|block)\\b)`,
  'gi',
);

/** Ways of a box are its numbered terminals, with those for neutrals and earths or without. */
function waysOf({ items }: System, devices: Devices): Finder {
  const counts = new Set(
    Object.values(items).flatMap(({ device }) => {
      const names = Object.keys(devices.get(device)?.data.terminals ?? {});
      const numbered = names.filter(isNumber).length;
      return numbered === 0 ? [] : [numbered, names.length];
    }),
  );
  return (text) =>
    [...text.matchAll(MANY_WAYED)].flatMap(({ 0: found, 1: said, index }) => {
      const named = WAYS.indexOf(said!.toLowerCase());
      const number = named < 0 ? Number(said) : named + 2;
      if (counts.has(number) || NOT.test(text.slice(0, index))) return [];
      const message = `no box of this system has ${number} ways`;
      const details = { found, allowed: [...counts].sort((a, b) => a - b).join(', ') };
      return [{ code: 'text-ways' as const, message, details, at: index }];
    });
}

/**
 * What a system is recognised by is what it has: a feature that a line names and the entry has
 * neither among its features nor as a device is another system's.
 */
function featuresOf({ items, features }: System, devices: Devices): Finder {
  const there = Object.values(items)
    .map(({ device, title }) => `${title ?? ''} ${devices.get(device)?.data.title ?? ''}`)
    .join(' ')
    .toLowerCase();
  const missing = FEATURES.filter((name) => {
    const one = name.replace(/s$/, '');
    return !features.includes(name) && !there.includes(one);
  });
  return (text) =>
    missing.flatMap((name) => {
      const one = name.replace(/s$/, '').replaceAll(/[ -]/g, '[ -]');
      const match = new RegExp(`\\b${one}s?\\b`, 'i').exec(text);
      if (!match || DENIED.test(text.slice(0, match.index))) return [];
      const message = `a line of recognition names what this system has not: ${name}`;
      const details = { found: match[0], allowed: features.join(', ') };
      return [{ code: 'text-feature' as const, message, details, at: match.index }];
    });
}

/** What says, anywhere before it in a sentence, that a thing is not there. */
const DENIED = /\b(?:no|not|none|without|neither|nor|instead|never|unlike|nothing)\b[^.;:]*$/i;

/** Fuses and breakers are named by their ampere. */
function fusesOf({ items }: System, devices: Devices): Finder {
  const ratings = new Set(
    Object.values(items).flatMap(({ device, ratings }) =>
      Object.entries(devices.get(device)?.data.elements ?? {}).flatMap(([name, element]) =>
        element.kind === 'fuse' || element.kind === 'breaker'
          ? [own(ratings, name) ?? element.rating]
          : [],
      ),
    ),
  );
  return (text) =>
    [...text.matchAll(/\b(\d+) ?A(?= (?:fuse|link|MCB|breaker)\b)/g)].flatMap(
      ({ 0: found, 1: ampere, index }) => {
        if (ratings.has(Number(ampere)) || NOT.test(text.slice(0, index))) return [];
        const message = `nothing in this system is rated ${found}`;
        const details = { found, allowed: [...ratings].map((one) => `${one} A`).join(', ') };
        return [{ code: 'text-fuse' as const, message, details, at: index }];
      },
    );
}

/** A volt or an ohm in the body of a system is computed, and shown by `<Reading>`. */
const typedFigures = (text: string): Finding[] =>
  [...text.matchAll(/\b\d+(?:\.\d+)? ?(?:V|Ω)(?![\w²])/g)].map(({ 0: found, index }) => ({
    code: 'text-figure',
    message: 'a figure is typed where the page can compute it',
    details: { found },
    at: index,
  }));

/** A title or a summary that names a limit names that of the rule. */
function limitProblems({ data, places }: Entry<Standard>): Problem[] {
  const report = reportFor(places);
  const limits = numbersIn(data.rule);
  for (const field of ['title', 'summary'] as const)
    for (const [found, number] of data[field].matchAll(
      /\b(\d+(?:\.\d+)?) ?(?:mm²|A|V|Ω|%|m)(?!\w)/g,
    ))
      if (!limits.includes(Number(number)))
        report.value('text-limit', [field], `the rule has no such limit as ${found}`, {
          found,
          allowed: limits.join(', '),
        });
  return [...report.problems];
}

const numbersIn = (value: unknown): number[] =>
  typeof value === 'number'
    ? [value]
    : typeof value === 'object' && value !== null
      ? Object.values(value).flatMap(numbersIn)
      : [];

/** Summaries that stand in two entries of a kind; of titles that is an error. */
function copies(entries: Entries): Problem[] {
  const first = new Map<string, string>();
  return entriesByKind(entries).flatMap(([kind, , { file, data, places }]) => {
    const { summary } = data as { readonly summary?: string };
    if (summary === undefined) return [];
    const key = `${kind} ${summary.trim().toLowerCase()}`;
    const other = first.get(key);
    if (other === undefined) {
      first.set(key, file);
      return [];
    }
    const report = reportFor(places);
    const message = `${other} has this very summary too`;
    report.value('text-copied', ['summary'], message, { found: summary });
    return [...report.problems];
  });
}
