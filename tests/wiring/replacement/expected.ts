import type { Verdict } from '../../../src/wiring/replacement/index.ts';

/** One device in place of another, written by hand: common practice, no source. */
export interface ExpectedPair {
  readonly system: string;
  readonly item: string;
  readonly device: string;
  readonly verdict: Verdict;
  /** Core → terminal of the new device; null: a terminal of its own. */
  readonly cores: Readonly<Record<string, string | null>>;
  readonly links?: readonly string[];
  /** Other ends of cores that were not there or that lay spare. */
  readonly far?: Readonly<Record<string, string>>;
  /** An outcome that is not as before, and the mode in which it shows. */
  readonly differs?: readonly [mode: string, outcome: string];
  /** A danger it makes. */
  readonly hazard?: string;
}

const COMBI: readonly ExpectedPair[] = [
  {
    system: 'combi-two-wire',
    item: 'B1',
    device: 'wireless-receiver',
    verdict: 'equal with cores',
    cores: { 'W3.BN': 'L', 'W3.BU': 'N', 'W3.BK': 'COM', 'W3.GY': 'NO', 'W3.GNYE': 'E' },
    far: { 'W3.BN': 'E1.L', 'W3.BU': 'E1.N', 'W3.BK': 'E1.call feed', 'W3.GY': 'E1.call return' },
  },
  {
    system: 'combi-two-wire',
    item: 'B1',
    device: 'wireless-receiver-mains-switched',
    verdict: 'equal with cores',
    cores: { 'W3.BN': 'L', 'W3.GY': 'N', 'W3.BK': 'call out', 'W3.GNYE': 'E' },
    far: { 'W3.BN': 'E1.call feed', 'W3.GY': 'E1.N', 'W3.BK': 'E1.call return' },
  },
  {
    system: 'combi-two-wire',
    item: 'B1',
    device: 'room-control-mains',
    verdict: 'equal with cores',
    cores: { 'W3.BN': 'L', 'W3.GY': 'N', 'W3.BK': 'NO', 'W3.GNYE': 'E' },
    far: { 'W3.BN': 'E1.call feed', 'W3.GY': 'E1.N', 'W3.BK': 'E1.call return' },
  },
  {
    system: 'combi-two-wire',
    item: 'B1',
    device: 'wireless-receiver-extra-low',
    verdict: 'never',
    cores: { 'W3.BN': 'L', 'W3.BU': 'N', 'W3.BK': 'call 1', 'W3.GY': 'call 2', 'W3.GNYE': 'E' },
    hazard: 'mains on extra-low',
  },
  {
    system: 'combi-condensate-pump',
    item: 'B1',
    device: 'room-control-mains',
    verdict: 'equal',
    cores: { 'W6.BN': 'L', 'W6.BK': 'NO', 'W6.GY': 'N', 'W6.GNYE': 'E' },
    far: { 'W6.GY': 'E1.N' },
  },
  {
    system: 'combi-wireless',
    item: 'K1',
    device: 'wireless-receiver-mains-switched',
    verdict: 'equal',
    cores: { 'W3.BN': 'L', 'W3.BU': 'N', 'W3.BK': null, 'W3.GY': 'call out', 'W3.GNYE': 'E' },
  },
  {
    system: 'combi-wireless',
    item: 'K1',
    device: 'wireless-receiver-linked',
    verdict: 'equal',
    cores: { 'W3.BN': 'L', 'W3.BU': 'N', 'W3.BK': 'COM', 'W3.GY': 'NO', 'W3.GNYE': 'E' },
    links: ['take out L-COM'],
  },
  {
    system: 'combi-wireless',
    item: 'K1',
    device: 'room-control-two-wire',
    verdict: 'equal',
    cores: { 'W3.BN': null, 'W3.BU': null, 'W3.BK': 'COM', 'W3.GY': 'NO', 'W3.GNYE': 'E' },
  },
  {
    system: 'combi-wireless',
    item: 'K1',
    device: 'wireless-receiver-extra-low',
    verdict: 'never',
    cores: { 'W3.BN': 'L', 'W3.BU': 'N', 'W3.BK': 'call 1', 'W3.GY': 'call 2', 'W3.GNYE': 'E' },
    hazard: 'mains on extra-low',
  },
  {
    system: 'combi-wireless-condensate-pump',
    item: 'X1',
    device: 'wiring-centre-12',
    verdict: 'equal',
    cores: {
      'W2.BN': '1',
      'W2.BU': 'N',
      'W2.GNYE': 'E',
      'W3.BN': '3',
      'W3.BU': 'N',
      'W3.BK': '4',
      'W3.GY': '5',
      'W3.GNYE': 'E',
      'W4.BN': '1',
      'W4.BU': 'N',
      'W4.WH': '2',
      'W4.OG': '3',
      'W4.GNYE': 'E',
      'W5.BN': '1',
      'W5.BU': 'N',
      'W5.BK': '4',
      'W5.GY': '5',
      'W5.GNYE': 'E',
    },
    links: ['add 1-2'],
  },
  {
    system: 'combi-volt-free',
    item: 'B1',
    device: 'wireless-receiver',
    verdict: 'equal with cores',
    cores: {
      'W3.BN': 'COM',
      'W3.BU': 'NO',
      'W4.BN': 'L',
      'W4.BU': 'N',
      'W4.GNYE': 'E',
    },
    far: { 'W4.BN': 'E1.L', 'W4.BU': 'E1.N', 'W4.GNYE': 'E1.E' },
  },
  {
    system: 'combi-volt-free',
    item: 'B1',
    device: 'wireless-receiver-linked',
    verdict: 'equal with cores',
    cores: { 'W3.BN': 'COM', 'W3.BU': 'NO', 'W4.BN': 'L', 'W4.BU': 'N', 'W4.GNYE': 'E' },
    links: ['take out L-COM'],
  },
  {
    system: 'combi-volt-free',
    item: 'B1',
    device: 'wireless-receiver-mains-switched',
    verdict: 'never',
    cores: { 'W3.BN': null, 'W3.BU': 'call out', 'W4.BN': 'L', 'W4.BU': 'N', 'W4.GNYE': 'E' },
    hazard: 'mains on extra-low',
  },
];

