import type { Module } from '../../schemas/index.ts';
import { type Catalogue, type Choice, KINDS, needsPump } from '../compose/index.ts';
import { capital } from '../words/index.ts';

/** What was answered so far: question → option. */
export type Answers = Readonly<Record<string, string>>;

/** One thing that may be answered. */
export interface Option {
  readonly id: string;
  readonly title: string;
  /** What it is told by on site. */
  readonly cue: string;
  /** The module it brings; absent where it brings none. */
  readonly module?: string;
}

/** A plain question with its answers. */
export interface Question {
  readonly id: string;
  readonly asks: string;
  /** What it is about in a list of what was answered. */
  readonly about: string;
  readonly options: readonly Option[];
  /** Answered so unless somebody looks: the usual, and in nobody's way. */
  readonly usual?: string;
}

/** Nothing of the kind is there. */
export const NONE = 'none';
/** Every circuit has its own valve, or none. */
export const EACH = 'each';
export const GRAVITY = 'gravity';
/** A cylinder with no cut-out in its wiring. */
export const PLAIN = 'plain';
export const DIRECT = 'direct';
/** Circuits of heating that may be asked about. */
export const MOST_ZONES = 4;
export const DEFAULT: Readonly<Record<'supply' | 'isolator', string>> = {
  supply: 'supply-circuit',
  isolator: 'fused-spur',
};

const none = (title: string, cue = ''): Option => ({ id: NONE, title, cue });

/** A choice as an option’s id: the module, and the way of wiring it where that is not its first. */
export const idOf = (choice: Choice): string =>
  typeof choice === 'string' ? choice : `${choice.module}~${choice.variant}`;

const NUMBERS = ['no', 'one', 'two', 'three', 'four'];

/** Modules, put to questions. */
export class Questions {
  readonly #catalogue: Catalogue;

  constructor(catalogue: Catalogue) {
    this.#catalogue = catalogue;
  }

  get modules(): Catalogue['modules'] {
    return this.#catalogue.modules;
  }

  /** Modules of a slot, by id. */
  of(slot: Module['slot']): (readonly [string, Module])[] {
    return [...this.#catalogue.modules].filter(([, module]) => module.slot === slot);
  }

  /** An option for each way of wiring a module, or one where there is one way. */
  #options([id, module]: readonly [string, Module], withModule = true): Option[] {
    const cue = module.recognise[0] ?? module.summary;
    const variants = Object.entries(module.variants);
    if (variants.length === 0) return [{ id, title: module.title, cue, module: id }];
    return variants.map(([name, { title }], i) => ({
      id: i === 0 ? id : idOf({ module: id, variant: name }),
      title: title ?? (withModule ? `${module.title}, ${name}` : capital(name)),
      cue,
      module: id,
    }));
  }

  #asksFor(module: Module, service: 'heating' | 'hot water'): boolean {
    const wants = Object.values(module.items).flatMap(({ device }) =>
      Object.values(this.#catalogue.devices.get(device)?.conditions ?? {}).map((one) => one.wants),
    );
    return wants.includes(service) || !wants.some((one) => one !== undefined);
  }

