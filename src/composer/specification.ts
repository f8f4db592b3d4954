import { type Choice, needsPump, type Service, type Specification } from '../compose/index.ts';
import {
  type Answers,
  DEFAULT,
  DIRECT,
  EACH,
  GRAVITY,
  idOf,
  NONE,
  PLAIN,
  type Questions,
} from './questions.ts';

/** Answers that bring no module. */
const SAY_NOTHING: readonly string[] = [NONE, EACH, GRAVITY, PLAIN, DIRECT];

/** What the answers ask the composer for; what is open is taken as not there. */
export function specificationFor(questions: Questions, answers: Answers): Specification {
  const said = (id: string): Choice | undefined => {
    const answer = answers[id];
    return answer === undefined || SAY_NOTHING.includes(answer) ? undefined : choiceOf(answer);
  };
  const heats = questions.heats(answers.boiler);
  const heat = said('call') ?? heats[0]?.[0] ?? '';
  const gravity = answers.shared === GRAVITY;
  const shared = gravity ? undefined : said('shared');
  const zones = Number(answers.zones ?? 1);
  const service = (control: string, valve: string, limit?: Choice): Service => {
    const [by, opens] = [said(control), said(valve)];
    return {
      controls: by === undefined ? [] : [by],
      ...(opens === undefined ? {} : { valve: opens }),
      ...(limit === undefined ? {} : { limit }),
    };
  };
  const additions = [said('relay'), ...questions.additions().map(({ id }) => said(id))].filter(
    (one) => one !== undefined,
  );
  const pump = needsPump(answers.boiler)
    ? (said('pump') ?? questions.of('pump')[0]?.[0])
    : undefined;
  const hasCylinder = answers.cylinder !== undefined && answers.cylinder !== NONE;
  const own = (slot: 'supply' | 'isolator') =>
    answers[slot] === DEFAULT[slot] ? undefined : said(slot);
  const [supply, isolator, time] = [own('supply'), own('isolator'), said('time')];
  return {
    ...(supply === undefined ? {} : { supply }),
    ...(isolator === undefined ? {} : { isolator }),
    heat,
    ...(pump === undefined ? {} : { pump }),
    ...(time === undefined ? {} : { time }),
    ...(shared === undefined ? {} : { valve: shared }),
    ...(gravity ? { gravity: true } : {}),
    heating: Array.from({ length: zones }, (_, i) => service(`control-${i + 1}`, `valve-${i + 1}`)),
    ...(hasCylinder ? { hotWater: service('control-water', 'valve-water', said('cylinder')) } : {}),
    ...(additions.length > 0 ? { additions } : {}),
  };
}

/**
 * The answers that ask for a specification; null where no answers do: two controls in series, a
 * cut-out in a heating circuit and the like, which an address may say.
 */
export function answersFor(questions: Questions, specification: Specification): Answers | null {
  const { heat, heating, hotWater, gravity, valve, time, pump, additions = [] } = specification;
  const plain = (choice: Choice | undefined, otherwise = NONE): string => {
    if (choice === undefined) return otherwise;
    if (typeof choice === 'string') return choice;
    const [first] = Object.keys(questions.modules.get(choice.module)?.variants ?? {});
    return choice.variant === first ? choice.module : idOf(choice);
  };
  const moduleOf = (choice: Choice) =>
    questions.modules.get(typeof choice === 'string' ? choice : choice.module);
  const relay = additions.find((one) => moduleOf(one)?.relay);
  const given: Record<string, string> = {
    boiler: moduleOf(heat)?.kind ?? '',
    call: plain(heat),
    relay: plain(relay, DIRECT),
    cylinder: hotWater ? plain(hotWater.limit, PLAIN) : NONE,
    zones: String(heating.length),
    shared: gravity ? GRAVITY : plain(valve, EACH),
    time: plain(time),
    pump: plain(pump),
    supply: plain(specification.supply, DEFAULT.supply),
    isolator: plain(specification.isolator, DEFAULT.isolator),
    'control-water': plain(hotWater?.controls?.[0]),
    'valve-water': plain(hotWater?.valve),
  };
  heating.forEach(({ controls, valve: own }, i) => {
    given[`control-${i + 1}`] = plain(controls?.[0]);
    given[`valve-${i + 1}`] = plain(own);
  });
  for (const { id, options } of questions.additions()) {
    const there = additions.map((one) => plain(one));
    given[id] = options.find((option) => there.includes(option.id))?.id ?? NONE;
  }
  const kept = questions.kept(given);
  const asked = JSON.stringify(normal(specificationFor(questions, kept), plain));
  return questions.next(kept) === undefined &&
    asked === JSON.stringify(normal(specification, plain))
    ? kept
    : null;
}

/** A specification with its choices by their shortest names and its fields in one order. */
function normal(
  {
    heat,
    heating,
    hotWater,
    gravity,
    valve,
    time,
    pump,
    additions,
    supply,
    isolator,
  }: Specification,
  plain: (choice: Choice | undefined) => string,
): unknown {
  const service = ({ controls = [], valve: own, limit }: Service) => [
    controls.map((one) => plain(one)),
    plain(own),
    plain(limit),
  ];
  return [
    plain(supply ?? DEFAULT.supply),
    plain(isolator ?? DEFAULT.isolator),
    plain(heat),
    plain(pump),
    plain(time),
    plain(valve),
    gravity ?? false,
    heating.map(service),
    hotWater ? service(hotWater) : null,
    (additions ?? []).map((one) => plain(one)).toSorted(),
  ];
}

/** An option’s id as a choice. */
function choiceOf(id: string): Choice {
  const [module = '', variant] = id.split('~');
  return variant === undefined ? module : { module, variant };
}
