import { FIRM_FILE, Firm } from '../../schemas/index.ts';
import {
  among,
  type Effects,
  type FirmLayer,
  jsonSchemaOfSettings,
  makeProblem,
  type Place,
  type Problem,
  type ProblemCode,
  readSettings,
  type Settings,
  wholeFile,
} from '../entries/index.ts';
import { COUNTS_FILE, type CountedVisit, readCounts } from '../field/index.ts';
import { accentContrast, LEAST_CONTRAST, readable, type Scheme } from './contrast.ts';
import { CONTENT } from './folders.ts';
import { type Logo, readLogo } from './logo.ts';

/** A firm's folder as read: its settings, its logo, and the layer of its entries. */
export interface FirmFolder {
  readonly settings: Firm;
  readonly logo?: Logo;
  /** Visits that were counted, where there are any. */
  readonly visits?: readonly CountedVisit[];
}

/** What a firm's folder holds, and what is wrong with it. */
export interface ReadFirm {
  /** Absent when the settings cannot be read. */
  readonly firm?: FirmFolder;
  /** There whenever entries can be read. */
  readonly layer?: FirmLayer;
  readonly problems: readonly Problem[];
}

/** Stands before the paths of a firm's files in problems. */
export const FIRM_PREFIX = 'firm/';

/** What a settings file may say, for editors and for messages. */
export const firmJsonSchema = () =>
  jsonSchemaOfSettings(Firm, 'Firm', 'Settings of a firm: firm.yaml in its folder');

/** Reads a firm's folder: `firm.yaml`, the logo it names, and where its entries stand. */
export function readFirm(folder: string, effects: Effects): ReadFirm {
  const listed = effects.list(folder);
  const atFile = (code: ProblemCode, file: string, message: string, found?: string): Problem =>
    makeProblem(code, wholeFile(`${FIRM_PREFIX}${file}`), [], message, { found });
  if (!listed) return { problems: [atFile('firm-missing', '', 'there is no such folder', folder)] };
  const item = (name: string) => listed.find((one) => one.name === name);
  const file = item(FIRM_FILE);
  if (!file || file.folder) {
    const above = effects.list(`${folder}/..`)?.some((one) => one.name === FIRM_FILE);
    const message = `this folder has no ${FIRM_FILE}, so it is no firm’s folder${above ? '; the one above it is' : ''}`;
    return { problems: [atFile('firm-missing', FIRM_FILE, message)] };
  }
  if (file.other)
    return { problems: [atFile('file-link', FIRM_FILE, 'this is a link, not a file of its own')] };
  let bytes: Uint8Array;
  try {
    bytes = effects.read(`${folder}/${FIRM_FILE}`);
  } catch {
    return { problems: [atFile('file-unreadable', FIRM_FILE, 'the file cannot be read')] };
  }
  const read = readSettings(`${FIRM_PREFIX}${FIRM_FILE}`, bytes, Firm, firmJsonSchema());
  const content = item(CONTENT);
  const linked =
    content && !content.folder
      ? [atFile('file-link', CONTENT, 'this is no folder of its own; entries stand in one')]
      : [];
  const layer = layerOf(linked.length > 0 ? `${folder}/.none` : `${folder}/${CONTENT}`, read);
  if (!read.data) return { layer, problems: [...read.problems, ...linked] };
  const logo = logoOf(folder, read, effects);
  const counted = countedIn(folder, effects);
  return {
    firm: {
      settings: read.data,
      ...(logo.logo ? { logo: logo.logo } : {}),
      ...(counted.visits?.length ? { visits: counted.visits } : {}),
    },
    layer,
    problems: [
      ...read.problems,
      ...linked,
      ...accentProblems(read),
      ...logo.problems,
      ...counted.problems,
    ],
  };
}

/** Visits counted in the folder; none where there is no such file. */
function countedIn(
  folder: string,
  effects: Effects,
): { readonly visits?: readonly CountedVisit[]; readonly problems: readonly Problem[] } {
  const [within = '', name = ''] = COUNTS_FILE.split('/');
  const refuse = (message: string) => ({
    problems: [makeProblem('counts-unfit', wholeFile(`${FIRM_PREFIX}${COUNTS_FILE}`), [], message)],
  });
  const holder = effects.list(folder)?.find((one) => one.name === within);
  if (!holder) return { problems: [] };
  if (!holder.folder) return refuse(`${within} is no folder of its own`);
  const item = effects.list(`${folder}/${within}`)?.find((one) => one.name === name);
  if (!item) return { problems: [] };
  if (item.folder || item.other) return refuse('this is no file of its own');
  try {
    const bytes = effects.read(`${folder}/${COUNTS_FILE}`);
    const read = readCounts(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
    return 'problem' in read ? refuse(read.problem) : { visits: read.visits, problems: [] };
  } catch {
    return refuse('the file cannot be read as UTF-8 text');
  }
}

const layerOf = (content: string, { data, places }: Settings<Firm>): FirmLayer => ({
  content,
  hide: data?.hide ?? [],
  aliases: data?.aliases ?? { entries: {}, terminals: {} },
  ...(data ? { features: data.features } : {}),
  places,
});

function accentProblems({ data, places }: Settings<Firm>): Problem[] {
  const { accent } = data ?? {};
  if (!accent) return [];
  return (['light', 'dark'] as const).flatMap((scheme: Scheme) => {
    const ratio = accentContrast(accent[scheme], scheme);
    if (ratio >= LEAST_CONTRAST) return [];
    const path = ['accent', scheme];
    const message = `the contrast is ${ratio.toFixed(1)} to 1 on ${scheme === 'light' ? 'paper' : 'slate'}`;
    const details = {
      found: accent[scheme],
      allowed: `at least ${LEAST_CONTRAST} to 1`,
      suggestion: `"${readable(accent[scheme], scheme)}"`,
    };
    return [makeProblem('accent-contrast', places.value(path), path, message, details)];
  });
}

function logoOf(
  folder: string,
  { data, places }: Settings<Firm>,
  effects: Effects,
): { readonly logo?: Logo; readonly problems: readonly Problem[] } {
  const name = data?.logo;
  if (name === undefined) return { problems: [] };
  const place: Place = places.value(['logo']);
  const refuse = (message: string, details = {}) => ({
    problems: [makeProblem('logo-unfit', place, ['logo'], message, { found: name, ...details })],
  });
  const listed = effects.list(folder) ?? [];
  const item = listed.find((one) => one.name === name);
  if (!item || item.folder) {
    const files = listed.filter(({ folder: is, other }) => !is && !other);
    return refuse(`there is no file “${name}” beside ${FIRM_FILE}`, {
      suggestion: among(
        name,
        files.map((one) => one.name),
      ).suggestion,
    });
  }
  if (item.other) return refuse('it is a link or a special file, not a file of its own');
  try {
    const logo = readLogo(name, effects.read(`${folder}/${name}`));
    return 'problem' in logo ? refuse(logo.problem) : { logo, problems: [] };
  } catch {
    return refuse('the file cannot be read');
  }
}
