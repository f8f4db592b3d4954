import { COVERS_ON, type Order, openBox, withInsulation } from './order.ts';

/** Orders for what worked until now. Common practice, no source. */
export const UNTIL_NOW: readonly Order[] = [
  {
    id: 'display off',
    complaint: 'boiler-display-dark',
    systems: ['combi-two-wire', 'combi-wireless-condensate-pump'],
    history: 'worked until now',
    heldOut: false,
    positions: [
      {
        id: 'looks',
        says: '1 lights on, MCB/RCD look, boiler switch; 3 tank full',
        accepts: [COVERS_ON],
      },
      {
        id: 'fuse',
        says: '2 spur on, front fuse; or strip before fuse',
        accepts: [{ kinds: ['fuse'], at: ['spur'] }, openBox('boiler')],
      },
      { id: 'strip', says: '4 isolate, boiler strip: look, tug', accepts: [openBox('boiler')] },
      {
        id: 'supply',
        says: '5 restore, L–N, L–E, N–E',
        accepts: [{ kinds: ['live'], at: ['boiler'], on: ['permanent live'] }],
      },
      {
        id: 'back',
        says: "7 dead: wiring centre or condensate pump's joint, L–N",
        accepts: [
          { kinds: ['live'], at: ['centre'], on: ['permanent live', 'overflow'] },
          openBox('centre'),
        ],
        after: { supply: 'wrong' },
      },
    ],
  },
  {
    id: 'combi, hot water but no heating',
    complaint: 'no-heating-hot-water-works',
    systems: ['combi-two-wire', 'combi-wireless', 'combi-volt-free'],
    history: 'worked until now',
    heldOut: false,
    positions: [
      {
        id: 'looks',
        says: '1 taps shut, heating setting 2 stat up, wait 3 batteries, re-pair, manual button 4 boiler shows call',
        accepts: [COVERS_ON],
      },
      {
        id: 'strip',
        says: '5 isolate, strip: tug; or link at plate first',
        accepts: [openBox('boiler'), { kinds: ['link'], at: ['control', 'receiver'] }],
      },
      {
        id: 'read',
        says: '6 restore: live to stat? switched live back?',
        accepts: [{ kinds: ['live'], at: ['boiler'], on: ['live to stat', 'switched live'] }],
      },
      {
        id: 'link',
        says: '7 back is dead: isolate, link at plate, restore',
        accepts: [{ kinds: ['link'], at: ['control', 'receiver'] }, openBox('control', 'receiver')],
        after: { read: 'wrong' },
      },
      {
        id: 'cable',
        says: '7 does not fire: cable, dead',
        accepts: [
          {
            kinds: ['dead', 'parted'],
            at: ['control', 'receiver', 'boiler'],
            on: ['live to stat', 'switched live'],
          },
        ],
        after: { read: 'wrong', link: 'wrong' },
      },
    ],
  },
  {
    id: 'neither',
    complaint: 'no-heating-no-hot-water',
    systems: [
      'heat-only-two-port',
      'heat-only-mid-position',
      'system-boiler-internal-pump',
      'combi-two-wire',
    ],
    history: 'worked until now',
    heldOut: true,
    positions: [
      {
        id: 'looks',
        says: '1 code, pressure, gas, condensate 2 stats up, programmer on 3 reset once',
        accepts: [COVERS_ON],
      },
      { id: 'strip', says: '5 isolate, strip', accepts: [openBox('boiler')] },
      {
        id: 'supply',
        says: '5 restore: L–N 6 others SL',
        accepts: [{ kinds: ['live'], at: ['boiler'], on: ['permanent live', 'switched live'] }],
      },
      {
        id: 'centre',
        says: '7 SL dead: wiring centre, work back from each orange',
        accepts: [
          { kinds: ['live'], at: ['centre'], on: ['orange', 'switched live'] },
          openBox('centre'),
        ],
        after: { supply: 'wrong' },
      },
    ],
  },
  {
    id: 'heating will not stop',
    complaint: 'heating-never-stops',
    systems: ['heat-only-two-port', 'combi-two-wire', 'combi-wireless'],
    history: 'worked until now',
    heldOut: false,
    positions: [
      {
        id: 'looks',
        says: '1 frost, preheat, hot water, overrun 2 everything off, wait 3 levers latched?',
        accepts: [COVERS_ON],
      },
      {
        id: 'call',
        says: '4 wiring centre: heating call still live; or unhook the control first',
        accepts: [
          {
            kinds: ['live'],
            at: ['centre', 'boiler'],
            on: ['room call', 'switched live'],
            calling: 'nothing',
          },
          openBox('control', 'receiver', 'room stat'),
        ],
      },
      {
        id: 'unhook',
        says: '4 still live: unhook control (isolated), restore',
        accepts: [
          { kinds: ['look', 'live'], at: ['control', 'receiver', 'room stat', 'programmer'] },
          openBox('control', 'receiver', 'room stat', 'programmer'),
        ],
        after: { call: 'wrong' },
      },
      {
        id: 'orange',
        says: '5 brown dead, orange live; oranges joined: disconnect to tell whose',
        accepts: [
          { kinds: ['live'], at: ['centre'], on: ['orange', 'switched live'], calling: 'nothing' },
          { kinds: ['parted', 'dead'], at: ['centre'], on: ['orange', 'switched live'] },
        ],
      },
    ],
  },
  {
    id: 'mid-position, heating only with hot water',
    complaint: 'heating-only-with-hot-water',
    systems: ['heat-only-mid-position'],
    history: 'worked until now',
    heldOut: false,
    positions: [
      { id: 'looks', says: '1 try each alone, lever each time', accepts: [COVERS_ON] },
      {
        id: 'grey',
        says: '3 heating alone, cylinder satisfied: white, then grey live? Its dead tests first where the box is open',
        accepts: [
          { kinds: ['live'], at: ['centre'], on: ['white', 'grey'], calling: 'heating' },
          openBox('centre'),
        ],
      },
      {
        id: 'off',
        says: '4 grey dead: hot water off core, stat satisfied contact',
        accepts: [
          {
            kinds: ['live'],
            at: ['centre', 'cylinder stat'],
            on: ['hot water off', 'satisfied'],
            calling: 'heating',
          },
          openBox('centre', 'cylinder stat', 'programmer'),
        ],
        after: { grey: 'wrong' },
      },
      {
        id: 'spindle',
        says: '5 both live, lever stiff or mid: head off, spindle free? or its motor by ohms first',
        accepts: [
          { kinds: ['spindle'], at: ['mid-position valve'] },
          { kinds: ['parted', 'dead'], at: ['centre'], on: ['white', 'grey'] },
        ],
      },
      {
        id: 'orange',
        says: '6 lever at end, orange dead: auxiliary switch',
        accepts: [{ kinds: ['live', 'parted', 'dead'], at: ['centre'], on: ['orange'] }],
      },
      {
        id: 'ohms',
        says: '7 isolated ohms',
        accepts: [{ kinds: ['parted', 'dead'], at: ['centre'], on: ['white', 'grey', 'orange'] }],
      },
    ],
  },
  {
    id: 'cylinder cold, heating works',
    complaint: 'no-hot-water-heating-works',
    systems: ['heat-only-two-port', 'heat-only-condensate-pump'],
    history: 'worked until now',
    heldOut: true,
    positions: [
      {
        id: 'looks',
        says: '1 hot water on, overheat stat tripped? 2 stat up, click, lever; put back',
        accepts: [COVERS_ON],
      },
      {
        id: 'centre',
        says: '3 wiring centre: hot water on, stat call, brown, orange; dead tests of the open box first',
        accepts: [
          {
            kinds: ['live'],
            at: ['centre'],
            on: ['hot water on', 'cylinder call', 'valve motor', 'orange'],
            calling: 'hot water',
          },
          openBox('centre'),
        ],
      },
      {
        id: 'limit',
        says: '4 call live, brown dead: overheat stat, core',
        accepts: [openBox('cut-out')],
        after: { centre: 'wrong' },
      },
      {
        id: 'motor',
        says: '5 brown live, lever stiff: motor ohms',
        accepts: [
          { kinds: ['parted', 'dead'], at: ['centre'], on: ['valve motor'] },
          { kinds: ['look'], at: ['hot-water valve'] },
        ],
      },
      {
        id: 'switch',
        says: '6 slack, orange dead: switch',
        accepts: [
          { kinds: ['parted', 'dead'], at: ['centre'], on: ['orange'] },
          { kinds: ['live'], at: ['centre'], on: ['orange'], calling: 'hot water' },
        ],
      },
    ],
  },
  {
    id: 'one zone cold',
    complaint: 'valve-does-not-open',
    systems: ['heat-only-two-port', 'system-boiler-internal-pump'],
    history: 'worked until now',
    heldOut: true,
    positions: [
      { id: 'looks', says: '1 stat up, lever', accepts: [COVERS_ON] },
      {
        id: 'centre',
        says: '2 wiring centre: call, brown; dead tests of the open box first',
        accepts: [
          { kinds: ['live'], at: ['centre'], on: ['room call', 'cylinder call', 'valve motor'] },
          openBox('centre'),
        ],
      },
      {
        id: 'spindle',
        says: '4 call and brown live, ohms good: spindle, pin',
        accepts: [
          { kinds: ['spindle'], at: ['heating valve'] },
          { kinds: ['parted', 'dead'], at: ['centre'], on: ['valve motor'] },
        ],
      },
    ],
  },
  {
    id: 'fuse blows',
    complaint: 'fuse-blows',
    systems: ['heat-only-two-port', 'combi-two-wire', 'combi-condensate-pump'],
    history: 'worked until now',
    heldOut: false,
    positions: [
      {
        id: 'looks',
        says: '1 when: at once, on which call; rating',
        accepts: [COVERS_ON, { kinds: ['fuse'], at: ['spur'] }],
      },
      {
        id: 'ohms',
        says: '2 isolate, look for wet, scorch 3 wiring centre L–N ohms, insulation; or at the boiler',
        accepts: [withInsulation('centre'), withInsulation('boiler')],
      },
      {
        id: 'halve',
        says: '4 halve at wiring centre (or boiler): lift boiler, pump, valves, stats, test each',
        accepts: [
          { kinds: ['parted', 'dead', 'insulation'], at: ['centre'] },
          { kinds: ['parted', 'dead', 'insulation'], at: ['boiler'] },
        ],
        after: { ohms: 'wrong' },
      },
    ],
  },
  {
    id: 'condensate tank full',
    complaint: 'boiler-dark-reservoir-full',
    systems: ['combi-condensate-pump', 'combi-wireless-condensate-pump'],
    history: 'worked until now',
    heldOut: false,
    positions: [
      { id: 'looks', says: '1 boiler stopped? 2 outlet 3 hum, lamp', accepts: [COVERS_ON] },
      { id: 'fuse', says: '4 plug, fuse', accepts: [{ kinds: ['fuse'] }] },
      {
        id: 'supply',
        says: '5 where lead ends, L–N, dry; looks and tugs of that box before restoring',
        accepts: [{ kinds: ['live'], at: ['centre'], on: ['permanent live'] }, openBox('centre')],
      },
      {
        id: 'lift',
        says: '6 isolate, lift: slime, float',
        accepts: [{ kinds: ['inside', 'look', 'prove'], at: ['condensate pump'] }],
      },
      {
        id: 'motor',
        says: '7 motor disconnected: ohms',
        accepts: [
          { kinds: ['parted', 'dead'], at: ['centre', 'condensate pump'], on: ['permanent live'] },
        ],
      },
    ],
  },
];
