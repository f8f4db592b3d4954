/** Puts the words of the missing address into the search box. */
export function fillFromAddress(): void {
  const box = document.querySelector<HTMLInputElement>('#q');
  const words = wordsOf(location.pathname, document.body.dataset.base ?? '/');
  if (box && words) box.value = words;
}

const KINDS = ['systems', 'devices', 'symptoms', 'procedures', 'standards', 'glossary'];

/** The words of an address under a base path, without the kind of entry: `combi two wire`. */
export function wordsOf(path: string, base: string): string {
  return decoded(path.slice(base.length - 1))
    .replace(/\.[a-z]+$/, '')
    .split('/')
    .filter((part) => part !== '' && !KINDS.includes(part))
    .join(' ')
    .replace(/[-_]+/g, ' ')
    .trim();
}

/** A mistyped address may hold a percent sign that encodes nothing; it is then read as it stands. */
function decoded(path: string): string {
  try {
    return decodeURIComponent(path);
  } catch {
    return path.replaceAll('%', ' ');
  }
}
