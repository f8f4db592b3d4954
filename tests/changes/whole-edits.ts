import type { Rank } from '../../src/changes/index.ts';

/** An edit of the bench by an author, and the one line that a reader must be told. */
export type EditCase = readonly [
  file: string,
  from: string,
  to: string,
  rank: Rank,
  title: string,
  words: string,
];

const DEAD = 'procedures/make-dead.mdx';
const TESTS = 'procedures/bench-dead-tests.mdx';
const HAND = 'procedures/hand-over.mdx';
const FUSE = 'standards/small-fuse.mdx';
const LOSS = 'standards/loss.mdx';
const TIDY = 'standards/tidy.mdx';
const GUARD = 'devices/guard.mdx';
const SWITCH = 'devices/fused-switch.mdx';
const HEATER = 'devices/bench-heater.mdx';
const KNOB = 'devices/room-switch.mdx';
const DARK = 'symptoms/knob-dark.mdx';
const COLD = 'symptoms/stays-cold.mdx';
const PLAIN = 'systems/plain-bench.mdx';
const CALL = 'glossary/call.mdx';
const BOX = 'modules/bench-box.mdx';

const PLAIN_TITLE = 'Plain bench';
const SAFETY_TITLE = 'Make the bench dead';
const TESTS_TITLE = 'Test the bench dead';
const HAND_TITLE = 'Hand the bench over';

