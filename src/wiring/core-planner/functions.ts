/** What a core is for, as far as colour and company depend on it. */
export type CoreUse = 'line' | 'neutral' | 'earth' | 'extra-low';

/** Something to carry between two places. */
export interface CoreFunction {
  readonly title: string;
  /** What its cores are called, one name a core. */
  readonly cores: readonly string[];
  readonly use: CoreUse;
  /** How many of it one request may ask for. */
  readonly most: number;
}

/** Functions in the order in which they are given cores. */
export const CORE_FUNCTIONS = {
  earth: {
    title: 'Earth',
    cores: ['earth'],
    use: 'earth',
    most: 1,
  },
  live: { title: 'Permanent live', cores: ['permanent live'], use: 'line', most: 2 },
  neutral: { title: 'Neutral', cores: ['neutral'], use: 'neutral', most: 1 },
  loop: {
    title: 'Mains loop, out and back',
    cores: ['loop out', 'loop back'],
    use: 'line',
    most: 3,
  },
  switched: { title: 'Switched live', cores: ['switched live'], use: 'line', most: 6 },
  call: {
    title: 'Call pair, extra-low voltage',
    cores: ['call out', 'call back'],
    use: 'extra-low',
    most: 3,
  },
  bus: {
    title: 'Bus or sensor pair, extra-low voltage',
    cores: ['pair, one side', 'pair, other side'],
    use: 'extra-low',
    most: 3,
  },
} as const satisfies Readonly<Record<string, CoreFunction>>;
export type FunctionId = keyof typeof CORE_FUNCTIONS;
export const FUNCTION_IDS = Object.keys(CORE_FUNCTIONS) as readonly FunctionId[];

/** How many of each function; a function not named is not asked for. */
export type FunctionCounts = Readonly<Partial<Record<FunctionId, number>>>;

/** One core's work. */
export interface CoreNeed {
  readonly function: FunctionId;
  /** `switched live 2`. */
  readonly title: string;
  readonly use: CoreUse;
}

/** Cores that stay together in one cable. */
export type NeedGroup = readonly CoreNeed[];

/** What a request asks for, core by core, those that stay together side by side. */
export function groupsOf(counts: FunctionCounts): NeedGroup[] {
  return FUNCTION_IDS.flatMap((id) => {
    const { cores, use } = CORE_FUNCTIONS[id];
    const count = counts[id] ?? 0;
    return Array.from({ length: count }, (_, i) =>
      cores.map((core) => ({
        function: id,
        title: count > 1 ? `${core} ${i + 1}` : core,
        use,
      })),
    );
  });
}
