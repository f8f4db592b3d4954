import { CATALOGUE, type Problem } from '../entries/index.ts';
import { located } from '../firm/index.ts';
import { FORM } from './entry-form.ts';

/** The page that stands in the place of every other while entries have problems. */
export function problemPage(problems: readonly Problem[], base: string): string {
  const items = problems.map((problem) => {
    const { file, position, code, message, path, found, allowed, suggestion, frame } =
      located(problem);
    const facts = [
      ['at', path],
      ['found', found],
      ['allowed', allowed],
      ['did you mean', suggestion],
    ].flatMap(([name, value]) =>
      value ? [`<dt>${name}</dt><dd><code>${escaped(value)}</code></dd>`] : [],
    );
    const explained = Object.entries(CATALOGUE).find(([known]) => known === code)?.[1];
    return `<article><h2>${escaped(message)}</h2>
<p><code>${escaped(file)}:${position.line}:${position.column}</code> ${escaped(code)}</p>
<dl>${facts.join('')}</dl>
<pre>${escaped(frame)}</pre>
${explained ? `<p>${escaped(explained.why)} <b>${escaped(explained.mend)}</b></p>` : ''}</article>`;
  });
  const count = problems.length === 1 ? '1 problem' : `${problems.length} problems`;
  return `<!doctype html>
<html lang="en-GB"><head><meta charset="utf-8"><title>${count} in the entries</title>
<meta name="viewport" content="width=device-width, initial-scale=1">
<script type="module" src="${escaped(base)}@vite/client"></script>
<style>:root{color-scheme:light dark}body{font:1rem/1.5 system-ui,sans-serif;max-width:52rem;margin:auto;padding:1rem}
h2{font-size:1.125rem;margin-block:2rem .25rem}pre{overflow-x:auto;padding:.75rem;border:1px solid}
dl{display:grid;grid-template-columns:max-content 1fr;gap:0 1rem;margin:0}dd{margin:0;overflow-wrap:anywhere}</style>
</head><body><h1>${count} in the entries</h1>
<p>This page goes away by itself when they are put right: in an editor, or <a href="${escaped(base)}${FORM}">in a form</a>.</p>
${items.join('\n')}</body></html>
`;
}

const escaped = (text: string) =>
  text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