/** What is dangerous if missed. */
const DANGEROUS: readonly EditCase[] = [
  // biome-ignore format: a table
  ...([
    [DEAD, 'take the fuse out and lock off', 'and lock off', 'danger', SAFETY_TITLE, 'Step 1: the act now “Switch the fused switch off, and lock off.”, was “Switch the fused switch off, take the fuse out and lock off.”'],
    [DEAD, 'Prove the tester on a known source before and after.', 'Prove the tester on a known source.', 'danger', SAFETY_TITLE, 'the caution now “Prove the tester on a known source.”, was “Prove the tester on a known source before and after.”'],
    [DEAD, '    caution: Prove', '    expect: The lamp is out.\n    caution: Prove', 'danger', SAFETY_TITLE, 'what must be seen now “The lamp is out.”, was none'],
    [DEAD, 'steps:\n', 'steps:\n  - do: Tell whoever works beside you.\n', 'danger', SAFETY_TITLE, 'New step 1: “Tell whoever works beside you.”'],
    [DEAD, '  - Treat every conductor as live until it is proved dead.', '  - Treat every conductor as live until the lamp is out.', 'danger', SAFETY_TITLE, 'Caution reworded: now “Treat every conductor as live until the lamp is out.”, was “Treat every conductor as live until it is proved dead.”'],
    [DEAD, 'cautions:\n', 'cautions:\n  - Nobody works alone.\n', 'danger', SAFETY_TITLE, 'Caution added: “Nobody works alone.”'],
    [DEAD, 'kind: isolation', 'kind: handing over', 'danger', SAFETY_TITLE, 'Kind: now “handing over”, was “isolation”'],
    [DEAD, 'cautions:', 'tools: [A lock]\ncautions:', 'danger', SAFETY_TITLE, 'Tool added: “A lock”'],
    [TESTS, 'Less than half an ohm.', 'Less than one ohm.', 'danger', TESTS_TITLE, 'Step 2 “Read each core from end to end.”: what must be seen now “Less than one ohm.”, was “Less than half an ohm.”'],
    [TESTS, '  - do: Null the leads of the meter against one another.\n', '', 'danger', TESTS_TITLE, 'Step 1 taken out: “Null the leads of the meter against one another.”'],
    [TESTS, 'They are taken off the reading.', 'They are added to the reading.', 'danger', TESTS_TITLE, '“Why the leads are nulled”: now “They are added to the reading.”, was “They are taken off the reading.”'],
    [TESTS, '## What a winding reads\n\nA coil of the bench reads hundreds of ohms.\n', '', 'danger', TESTS_TITLE, '“What a winding reads” taken out'],
    [HAND, 'Put the panel back on its screws.', 'Put the panel back on all its screws.', 'danger', HAND_TITLE, 'Step 2: the act now “Put the panel back on all its screws.”'],
    [HAND, '    caution: Isolated and proved dead before a hand goes behind it.\n', '', 'danger', HAND_TITLE, 'Step 2 “Put the panel back on its screws.”: the caution now none, was “Isolated and proved dead before a hand goes behind it.”'],
    [HAND, 'The heater is hot to the touch for minutes.', 'The heater is hot to the touch for an hour.', 'danger', HAND_TITLE, 'Caution reworded: now “The heater is hot to the touch for an hour.”'],
    [FUSE, 'ratings: [3]', 'ratings: [3, 5]', 'danger', 'The bench is fed through a 3 A fuse', 'Rule, fuse rating, ratings: now 3, 5, was 3'],
    [FUSE, 'severity: danger', 'severity: advice', 'danger', 'The bench is fed through a 3 A fuse', 'Severity: now “advice”, was “danger”'],
    [FUSE, 'sources:', 'applies: { arrangements: [combi] }\nsources:', 'danger', 'The bench is fed through a 3 A fuse', 'Systems it is about: now arrangements combi, was none'],
    [LOSS, 'severity: fault', 'severity: danger', 'danger', 'Leads lose at most 5 %', 'Severity: now “danger”, was “fault”'],
    [PLAIN, 'checked: 2025-03-01', 'exceptions:\n  - { standard: small-fuse, why: An older bench, by: The bench, from: "2026-01-01", until: "2026-12-31" }\nchecked: 2025-03-01', 'danger', PLAIN_TITLE, 'Exception to small-fuse added: “An older bench”, allowed by The bench from 1 January 2026 until 31 December 2026'],
    [PLAIN, 'checked: 2025-03-01', 'cautions: [The knob is live.]\nchecked: 2025-03-01', 'danger', PLAIN_TITLE, 'Caution added: “The knob is live.”'],
    [KNOB, '  - Isolate before the cover comes off.', '  - Isolate and lock off before the cover comes off.', 'danger', 'Room switch', 'Caution reworded: now “Isolate and lock off before the cover comes off.”, was “Isolate before the cover comes off.”'],
    [GUARD, ', care: Hot to the touch.', '', 'danger', 'Guard', 'What is seen, “Flag shown”: caution: now none, was “Hot to the touch.”'],
    [GUARD, 'care: The cap is hot.', 'care: The cap is cold.', 'danger', 'Guard', 'Opening “cap”: caution: now “The cap is cold.”, was “The cap is hot.”'],
    [GUARD, 'closed: { not: hot }', 'closed: hot', 'danger', 'Guard', 'guard contact now closes when it opened before, and opens when it closed'],
    [GUARD, '{ kind: contact, between: [in, out], closed: { not: hot } }', '{ kind: link, between: [in, out] }', 'danger', 'Guard', 'guard contact is now a join, was a contact'],
    [GUARD, 'family: safety', 'family: safety\nprotection: class III', 'danger', 'Guard', 'Protection against shock: now “class III”, was “class II”'],
    [GUARD, '  out: { function', '  E: { function: Earth, carries: earth }\n  out: { function', 'danger', 'Guard', 'Terminal “E” added'],
    [GUARD, 'in: { function: Live in, carries: line }', 'in: { function: Live in, carries: switched }', 'danger', 'Guard', 'Terminal “in”: carries: now “switched”, was “line”'],
    [GUARD, 'aliases: [beyond] }', 'aliases: [beyond], voltage: extra-low }', 'danger', 'Guard', 'Terminal “out”: voltage: now “extra-low”, was “mains”'],
    [GUARD, 'minutes: 2,', 'minutes: 2, by: electrician,', 'danger', 'Guard', 'Opening “cap”: who may open it: now “electrician”, was “controls engineer”'],
    [GUARD, 'minutes: 2,', 'minutes: 2, needs: nothing,', 'danger', 'Guard', 'Opening “cap”: what has to be off first: now “nothing”, was “isolated”'],
    [GUARD, 'minutes: 2,', 'minutes: 2, readings: none, because: It is hot,', 'danger', 'Guard', 'Opening “cap”: what may be read there: now “none”, was “live and dead”'],
    [GUARD, 'when: hot', 'when: { not: hot }', 'danger', 'Guard', '“Flag shown” is so under another rule'],
    [SWITCH, 'rating: 3', 'rating: 5', 'danger', 'Fused switch', 'fuse: rating now 5 A, was 3 A'],
    [SWITCH, 'rating: 3', 'rating: 3, standard: IEC 60127', 'danger', 'Fused switch', 'fuse: standard now IEC 60127, was BS 1362'],
    [SWITCH, '  neutral pole: { kind: contact, between: [N in, N out], closed: switched on }', '  neutral pole: { kind: link, between: [N in, N out] }', 'danger', 'Fused switch', 'neutral pole is now a join, was a contact'],
    ['devices/house-supply.mdx', 'earthing: TN-S', 'earthing: TT', 'danger', 'House supply', 'supply: earthing of the supply now TT, was TN-S'],
    [HEATER, 'protection: class I', 'protection: class II', 'danger', 'Bench heater', 'Protection against shock: now “class II”, was “class I”'],
    [HEATER, 'openings:', 'links:\n  - { between: [L, call feed] }\nopenings:', 'danger', 'Bench heater', 'Links it comes with: added “L to call feed”'],
    [PLAIN, 'BN: [E1.call feed, S1.call feed]', 'BN: [E1.L, S1.call feed]', 'danger', PLAIN_TITLE, 'Cable W3: brown (BN) moved from E1.call feed to E1.L; its other end stays at S1.call feed'],
    [PLAIN, 'ratings: { fuse: 3 }', 'ratings: { fuse: 13 }', 'danger', PLAIN_TITLE, 'Fused switch Q1: fuse: rating now 13 A, was 3 A'],
    [PLAIN, 'size: 0.75\n    length: 2\n', 'size: 1.5\n    length: 2\n', 'danger', PLAIN_TITLE, 'Cable W2: now 1.5 mm², was 0.75 mm²'],
    [PLAIN, 'modes:', 'links:\n  - between: [E1.L, E1.call feed]\nmodes:', 'danger', PLAIN_TITLE, 'Link E1.L to E1.call feed added'],
    [PLAIN, 'S1: { device: room-switch, place: On the wall }', 'S1: { device: lit-switch, place: On the wall }', 'danger', PLAIN_TITLE, 'S1 is now Lit room switch, was Room switch'],
    [DARK, 'caution: Isolated and proved dead before the lid comes off.', 'caution: Proved dead before the lid comes off.', 'danger', 'Knob stays dark', 'Step 2 “Look into the lid of the box for water.”: the caution now “Proved dead before the lid comes off.”, was “Isolated and proved dead before the lid comes off.”'],
    [DARK, '    by: electrician\n', '', 'danger', 'Knob stays dark', 'who does it now none, was “electrician”'],
    [DARK, 'The bench may be live behind a dark lamp.', 'The bench is live behind a dark lamp.', 'danger', 'Knob stays dark', 'Caution reworded: now “The bench is live behind a dark lamp.”'],
    [BOX, 'joins: { earth: [box.E] }', 'joins: { earth: [box.E], live: [box.1] }', 'danger', 'Box on the bench', 'What is composed from it, joins: otherwise'],
  ] as const),
];

