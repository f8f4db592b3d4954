/**
 * What the trade and its customers call things, in one place to be reviewed: every line is
 * common practice, no source. Words of an entry's own belong in its aliases.
 *
 * A line gives a meaning, the ways of saying it, and the wider meanings it also has: a stuck
 * mid-position valve is a stuck valve. Endings (-s, -ed, -ing) and apostrophes need no line.
 */
export interface TradeWord {
  readonly means: string;
  readonly said: readonly string[];
  readonly also: readonly string[];
}

const word = (means: string, said: string, ...also: string[]): TradeWord => ({
  means,
  said: said.split(',').map((way) => way.trim()),
  also,
});

/** Things a state can be said of. */
export const PARTS: readonly TradeWord[] = [
  word('heating', 'heating, heat, ch, c/h, central heating, house'),
  word('radiator', 'radiator, rad', 'heating'),
  word('hot water', 'hot water, hw, h/w, dhw, hot wtr, water, taps, tap, hot tap, shower, bath'),
  word('cylinder', 'cylinder, cyl, tank, hot tank, copper tank', 'hot water'),
  word('unvented cylinder', 'unvented, unvented cylinder, unvented cyl', 'cylinder'),
  word('boiler', 'boiler, burner'),
  word('combi', 'combi, combi boiler, combination boiler, combination', 'boiler'),
  word('heat-only boiler', 'heat only, heat only boiler, regular boiler', 'boiler'),
  word('system boiler', 'system boiler', 'boiler'),
  word('zone', 'zone, upstairs, downstairs, one room, room, bedroom, lounge, loop, floor'),
  word('underfloor', 'underfloor, under floor, ufh, underfloor heating', 'zone'),

  word('thermostat', 'thermostat, stat, control, room control'),
  word('room stat', 'room stat, room thermostat, roomstat, wall stat, rt', 'thermostat'),
  word(
    'programmable stat',
    'programmable stat, programmable thermostat, programmable room thermostat, prog stat, prt',
    'thermostat',
    'room stat',
  ),
  word(
    'cylinder stat',
    'cylinder stat, cyl stat, tank stat, cylinder thermostat, tank thermostat, unvented cyl stat, unvented cylinder stat',
    'cylinder',
  ),
  word('frost stat', 'frost stat, frost thermostat, froststat'),
  word('pipe stat', 'pipe stat, pipe thermostat'),
  word(
    'cut-out',
    'cut out, overheat cut out, overheat stat, overheat thermostat, high limit, high limit stat, limit stat',
  ),
  word(
    'programmer',
    'programmer, programer, prog, timer, clock, time clock, timeclock, time switch',
  ),
  word('receiver', 'receiver, rx, box by the boiler, boiler receiver, relay box'),
  word('wireless', 'wireless, rf, radio, wifi, wi fi'),
  word('display', 'display, screen'),
  word('lamp', 'lamp, light, led'),

  word('valve', 'valve, actuator, motorised valve, motorized valve, mv, valve motor, valve head'),
  word('two-port valve', 'two port valve, 2 port valve, two port, 2 port, zone valve, zv', 'valve'),
  word(
    'mid-position valve',
    'mid position valve, mid posi valve, mid pos valve, mid position, mid posi, mid pos, three port valve, 3 port valve, three port, 3 port, three way valve, 3 way valve',
    'valve',
  ),
  word(
    'diverter valve',
    'diverter valve, diverting valve, diverter, three port diverting valve, two position valve, three port two position valve',
  ),
  word('radiator valve', 'trv, radiator valve, rad valve, thermostatic radiator valve'),
  word('end switch', 'end switch, aux switch, auxiliary switch, microswitch, micro switch'),
  word('pump', 'pump, circulator, circulating pump'),
  word('condensate pump', 'condensate pump, con pump, cond pump, condensate lift pump, lift pump'),
  word(
    'reservoir',
    'reservoir, condensate reservoir, condensate tank, overflow',
    'condensate pump',
  ),

  word('fuse', 'fuse'),
  word('breaker', 'breaker, circuit breaker, mcb'),
  word(
    'consumer unit',
    'consumer unit, fuse board, fuse box, fusebox, distribution board, way in board, the board',
  ),
  word('spur', 'spur, fused spur, fuse spur, switched spur, fcu, fused connection unit'),
  word('rcd', 'rcd, rcbo, trip switch, electrics'),
  word('wiring centre', 'wiring centre, wiring center, wiring box, junction box, jb'),
  word('core', 'core, wire, cable, conductor'),
  word('live', 'live, line'),
  word('permanent live', 'permanent live, perm live, perm l', 'live'),
  word('switched live', 'switched live, switch live, switch wire, sl, s/l, sw live', 'live'),
  word(
    'floating core',
    'floating core, disconnected core, disconnected wire, disconnected cable, core not connected, wire not connected, cable not connected, dead core, dead wire, dead cable',
    'ghost volts',
    'core',
  ),
  word('ghost volts', 'induced, ghost, phantom, stray, floating, capacitive', 'part volts'),
  word('part volts', 'part volts, part voltage, between reading'),
  word('extra-low voltage', 'extra low voltage, elv, selv, low voltage'),
  word('volt-free', 'volt free, dry contact, potential free, voltage free'),
  word('connection', 'connection, signal, communication, comms, pairing'),
];