  /**
   * Every question that these answers lead to, in order; those behind an open one that hang on it
   * are asked once it is answered.
   */
  list(answers: Answers): Question[] {
    const zones = Number(answers.zones ?? 1);
    const hasCylinder = answers.cylinder !== undefined && answers.cylinder !== NONE;
    const shared = answers.shared ?? EACH;
    const heating = Array.from({ length: zones }, (_, i) => i + 1);
    const named = (i: number) => (zones > 1 ? `heating ${i}` : 'heating');
    return [
      this.#boiler(),
      ...this.#call(answers),
      ...this.#relay(answers),
      this.#cylinder(),
      this.#zones(),
      ...(hasCylinder ? [this.#shared()] : []),
      ...(hasCylinder && shared !== EACH
        ? []
        : heating.map((i) => this.#valve(`valve-${i}`, named(i), answers[`valve-${i - 1}`]))),
      ...(hasCylinder && (shared === EACH || shared === GRAVITY)
        ? [this.#valve('valve-water', 'hot water', answers['valve-1'])]
        : []),
      this.#time(),
      ...heating.map((i) => this.#control(i, named(i), answers)),
      ...(hasCylinder ? [this.#waterControl()] : []),
      ...this.#pump(answers),
      ...this.additions(),
      ...this.#supplies(),
    ];
  }

  /** The first question that is not answered. */
  next(answers: Answers): Question | undefined {
    return this.list(answers).find(({ id }) => answers[id] === undefined);
  }

  /** Answers to questions that are asked, each among its options; the others are dropped. */
  kept(answers: Answers): Answers {
    let kept: Record<string, string> = {};
    for (let before = -1; before !== Object.keys(kept).length; ) {
      before = Object.keys(kept).length;
      for (const { id, options } of this.list(kept)) {
        const answer = answers[id];
        if (answer !== undefined && options.some((option) => option.id === answer))
          kept = { ...kept, [id]: answer };
      }
    }
    // What was asked before an answer behind it did away with the question.
    const asked = new Set(this.list(kept).map(({ id }) => id));
    return Object.fromEntries(Object.entries(kept).filter(([id]) => asked.has(id)));
  }

  /** Boilers of a kind. */
  heats(kind: string | undefined): (readonly [string, Module])[] {
    return this.of('heat').filter(([, module]) => module.kind === kind);
  }

  #boiler(): Question {
    const kinds = Map.groupBy(this.of('heat'), ([, { kind }]) => kind);
    return {
      id: 'boiler',
      asks: 'Which kind of boiler is it?',
      about: 'Boiler',
      options: [...kinds]
        .toSorted(([a], [b]) => rankOf(a) - rankOf(b))
        .flatMap(([kind, own]) => {
          if (kind === undefined) return [];
          const told = own.find(([, { tells }]) => tells !== undefined)?.[1].tells;
          return [{ id: kind, title: capital(kind), cue: told ?? own[0]![1].summary }];
        }),
    };
  }

  #call({ boiler }: Answers): Question[] {
    const heats = this.heats(boiler);
    if (heats.length < 2) return [];
    return [
      {
        id: 'call',
        asks: 'How is the boiler called?',
        about: 'Call',
        options: heats.flatMap((heat) => this.#options(heat)),
      },
    ];
  }

  #relay({ boiler }: Answers): Question[] {
    const relays = this.of('addition').filter(([, { relay }]) => relay);
    if (relays.length === 0 || boiler === undefined) return [];
    return [
      {
        id: 'relay',
        asks: 'What makes the call at the boiler?',
        about: 'Call made by',
        options: [
          {
            id: DIRECT,
            title: 'The controls themselves',
            cue: 'Controls, or the end switches of valves, are wired through to the boiler.',
          },
          ...relays.flatMap((relay) => this.#options(relay)),
        ],
      },
    ];
  }

  #cylinder(): Question {
    return {
      id: 'cylinder',
      asks: 'Is there a hot-water cylinder?',
      about: 'Cylinder',
      options: [
        none('No cylinder'),
        {
          id: PLAIN,
          title: 'A cylinder, no cut-out wired',
          cue: 'As a rule a vented cylinder, fed from a tank above it. An unvented one, with tundish and relief valve, must have a cut-out: without one stop, and refer it.',
        },
        ...this.of('limit').map(([id, module]) => ({
          id,
          title: `A cylinder with ${module.title.toLowerCase()}`,
          cue: module.recognise[0] ?? module.summary,
          module: id,
        })),
      ],
    };
  }

  #zones(): Question {
    return {
      id: 'zones',
      asks: 'How many heating zones are there?',
      about: 'Heating zones',
      options: Array.from({ length: MOST_ZONES }, (_, i) => ({
        id: String(i + 1),
        title: capital(NUMBERS[i + 1]!),
        cue:
          i === 0
            ? 'One room stat, receiver or clock calls for all of the heating.'
            : `${capital(NUMBERS[i + 1]!)} room stats or receivers, each for rooms of its own.`,
      })),
    };
  }

  #shared(): Question {
    return {
      id: 'shared',
      asks: 'What sends the water to radiators or cylinder?',
      about: 'Hot water and heating',
      options: [
        {
          id: EACH,
          title: 'A valve each',
          cue: 'Each valve head sits on a pipe in and a pipe out.',
        },
        ...this.of('valve')
          .filter(([, { shared }]) => shared)
          .flatMap((valve) => this.#options(valve)),
        {
          id: GRAVITY,
          title: 'Hot water by gravity',
          cue: 'Two wide pipes, 28 mm as a rule, to the cylinder; the pump is in the heating alone.',
        },
      ],
    };
  }

  /** @param first what was answered for the circuit before, which is offered first. */
  #valve(id: string, of: string, first: string | undefined): Question {
    const options = [
      none(
        'No valve of its own',
        'No motorised valve in its pipes; the boiler’s own flow serves it.',
      ),
      ...this.of('valve')
        .filter(([, { valve }]) => valve)
        .flatMap((valve) => this.#options(valve)),
    ];
    return {
      id,
      asks: `Which valve opens for ${of}?`,
      about: `Valve of ${of}`,
      options: options.toSorted((a, b) => Number(b.id === first) - Number(a.id === first)),
    };
  }

  #time(): Question {
    return {
      id: 'time',
      asks: 'Which programmer or time switch is there?',
      about: 'Clock',
      options: [
        none('None', 'The room stat or its receiver has its own times, or there are none.'),
        ...this.of('time').flatMap((one) => this.#options(one)),
      ],
    };
  }

  #control(i: number, of: string, answers: Answers): Question {
    const first = answers[`control-${i - 1}`];
    const options = [
      ...this.of('control')
        .filter(([, module]) => this.#asksFor(module, 'heating'))
        .flatMap((control) => this.#options(control)),
      none('Nothing more', 'The clock or the two-channel receiver calls by itself.'),
    ];
    return {
      id: `control-${i}`,
      asks: `What calls for ${of}?`,
      about: capital(of),
      options: options.toSorted((a, b) => Number(b.id === first) - Number(a.id === first)),
    };
  }

  #waterControl(): Question {
    return {
      id: 'control-water',
      asks: 'What calls for hot water?',
      about: 'Hot water',
      options: [
        ...this.of('control')
          .filter(([, module]) => this.#asksFor(module, 'hot water'))
          .flatMap((control) => this.#options(control)),
        none('Nothing more', 'No stat at the cylinder: the clock alone calls.'),
      ],
    };
  }

  #pump({ boiler }: Answers): Question[] {
    if (!needsPump(boiler)) return [];
    const pumps = this.of('pump');
    const options = pumps.flatMap((pump) => this.#options(pump, pumps.length > 1));
    if (options.length < 2) return [];
    return [
      {
        id: 'pump',
        asks: 'Where does the pump’s cable go?',
        about: 'Pump',
        options,
        usual: options[0]!.id,
      },
    ];
  }

  /** A question for each thing that may be added. */
  additions(): Question[] {
    return this.of('addition')
      .filter(([, { relay }]) => !relay)
      .map(([id, module]) => ({
        id: `with-${id}`,
        asks: `Is there a ${module.title.toLowerCase()}?`,
        about: module.title,
        options: [
          none('No', module.otherwise[0] ?? ''),
          ...this.#options([id, module], false).map((option) => ({
            ...option,
            title: option.title.startsWith(module.title)
              ? option.title
              : `Yes, ${lower(option.title)}`,
          })),
        ],
        usual: NONE,
      }));
  }

  #supplies(): Question[] {
    return (['isolator', 'supply'] as const).flatMap((slot) => {
      const options = this.of(slot)
        .flatMap((one) => this.#options(one))
        .toSorted((a, b) => Number(b.id === DEFAULT[slot]) - Number(a.id === DEFAULT[slot]));
      if (options.length < 2) return [];
      return [
        {
          id: slot,
          asks:
            slot === 'supply'
              ? 'What protects the circuit at the consumer unit?'
              : 'What isolates the heating?',
          about: slot === 'supply' ? 'Supply' : 'Isolator',
          options,
          usual: options[0]!.id,
        },
      ];
    });
  }
}

const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** In the order of the demand tables; a kind that has none last. */
function rankOf(kind: string | undefined): number {
  const rank = KINDS.indexOf(kind ?? '');
  return rank === -1 ? KINDS.length : rank;
}