/** What changes what a reader does or reads. */
const ACTED_ON: readonly EditCase[] = [
  // biome-ignore format: a table
  ...([
    [HAND, 'The lamp in the knob is lit.', 'The lamp in the knob is lit for good.', 'act', HAND_TITLE, 'Step 1 “Switch the bench on and call for heat at the knob.”: what must be seen now “The lamp in the knob is lit for good.”'],
    [HAND, 'tools: [A lamp]', 'tools: [A torch]', 'act', HAND_TITLE, 'Tool reworded: now “A torch”, was “A lamp”'],
    [HAND, '  - do: Write the day inside the lid of the box.\n    why: Whoever comes next asks when it was.\n', '', 'act', HAND_TITLE, 'Step 3 taken out: “Write the day inside the lid of the box.”'],
    [HAND, 'kind: handing over', 'kind: proving', 'act', HAND_TITLE, 'Kind: now “proving”, was “handing over”'],
    [LOSS, 'most: 5', 'most: 2', 'act', 'Leads lose at most 5 %', 'Rule, volt drop, at most: now 2, was 5'],
    [LOSS, 'severity: fault', 'severity: advice', 'act', 'Leads lose at most 5 %', 'Severity: now “advice”, was “fault”'],
    [GUARD, 'function: Live out', 'function: Live beyond the guard', 'act', 'Guard', 'Terminal “out”: function: now “Live beyond the guard”, was “Live out”'],
    [GUARD, 'aliases: [beyond]', 'aliases: [behind]', 'act', 'Guard', 'Terminal “out”: also called: added “behind”; taken out “beyond”'],
    [GUARD, 'title: Flag shown', 'title: Red flag shown', 'act', 'Guard', 'What is seen, “Red flag shown”: title: now “Red flag shown”, was “Flag shown”'],
    [GUARD, 'title: cap,', 'title: blue cap,', 'act', 'Guard', 'Opening “blue cap”: title: now “blue cap”, was “cap”'],
    [GUARD, 'hot: { title: Guard is hot }', 'hot: { title: Guard is hot, usual: true }', 'act', 'Guard', 'Condition “hot”: usually so: now yes, was no'],
    [GUARD, 'openings:\n', 'openings:\n  side: { title: side plate, minutes: 1, shows: [out] }\n', 'act', 'Guard', 'Opening “side plate” added'],
    [GUARD, 'letter: F', 'letter: B', 'act', 'Guard', 'Class letter: now “B”, was “F”'],
    [HEATER, 'watts: 90', 'watts: 120', 'act', 'Bench heater', 'load “coil”: power now 120 W, was 90 W'],
    [HEATER, 'cut-out: { kind: contact, between: [call return, guarded], closed: { position: ready } }', 'cut-out: { kind: link, between: [call return, guarded] }', 'act', 'Bench heater', 'cut-out is now a join, was a contact'],
    [HEATER, 'rest: ready', 'rest: tripped', 'act', 'Bench heater', 'moves under another rule'],
    [HEATER, 'title: Display lit', 'title: Display bright', 'act', 'Bench heater', 'What is seen, “Display bright”: title: now “Display bright”, was “Display lit”'],
    [KNOB, 'call return: { function: Return to the heater }', 'call return: { function: Return to the heater, does: [heating call] }', 'act', 'Room switch', 'Terminal “call return”: part it plays: added “heating call”'],
    [PLAIN, 'length: 8', 'length: 9', 'act', PLAIN_TITLE, 'Cable W3: now 9 m long, was 8 m long'],
    [PLAIN, 'BU: { ends: [E1.call return, S1.call return], sleeve: BN }', 'BU: [E1.call return, S1.call return]', 'act', PLAIN_TITLE, 'Cable W3: blue (BU) E1.call return – S1.call return no longer sleeved'],
    [PLAIN, 'place: On the wall', 'place: On the door', 'act', PLAIN_TITLE, 'Item S1: place: now “On the door”, was “On the wall”'],
    [PLAIN, 'A heater and a knob, and nothing between them.', 'A heater and a knob, with nothing between them.', 'act', PLAIN_TITLE, 'Recognised by reworded: now “A heater and a knob, with nothing between them.”'],
    [PLAIN, 'control: two-wire control', 'control: wireless control', 'act', PLAIN_TITLE, 'Control: now “wireless control”, was “two-wire control”'],
    [PLAIN, '    title: Room calls\n', '    title: Room calls\n    bring: Turn the knob.\n', 'act', PLAIN_TITLE, 'Mode “Room calls”: how it is brought about: now “Turn the knob.”, was none'],
    [PLAIN, '    title: Room calls\n', '    title: Room calls\n    testable: false\n', 'act', PLAIN_TITLE, 'Mode “Room calls”: brought about on a call-out: now no, was yes'],
    ['systems/lit-bench.mdx', 'labels: { 1: Line, 2: Neutral }', 'labels: { 1: Line of the bench, 2: Neutral }', 'act', 'Lit bench', 'Item X1: what its terminals serve: now 1 Line of the bench, 2 Neutral, was 1 Line, 2 Neutral'],
    [COLD, '  - signs:\n      - { family: isolation, fuse: blown }\n', '', 'act', 'Heater stays cold', 'By what signs it is known: otherwise'],
    [DARK, 'tells: Off, it is nothing worse.', 'tells: Off, switch it on.', 'act', 'Knob stays dark', 'Step 1 “Look whether the fused switch is on.”: what it tells now “Off, switch it on.”, was “Off, it is nothing worse.”'],
    [DARK, 'seen: [A dark knob.]', 'seen: [A dark knob on a call.]', 'act', 'Knob stays dark', 'What is seen reworded: now “A dark knob on a call.”, was “A dark knob.”'],
    [DARK, 'cautions:', 'first: Look at the switch.\ncautions:', 'act', 'Knob stays dark', 'What to look at first: now “Look at the switch.”, was none'],
  ] as const),
];