/** How things are. */
export const STATES: readonly TradeWord[] = [
  word(
    'none',
    'not working, doesnt work, wont work, stopped working, conked out, died, given up, bust, ded, knackered, gone, failed, failing, fail, broken, kaput, packed up, dead, wont come on, wont go on, not come on, doesnt come on, not coming on, never comes on, wont turn on, cant turn on, wont start, wont go, does nothing, not responding, nothing happens, nothing happening, doing nothing, ignored, ignores, not running, not spinning, not pumping, not turning, not kicking in, wont run, silent, stands still, missing',
  ),
  word('off', 'off, out, goes off, gone off, going off, switches off, dies', 'none'),
  word(
    'everything dead',
    'nothing works, nothing working, everything dead, completely dead',
    'none',
  ),
  word('not firing', 'not firing, wont fire, wont light, not lighting, does not light', 'none'),
  word(
    'dark',
    'blank, dark, no display, no screen, no light, no power, no mains, no supply, no 230 v, no 240 v, display out, display off, lamp out, lamp off, light out, light off, no lamp, screen blank, unlit, not lit, not lit up',
    'none',
  ),
  word(
    'cold',
    'cold, freezing, stone cold, not warm, not hot, not heating, not getting hot, wont get hot, wont heat, wont heat up, lukewarm, tepid',
    'none',
  ),
  word('hot', 'hot, warm', 'works'),
  word(
    'too hot',
    'too hot, overheating, overheats, boiling, boiling hot, roasting, scalding, sweltering',
    'hot',
    'never stops',
  ),
  word('works', 'works, working, ok, okay, fine, good, running, runs, spinning, lit, got'),
  word('fires', 'fires, firing, lights up', 'works'),
  word(
    'stuck',
    'stuck, stuck shut, stuck closed, seized, jammed, shut, closed, wont open, does not open, not opening, doesnt open, wont move, wont budge, not moving',
    'none',
  ),
  word('letting by', 'letting by, stuck open, passing, wont close, not closing'),
  word(
    'never stops',
    'never stops, wont stop, wont turn off, wont switch off, wont go off, never goes off, never turns off, never switches off, cant turn off, cant turn, cant switch, not turning off, not switching off, stuck on, wont shut off, always on, all night, all day, all day long, day and night, on all the time, all the time, constantly, on constantly, continuously, without end, permanently on, stays on, runs on, always running, running constantly, constantly running, non stop, 24/7, on 24/7, always hot, past, overshoots, never ends, doesnt cut out, still on, still firing, still fires, still running, still going, still hot, goes on',
  ),
  word(
    'cycles',
    'short cycling, cycling, cycles, on and off, on off, cutting out, cuts out, cutting in and out, cuts in and out, in and out, starting and stopping, fires and stops',
  ),
  word(
    'swings',
    'hunting, hunts, back and forth, back and fourth, back and forward, forward and back, side to side, to and fro, keeps moving, swings, swinging, toing and froing, wont settle, never settles, not settling, whirring',
  ),
  word('blows', 'blow, blown, blew, goes bang', 'none'),
  word('trips', 'trip, tripping, trips, tripped', 'none'),
  word(
    'popped',
    'popped, popping, pops, popped out, needs resetting, keeps needing reset, wants resetting',
    'blows',
    'trips',
  ),
  word('flashing', 'flashing, flashes, blinking, blinks'),
  word(
    'lockout',
    'lockout, locked out, lock out, error, error light, locking out, locks out, fault code, error code, fault light, reset light',
  ),
  word(
    'lost',
    'lost, losing, offline, not talking, wont pair, wont sync, not pairing, wont connect, wont bind, not connected, dropped out, not paired, unpaired',
    'none',
  ),
  word(
    'sometimes',
    'intermittent, intermittently, sometimes, now and then, every so often, occasionally, plays up, playing up, comes and goes, stops and starts',
  ),
  word(
    'by itself',
    'by itself, by themselves, itself, on its own, its own, randomly, random, at night, middle of the night, own accord, nobody set',
  ),
  word('hums', 'humming, hums, buzzing, buzzes, groaning'),
  word(
    'full',
    'full, full of water, brimming, tub full, overflowing, overflowed, flooded, flood, leaking, leak, water everywhere',
  ),
  word('backwards', 'backwards, upside down, reversed, opposite, inverted, wrong way round'),
  word('satisfied', 'satisfied, up to temperature, turned down'),
  word('calling', 'calling, calls, call, clicks, clicking, demand, demanding, asking'),
  word('removed', 'off the wall, off wall, removed, disconnected, taken off'),
];

