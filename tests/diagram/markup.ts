/** An element of a parsed drawing. */
export interface Markup {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Markup[];
  text: string;
}

const PART = /<(\/?)([a-z]+)((?: [a-zA-Z:-]+="[^"<>]*")*)(\/?)>|([^<>]+)/gy;

/**
 * Reads a drawing as XML, strictly: every element closed in its turn, every attribute quoted
 * and given once, nothing left over.
 * @throws Error that quotes the place where the text is not well formed.
 */
export function parseMarkup(text: string): Markup {
  const root: Markup = { name: '', attributes: {}, children: [], text: '' };
  const open = [root];
  PART.lastIndex = 0;
  while (PART.lastIndex < text.length) {
    const at = PART.lastIndex;
    const part = PART.exec(text);
    const parent = open.at(-1)!;
    if (!part) throw new Error(`not well formed: ${text.slice(at, at + 60)}`);
    const [, closing, name, attributes = '', empty, words] = part;
    if (words !== undefined) parent.text += words;
    else if (closing) {
      if (parent.name !== name) throw new Error(`</${name}> closes <${parent.name}>`);
      open.pop();
    } else {
      const made: Markup = { name: name!, attributes: read(attributes), children: [], text: '' };
      parent.children.push(made);
      if (!empty) open.push(made);
    }
  }
  if (open.length > 1) throw new Error(`<${open.at(-1)!.name}> is not closed`);
  return root.children[0]!;
}

function read(text: string): Record<string, string> {
  const found: Record<string, string> = {};
  for (const [, key, value] of text.matchAll(/ ([a-zA-Z:-]+)="([^"]*)"/g)) {
    if (key! in found) throw new Error(`${key} is given twice in${text}`);
    found[key!] = value!;
  }
  return found;
}

/** Every element of a drawing that carries an attribute, in order. */
export function having(markup: Markup, attribute: string): Markup[] {
  const own = attribute in markup.attributes ? [markup] : [];
  return [...own, ...markup.children.flatMap((child) => having(child, attribute))];
}

/** Every text printed in a drawing, as a reader sees it; titles and styles are not. */
export function printed(markup: Markup): string[] {
  if (markup.name === 'text') return [plain(markup.text).trim()];
  return markup.children.flatMap(printed);
}

const plain = (text: string): string =>
  text
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&');