/** What is worth knowing. */
const KNOWN: readonly EditCase[] = [
  // biome-ignore format: a table
  ...([
    [TIDY, 'severity: advice', 'severity: advice\napplies: { arrangements: [combi] }', 'know', 'No switched neutral on the bench', 'Systems it is about: now arrangements combi, was none'],
    [TIDY, 'title: No switched neutral on the bench', 'title: No neutral is switched on the bench', 'know', 'No neutral is switched on the bench', 'Title: now “No neutral is switched on the bench”, was “No switched neutral on the bench”'],
    [TIDY, 'A neutral is left alone.', 'A neutral is never switched.', 'know', 'No switched neutral on the bench', 'Explanation: now “A neutral is never switched.”, was “A neutral is left alone.”'],
    [LOSS, 'summary: A valve on a long lead chatters.', 'summary: A valve on a long lead hums.', 'know', 'Leads lose at most 5 %', 'Summary: now “A valve on a long lead hums.”, was “A valve on a long lead chatters.”'],
    [LOSS, 'sources: [common practice, "no source, from the bench"]', 'sources: [common practice]', 'know', 'Leads lose at most 5 %', 'Source taken out: “no source, from the bench”'],
    [FUSE, 'on: "2025-03-01"', 'on: "2026-03-01"', 'know', 'The bench is fed through a 3 A fuse', 'Review: now by The bench on 1 March 2026, due again on 1 March 2095, was by The bench on 1 March 2025, due again on 1 March 2095'],
    [CALL, 'summary: What a control does when it asks for heat.', 'summary: What a control does when it wants heat.', 'know', 'Call', 'Meaning: now “What a control does when it wants heat.”, was “What a control does when it asks for heat.”'],
    [CALL, 'see: [spur]', 'see: []', 'know', 'Call', 'See also: taken out “spur”'],
    [CALL, 'see: [spur]', 'see: [spur]\nabbreviations: [CFH]', 'know', 'Call', 'Short forms: added “CFH”'],
    [CALL, 'title: Call\n', 'title: Call for heat\n', 'know', 'Call for heat', 'Title: now “Call for heat”, was “Call”'],
    [GUARD, 'title: Guard\n', 'title: Hot guard\n', 'know', 'Hot guard', 'Title: now “Hot guard”, was “Guard”'],
    [GUARD, 'letter: F', 'letter: F\naliases: [stop]', 'know', 'Guard', 'Also called: added “stop”'],
    [GUARD, 'minutes: 2,', 'minutes: 3,', 'know', 'Guard', 'Opening “cap”: minutes to open it: now 3, was 2'],
    [GUARD, 'minutes: 2,', 'minutes: 2, closing: 1,', 'know', 'Guard', 'Opening “cap”: minutes to close it: now 1, was none'],
    [GUARD, 'kind: contact, between', 'kind: contact, name: bimetal contact, between', 'know', 'Guard', 'Name of guard contact: now “bimetal contact”, was none'],
    [GUARD, 'It opens by itself.', 'It opens by itself. It stays open.', 'know', 'Guard', 'Explanation: added “It stays open.”'],
    [GUARD, 'title: Guard is hot', 'title: Guard is too hot', 'know', 'Guard', 'Condition “hot”: title: now “Guard is too hot”, was “Guard is hot”'],
    [SWITCH, '  - bench spur', '  - spur of the bench', 'know', 'Fused switch', 'Also called: added “spur of the bench”; taken out “bench spur”'],
    [PLAIN, 'title: Plain bench', 'title: Bare bench', 'know', 'Bare bench', 'Title: now “Bare bench”, was “Plain bench”'],
    [PLAIN, 'The plainest arrangement there is.', 'It reads <Reading at="E1.call feed" to="E1.N" mode="calling" /> there.', 'know', PLAIN_TITLE, 'added “It reads (what E1.call feed reads to E1.N in ‘Room calls’) there.”'],
    [PLAIN, 'The plainest arrangement there is.', 'The plainest arrangement there can be.', 'know', PLAIN_TITLE, 'Explanation: now “The plainest arrangement there can be.”, was “The plainest arrangement there is.”'],
    [PLAIN, 'version: 1', 'notes: [It hums.]\nversion: 1', 'know', PLAIN_TITLE, 'Note added: “It hums.”'],
    [PLAIN, '    title: Room calls\n', '    title: Room calls\n    minutes: 2\n', 'know', PLAIN_TITLE, 'Mode “Room calls”: minutes to bring it about: now 2, was 1'],
    [PLAIN, '    title: Room calls\n', '    title: Room calls for heat\n', 'know', PLAIN_TITLE, 'Mode “Room calls for heat”: title: now “Room calls for heat”, was “Room calls”'],
    [PLAIN, '    title: Room calls\n', '    title: Room calls\n    summary: The knob is turned.\n', 'know', PLAIN_TITLE, 'Mode “Room calls”: summary: now “The knob is turned.”, was none'],
    [DARK, 'says: [The light never comes on.]', 'says: [The light never comes on at all.]', 'know', 'Knob stays dark', 'In the customer’s words reworded: now “The light never comes on at all.”'],
    [DARK, 'cautions:', 'complaint: Knob is dark\ncautions:', 'know', 'Knob stays dark', 'Complaint: now “Knob is dark”, was none'],
    [DARK, 'cautions:', 'group: controls\ncautions:', 'know', 'Knob stays dark', 'Listed under: now “controls”, was none'],
    [DARK, 'cautions:', 'see: [stays-cold]\ncautions:', 'know', 'Knob stays dark', 'See also: added “stays-cold”'],
    [HAND, 'order: 2', 'order: 4', 'know', HAND_TITLE, 'Place in the list: now 4, was 2'],
    [HAND, 'Say what was done.', 'Say what was done and why.', 'know', HAND_TITLE, 'Explanation: now “Say what was done and why.”, was “Say what was done.”'],
    [BOX, 'summary: Where the bench\'s cores meet.', 'summary: Where cores meet.', 'know', 'Box on the bench', 'Summary: now “Where cores meet.”'],
  ] as const),
];

/** Some hundred edits, a line each. */
export const EDITS: readonly EditCase[] = [...DANGEROUS, ...ACTED_ON, ...KNOWN];