/** Other things that are said in more ways than one. */
export const OTHERS: readonly TradeWord[] = [
  word('how', 'how to, how do, how can'),
  word('volts', 'volts, volt, voltage'),
  word('isolate', 'isolate, isolation, lock off, locking off, make safe, turn off power'),
  word('gas smell', 'gas smell, smell of gas, smell gas, smelling gas, gas leak, gas escape'),
  word('carbon monoxide', 'carbon monoxide, co alarm, monoxide, fumes'),
  word(
    'burning',
    'burning smell, smell of burning, smoke, scorching, electric shock',
    'isolate',
    'how',
  ),
  word('prove dead', 'prove dead, proving dead, test dead, test for dead'),
  word('system', 'system, setup, set up, layout, wiring diagram, diagram, arrangement'),
  word('replace', 'replace, replacement, swap, change, new, fit new, fit, install'),
  word('change-over', 'change over, changeover'),
  word(
    'insulation test',
    'insulation test, insulation resistance, ir, ir test, ins res, insulation res, megohm test, megger, megger test',
  ),
  word('normally open', 'normally open, n/o'),
  word('normally closed', 'normally closed, nc, n/c'),
  word('common', 'common, com'),
  word('continuity', 'continuity, bell out, ring out'),
  word('colour', 'colour, color'),
  word('colour grey', 'grey, gray'),
  word('colour white', 'white'),
  word('colour orange', 'orange'),
  word('colour brown', 'brown'),
  word('colour blue', 'blue'),
  word('colour black', 'black'),
  word('colour red', 'red'),
  word(
    'colour green-yellow',
    'green yellow, green and yellow, g/y, earth core, earth wire',
    'earth',
  ),
  word('earth', 'earth, cpc, protective conductor'),
  word('size', 'size, rating'),
  word('customer', 'customer, householder, tenant, landlord'),
];

/**
 * Things of other trades that share words with this one: no entry speaks of them, and whoever
 * names one asks for it and not for what lies beside it.
 */
export const ELSEWHERE: readonly TradeWord[] = [
  word('light switch', 'light switch, lighting circuit, two way switching, dimmer, downlight'),
  word('shower pump', 'shower pump, electric shower, power shower'),
  word('smoke alarm', 'smoke alarm, smoke detector, heat alarm, burglar alarm'),
  word('cooker', 'oven, cooker, hob, microwave, grill element'),
  word('white goods', 'washing machine, dishwasher, tumble dryer, tumble drier, fridge, freezer'),
  word('solar panel', 'solar panel, solar panel inverter, solar pv, pv panel, pv inverter'),
  word('car charger', 'ev charger, car charger, charge point'),
  word('gas work', 'gas rate, gas rating, flue clearance, tightness test, working pressure'),
  word('sanitary ware', 'toilet, cistern, tap washer, ballcock, waste trap'),
];

/** Words that deny the part after them. */
export const NONE = new Set([
  'no',
  'not',
  'without',
  'neither',
  'nor',
  'isnt',
  'arent',
  'wont',
  'doesnt',
  'cant',
  'never',
]);

/** What a state is when it is denied: not working, not firing. */
export const DENIED: Readonly<Record<string, string>> = {
  works: 'none',
  fires: 'not firing',
  hot: 'cold',
  stuck: 'works',
  calling: 'none',
};

/** Words that join what a denial before them goes on to deny: no heating or hot water. */
export const OR = new Set(['or', 'nor']);

/** Words that end what a state is said of, beside a comma or a stop. */
export const BREAKS = new Set(['but', 'and', 'when', 'while', 'with', 'if', 'unless', 'only']);

/** Words that may be left out. */
export const DROPPED = new Set(
  'a an the my our your his her its it is are was were be been am i we you they he she has have had of to in at by for from on up so as that this there here just still keep get go come do did does can cant will would wont dont doesnt isnt arent not what which how why who please help when if and or but with than then some any all now again very really too much says say said thing one used wiring'.split(
    ' ',
  ),
);
