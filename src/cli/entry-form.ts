import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { join, relative } from 'node:path';
import type { AstroIntegration } from 'astro';
import { z } from 'zod';
import { Slug } from '../../schemas/index.ts';
import { entriesByKind, KINDS, type Kind } from '../entries/index.ts';
import { checkSources } from '../firm/index.ts';
import { copiedIn } from '../form/copied.ts';
import { withWritten, writtenIn } from '../form/document.ts';
import type { EntryToWrite, Offered, Verdict } from '../form/messages.ts';
import { devicesIn, said, schemaOf } from './form-facts.ts';
import { checkedWith, ownContent, problemsOf } from './own-system.ts';
import { slugOf, writeNew } from './write-new.ts';

/** Where the form stands among the pages while they are written. */
export const FORM = 'write/';
/** Bytes of an entry at most. */
const MOST_BYTES = 1_000_000;

const kinds = Object.keys(KINDS) as [Kind, ...Kind[]];
const Named = z.object({ kind: z.enum(kinds), id: Slug });
const Written = Named.extend({ values: z.record(z.string(), z.unknown()), body: z.string() });
const Saved = Written.extend({ base: z.string() });
const New = z.object({ kind: z.enum(kinds), like: Slug, title: z.string().trim().min(1) });

/**
 * Entries as a form, on a page of its own while pages are written: the same files as an editor
 * writes, with what is wrong beside each field. It answers to its own page alone.
 */
export const entryForm: AstroIntegration = {
  name: 'entry-form',
  hooks: {
    'astro:config:setup': ({ injectRoute }) =>
      injectRoute({ pattern: `/${FORM}`, entrypoint: './src/form/Form.astro' }),
    'astro:server:setup': ({ server }) => {
      server.middlewares.use((request, response, next) => {
        const url = new URL(request.url ?? '/', 'http://localhost');
        // The page server has taken the site's own path off already.
        const base = `/${FORM}`;
        if (!url.pathname.startsWith(base)) return next();
        // The page server answers for no address without a slash at its end.
        const name = url.pathname.slice(base.length).replace(/\/$/, '');
        if (name === '') return next();
        answer(name, url, request).then(
          (found) => send(response, 200, found),
          (error: unknown) => send(response, 400, { error: causeOf(error) }),
        );
      });
    },
  },
};

/** What was wrong with what was asked, in plain words. */
function causeOf(error: unknown): string {
  if (error instanceof z.ZodError) return z.prettifyError(error);
  return error instanceof Error ? error.message : String(error);
}

function send(response: ServerResponse, status: number, body: unknown): void {
  response.writeHead(status, { 'content-type': 'application/json', 'cache-control': 'no-store' });
  response.end(JSON.stringify(body));
}

async function answer(name: string, url: URL, request: IncomingMessage): Promise<unknown> {
  if (request.method === 'GET') {
    if (name === 'entries') return offered();
    if (name === 'entry') return entryToWrite(Named.parse(Object.fromEntries(url.searchParams)));
  }
  if (request.method === 'POST') {
    // Another site's page could send a form, but no JSON, and its browser says where it comes from.
    const { 'content-type': type, 'sec-fetch-site': from = 'same-origin' } = request.headers;
    if (!type?.startsWith('application/json') || from !== 'same-origin')
      throw new Error('Entries are written from this form alone.');
    const asked: unknown = JSON.parse(await bodyOf(request));
    if (name === 'check') return verdictOn(Written.parse(asked));
    if (name === 'save') return save(Saved.parse(asked));
    if (name === 'new') return begin(New.parse(asked));
  }
  throw new Error(`There is nothing at ${name}.`);
}

async function bodyOf(request: IncomingMessage): Promise<string> {
  const parts: Buffer[] = [];
  let bytes = 0;
  for await (const part of request as AsyncIterable<Buffer>) {
    bytes += part.length;
    if (bytes > MOST_BYTES) throw new Error('An entry is at most 1 MB.');
    parts.push(part);
  }
  return Buffer.concat(parts).toString('utf8');
}

/** Entries of one's own that may be written, and those that a new one may start from. */
function offered(): Offered {
  const { entries, problems, firm } = checkSources();
  const titles = new Map(
    entriesByKind(entries).map(([kind, , { id, data }]) => [
      `${kind} ${id}`,
      (data as { title: string }).title,
    ]),
  );
  const own = kinds.flatMap((kind) => {
    const folder = join(ownContent(), KINDS[kind].folder);
    const names = existsSync(folder) ? readdirSync(folder) : [];
    return names
      .filter((name) => name.endsWith('.mdx'))
      .map((name) => {
        const id = name.slice(0, -'.mdx'.length);
        const wrong = problemsOf(problems, join(folder, name), kind).length;
        return { kind, id, title: titles.get(`${kind} ${id}`) ?? id, wrong };
      });
  });
  return {
    ...(firm ? { firm: firm.settings.name } : {}),
    kinds: kinds.map((kind) => ({ kind, title: KINDS[kind].title })),
    own,
    like: entriesByKind(entries).flatMap(([kind, , { id, origin }]) =>
      origin === 'reference' ? [{ kind, id, title: titles.get(`${kind} ${id}`)! }] : [],
    ),
  };
}

const fileOf = ({ kind, id }: { kind: Kind; id: string }) =>
  join(ownContent(), KINDS[kind].folder, `${id}.mdx`);

function textOf(named: z.infer<typeof Named>): string {
  const file = fileOf(named);
  if (!existsSync(file)) throw new Error(`There is no ${relative('.', file)}.`);
  return readFileSync(file, 'utf8');
}

const hashOf = (text: string) => createHash('sha256').update(text).digest('hex');

function entryToWrite(named: z.infer<typeof Named>): EntryToWrite {
  const text = textOf(named);
  const { entries, problems, firm } = checkSources();
  const { values, body } = writtenIn(text);
  const others = entriesByKind(entries).filter(
    ([kind, , { id, origin }]) => kind === named.kind && id !== named.id && origin === 'reference',
  );
  const copied = others
    .map(([, , { data }]) => ({
      from: (data as { title: string }).title,
      at: copiedIn(values, data),
    }))
    .toSorted((a, b) => b.at.length - a.at.length)[0];
  return {
    ...named,
    file: relative('.', fileOf(named)),
    base: hashOf(text),
    values,
    body,
    schema: schemaOf(named.kind, values, firm),
    devices: devicesIn(entries),
    ...(copied && copied.at.length > 0 ? { copied } : {}),
    problems: said(problemsOf(problems, fileOf(named), named.kind)),
  };
}

/** What would be wrong with an entry written so. */
function verdictOn({ kind, id, values, body }: z.infer<typeof Written>): Verdict {
  const text = withWritten(textOf({ kind, id }), { values, body });
  return { problems: said(checkedWith(fileOf({ kind, id }), text, kind)) };
}

/** Writes an entry's file, but never over what somebody else wrote meanwhile. */
function save({ base, ...asked }: z.infer<typeof Saved>): { base: string } {
  const before = textOf(asked);
  if (hashOf(before) !== base)
    throw new Error(
      `${relative('.', fileOf(asked))} was changed by somebody else since this form read it. Nothing is written. Copy what you changed, then read it again.`,
    );
  const text = withWritten(before, asked);
  writeFileSync(fileOf(asked), text);
  return { base: hashOf(text) };
}

function begin({ kind, like, title }: z.infer<typeof New>): { kind: Kind; id: string } {
  const id = slugOf(title);
  writeNew({ kind, like, id, title });
  return { kind, id };
}
