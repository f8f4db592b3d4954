/** A word that the trade does not use for a thing, and what it says (common practice, no source). */
export interface Term {
  readonly say: string;
  readonly not: RegExp;
  /** Where the same letters are the trade's own: what stands about them. */
  readonly fine?: RegExp;
}

const term = (say: string, not: RegExp, fine?: RegExp): Term => ({
  say,
  not: new RegExp(not, 'gi'),
  ...(fine ? { fine } : {}),
});

/**
 * What readers are told, for what they are not told. Held against every entry by `npm run check`
 * and against every text of the built site. Other names stand where any word may, see `ANY_WORD`.
 */
export const TERMS: readonly Term[] = [
  // Equipment
  term('fused spur', /\bconnection units?\b/),
  term('manufacturer', /\bmakers?\b/),
  term('room stat', /\b(?<!living )room controls?\b/),
  term('wireless room stat', /\bsenders?\b/),
  term('cylinder stat', /\bchange-over devices?\b/),
  term(
    'backplate',
    /\b(?:its|the|off the|bare) plates?\b/,
    /plates? (?:of|and spring|says|is fixed)/,
  ),
  term('wiring centre, junction box', /\bterminal strips?\b/),
  term('MCB, RCD, RCBO, fuse', /\bprotective devices?\b/),
  term('MCB, RCBO', /\b(?:circuit-)?breakers?\b/),
  term('consumer unit', /\bsupply circuits?\b/),
  term('pump', /\bcirculating pumps?\b/),
  term('valve head, actuator', /\bthe mechanisms?\b/),
  term('flying lead, flex', /\bmoulded leads?\b/),
  term('24 V, extra-low voltage', /(?<!extra-)\blow[- ]voltage\b/),
  // Conductors and terminals
  term('permanent live', /\bsupply line\b|\bpermanent line\b/),
  term('live to stat', /\bcall feeds?\b/),
  term('switched live, switched live back', /\bcall returns?\b/),
  term('earth', /\bprotective conductors?\b/),
  term('live', /\bline conductors?\b/),
  term('core', /\bconductor branch(?:es)?\b/),
  // States
  term('no display', /\b(?:boiler|display) dark\b/),
  term(
    'no volts; dead is what is proved so',
    /\b(?:reads?|reading|goes|falls? to) dead\b|\bdead to (?:neutral|earth)\b|\b(?:live nor|live and|live or) dead\b|\bdead there\b/,
  ),
  term('part volts', /\bbetween reading\b|\breads? between\b/),
  term('continuity, short', /\breads? joined\b|\bnot joined\b/),
  term('boiler firing, boiler not firing', /\bburner (?:still )?(?:lit|out)\b/),
  term('in lockout', /\bshows a lockout\b/),
  term('nothing calling', /\bstandby\b/),
  term('with heating calling', /\bheating mode\b/),
  term('disconnected', /\bparted\b|\bparting\b/),
  term('loose, pulled out', /\bout of its point\b/),
  term('crossed, swapped over', /\bexchanged\b/),
  term('linked out; a bypass is pipework', /\bbypassed\b/),
  term('isolated, insulated; made safe is gas', /\bmade safe\b/),
  term('lever on manual', /\bheld position\b/),
  term('overrun', /\brun-on\b/),
  term('short cycling', /\bhunting\b/),
  term('intermittent', /\bunstable\b/),
  term('blown fuse', /\bopen fuse\b/),
  term('seized, sticking', /\bstuck pins?\b/),
  // Acts
  term('repair', /\bmend(?:s|ed|ing)?\b/),
  term('remake', /\brejoin(?:s|ed|ing)?\b/),
  term('prove dead', /\bcheck(?:ed)? dead\b|\btest(?:ed)? for dead\b/),
  term('insulation test', /\bleak(?:age)? test\b/),
  // The work and its papers
  term('customer, tenant', /\bhousehold\b/),
  term('test sequence, test order', /\b(?:whole|decision) tree\b/),
  term('how likely, most likely', /\bfaults’ weights\b|\bweights?\b/),
  term('no fault found', /\bcircumstances?\b/),
  term('as it should be, as the page shows', /\bas (?:the|this) entry shows\b/),
];

/** One word found, where it stands in the text. */
export interface FoundTerm {
  readonly found: string;
  readonly say: string;
  readonly at: number;
}

/** Characters about a word in which what makes it the trade's own is looked for. */
const ABOUT = 40;

/** Every word of a text that the trade does not use so, in order. */
export function wrongTerms(text: string): FoundTerm[] {
  return TERMS.flatMap(({ not, say, fine }) =>
    [...text.matchAll(not)].flatMap(({ 0: found, index }) =>
      fine?.test(text.slice(Math.max(index - ABOUT, 0), index + found.length + ABOUT))
        ? []
        : [{ found, say, at: index }],
    ),
  ).toSorted((a, b) => a.at - b.at);
}

/**
 * Fields of an entry in which any word may stand: what somebody may search for, what an entry was
 * called before, what customers say, what a publication says.
 */
export const ANY_WORD: readonly string[] = [
  'aliases',
  'abbreviations',
  'formerly',
  'sources',
  'says',
  'complaint',
];

/** Fields of an entry that people read; all others hold names, ids and rules. */
export const READ_FIELDS: readonly string[] = [
  'title',
  'summary',
  'otherwise',
  'function',
  'name',
  'place',
  'labels',
  'why',
  'because',
  'care',
  'caution',
  'cautions',
  'do',
  'expect',
  'tells',
  'bring',
  'notes',
  'recognise',
  'first',
  'seen',
  'tools',
];