const WITH_CYLINDER: readonly ExpectedPair[] = [
  {
    system: 'heat-only-two-port',
    item: 'K1',
    device: 'wireless-receiver-two-channel',
    verdict: 'equal',
    cores: {
      'W4.BN': 'L',
      'W4.BU': 'N',
      'W4.GNYE': 'E',
      'W4.BK': 'heating NO',
      'W4.GY': 'hot water NO',
    },
    links: ['add L-heating COM', 'add L-hot water COM'],
  },
  {
    system: 'heat-only-two-port',
    item: 'K1',
    device: 'wireless-receiver-two-channel-mains',
    verdict: 'equal',
    cores: {
      'W4.BN': 'L',
      'W4.BU': 'N',
      'W4.GNYE': 'E',
      'W4.BK': 'heating on',
      'W4.GY': 'hot water on',
    },
  },
  {
    system: 'heat-only-two-port',
    item: 'B1',
    device: 'room-control-two-wire',
    verdict: 'equal',
    cores: { 'W5.BN': 'COM', 'W5.BK': 'NO', 'W5.GY': null, 'W5.GNYE': 'E' },
  },
  {
    system: 'heat-only-two-port',
    item: 'B1',
    device: 'wireless-receiver',
    verdict: 'equal with cores',
    cores: { 'W5.BN': 'L', 'W5.BU': 'N', 'W5.BK': 'COM', 'W5.GY': 'NO', 'W5.GNYE': 'E' },
    far: { 'W5.BN': 'X1.1', 'W5.BU': 'X1.N', 'W5.BK': 'X1.2', 'W5.GY': 'X1.4' },
  },
  {
    system: 'heat-only-two-port',
    item: 'B2',
    device: 'cylinder-thermostat-single',
    verdict: 'equal',
    cores: { 'W6.BN': 'COM', 'W6.BU': 'call', 'W6.GNYE': 'E' },
  },
  {
    system: 'heat-only-two-port',
    item: 'Q2',
    device: 'two-port-valve-no-switch',
    verdict: 'different',
    cores: { 'W8.BN': 'motor L', 'W8.BU': 'N', 'W8.GNYE': 'E', 'W8.GY': null, 'W8.OG': null },
    differs: ['heating', 'E1.burner'],
  },
  {
    system: 'heat-only-two-port',
    item: 'M1',
    device: 'circulating-pump-electronic',
    verdict: 'equal',
    cores: { 'W10.BN': 'L', 'W10.BU': 'N', 'W10.GNYE': 'E' },
  },
  {
    system: 'heat-only-mid-position',
    item: 'K1',
    device: 'wireless-receiver-two-channel',
    verdict: 'equal',
    cores: {
      'W4.BN': 'L',
      'W4.BU': 'N',
      'W4.GNYE': 'E',
      'W5.BN': 'heating NO',
      'W5.BK': 'hot water NO',
      'W5.GY': 'hot water NC',
      'W5.GNYE': 'E',
    },
    links: ['add L-heating COM', 'add L-hot water COM'],
  },
  {
    system: 'heat-only-mid-position',
    item: 'K1',
    device: 'wireless-receiver-two-channel-mains',
    verdict: 'different',
    cores: {
      'W4.BN': 'L',
      'W4.BU': 'N',
      'W4.GNYE': 'E',
      'W5.BN': 'heating on',
      'W5.BK': 'hot water on',
      'W5.GY': null,
      'W5.GNYE': 'E',
    },
    differs: ['heating', 'E1.burner'],
  },
  {
    system: 'heat-only-mid-position',
    item: 'B2',
    device: 'cylinder-thermostat-single',
    verdict: 'different',
    cores: { 'W7.BN': 'COM', 'W7.BK': 'call', 'W7.GY': null, 'W7.GNYE': 'E' },
    differs: ['heating-hot-water-satisfied', 'E1.burner'],
  },
  {
    system: 'heat-only-mid-position',
    item: 'Q2',
    device: 'three-port-diverter-valve',
    verdict: 'different',
    cores: {
      'W8.WH': 'heating on',
      'W8.GY': null,
      'W8.OG': null,
      'W8.BU': 'N',
      'W8.GNYE': 'E',
    },
    differs: ['heating', 'E1.burner'],
  },
  {
    system: 'system-boiler-internal-pump',
    item: 'B2',
    device: 'cylinder-thermostat',
    verdict: 'equal',
    cores: { 'W6.BN': 'COM', 'W6.BU': 'call', 'W6.GNYE': 'E' },
  },
  {
    system: 'system-boiler-internal-pump',
    item: 'Q3',
    device: 'two-port-valve-no-switch',
    verdict: 'different',
    cores: { 'W8.BN': 'motor L', 'W8.BU': 'N', 'W8.GNYE': 'E', 'W8.GY': null, 'W8.OG': null },
    differs: ['hot-water', 'E1.burner'],
  },
];

/** The pairs, each with what a practitioner would do; common practice, no source. */
export const EXPECTED: readonly ExpectedPair[] = [...COMBI, ...WITH_CYLINDER];
