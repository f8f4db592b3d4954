/** Version of the form links are written in: counts up when an older reader would misread it. */
export const LINK_VERSION = 1;
/** Longest sealed text that is read or written, letters: what messengers pass on whole. */
export const MOST_LINK = 4000;

/** What a sealed text holds, before anybody has looked at whether it makes sense. */
export interface Unsealed {
  readonly system: string;
  readonly wiring: number;
  readonly value: unknown;
}

/** A sealed text that cannot be opened: why, and one line that says what to do. */
export interface LinkProblem {
  readonly problem:
    | 'long'
    | 'foreign'
    | 'newer'
    | 'damaged'
    | 'other system'
    | 'outdated'
    | 'unknown';
  readonly message: string;
}

/**
 * Writes a value as text for an address: version, system, version of its wiring, the value,
 * and a check sum, by which a link cut short or altered on its way is known. Only letters,
 * digits, `-`, `_` and `.`, which every messenger leaves alone.
 */
export function seal(system: string, wiring: number, value: unknown): string {
  const body = `${LINK_VERSION}.${system}.${wiring}.${toText(JSON.stringify(value))}`;
  return `${body}.${checkSum(body)}`;
}

/** Opens a sealed text. Nothing in it is run or followed. */
export function unseal(text: string): Unsealed | LinkProblem {
  if (text.length > MOST_LINK)
    return {
      problem: 'long',
      message: `This link is too long: ${text.length} letters, and one made here has at most ${MOST_LINK}. Nothing of it was taken over.`,
    };
  const parts = text.split('.');
  const version = /^[1-9][0-9]{0,3}$/.test(parts[0] ?? '') ? Number(parts[0]) : null;
  if (version === null || parts.length < 2)
    return {
      problem: 'foreign',
      message: 'This link was not made here. Nothing of it was taken over.',
    };
  if (version > LINK_VERSION)
    return {
      problem: 'newer',
      message:
        'This link was made by a newer version of this reference. Take up the newer version, then open it again.',
    };
  const at = text.lastIndexOf('.');
  const body = text.slice(0, at);
  const [, system, wiring, payload] = parts;
  if (parts.length !== 5 || text.slice(at + 1) !== checkSum(body)) return DAMAGED;
  if (!/^[a-z0-9-]{1,80}$/.test(system!) || !/^[1-9][0-9]{0,5}$/.test(wiring!)) return DAMAGED;
  try {
    return { system: system!, wiring: Number(wiring), value: JSON.parse(fromText(payload!)) };
  } catch {
    return DAMAGED;
  }
}

/** A link that lost or changed letters on its way. */
export const DAMAGED: LinkProblem = {
  problem: 'damaged',
  message:
    'This link is damaged: letters were lost or changed on the way. Nothing of it was taken over. Ask for it again, or copy it whole.',
};

/** 32-bit FNV-1a over the text's code units, base 36. */
function checkSum(text: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) {
    hash ^= text.charCodeAt(i);
    hash = Math.imul(hash, 0x01000193);
  }
  return (hash >>> 0).toString(36).padStart(7, '0');
}

/** Base 64 of a text's UTF-8 bytes, in the alphabet for addresses (RFC 4648 §5), no padding. */
function toText(text: string): string {
  const bytes = Array.from(new TextEncoder().encode(text), (b) => String.fromCharCode(b)).join('');
  return btoa(bytes).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
}

function fromText(text: string): string {
  const bytes = atob(text.replaceAll('-', '+').replaceAll('_', '/'));
  return new TextDecoder('utf-8', { fatal: true }).decode(
    Uint8Array.from(bytes, (c) => c.charCodeAt(0)),
  );
}
