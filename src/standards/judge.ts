import type { Standard, StandardRule, System } from '../../schemas/index.ts';
import type { Simulation } from '../circuit/index.ts';
import { CHECKS } from './checks/index.ts';
import { list } from './say.ts';
import { type Subject, subjectOf } from './subject.ts';
import {
  apart,
  type Check,
  type ExceptedFinding,
  type Finding,
  type IdleException,
  type Judgement,
  type NamedStandard,
  type PlacedException,
  type Verdict,
} from './types.ts';

/**
 * Judges a simulated system by every standard.
 * @param today date by which exceptions begin and end, YYYY-MM-DD.
 */
export function judge(
  standards: Iterable<NamedStandard>,
  simulation: Simulation,
  today: string,
): Judgement[] {
  const subject = subjectOf(simulation);
  const exceptions = simulation.network.system.exceptions.map((exception, index) => ({
    ...exception,
    index,
  }));
  return [...standards].map(({ id, standard }) => {
    const own = exceptions.filter((exception) => exception.standard === id);
    return withExceptions(id, verdictOn(standard, subject, simulation), own, today);
  });
}

/** What a standard says of a system, exceptions apart. */
export function verdictOn(
  standard: Standard,
  subject: Subject | null,
  { network }: Simulation,
): Verdict {
  if (!subject) return apart('the circuit has no supply');
  const outside = outsideOf(standard, network.system);
  return outside ? apart(outside) : runCheck(standard.rule, subject);
}

/** Runs the check of a rule on a system. */
export function runCheck(rule: StandardRule, subject: Subject): Verdict {
  return checkOf(rule).run(rule, subject);
}

/**
 * What a rule looks for, in words.
 * @param deviceName what a device is called in a sentence; its id unless given.
 */
export const ruleWords = (
  rule: StandardRule,
  deviceName: (id: string) => string = (id) => id,
): string => checkOf(rule).words(rule, deviceName);

/** The check that takes this rule: each takes the rule that bears its own name. */
const checkOf = (rule: StandardRule) => CHECKS[rule.check] as Check<typeof rule.check>;

/** Why a system is not among those a standard is about; undefined when it is. */
function outsideOf({ applies }: Standard, system: System): string | undefined {
  const { arrangements, controls, features } = applies ?? {};
  if (arrangements && !arrangements.includes(system.arrangement))
    return `it is about ${list(arrangements, 'or')} boilers`;
  if (controls && !controls.includes(system.control)) return `it is about ${list(controls, 'or')}`;
  if (features && !features.some((feature) => system.features.includes(feature)))
    return `it is about systems with ${list(features, 'or')}`;
  return undefined;
}

/** Takes from a verdict what the system's exceptions cover on a day. */
export function withExceptions(
  standard: string,
  verdict: Verdict,
  exceptions: readonly PlacedException[],
  today: string,
): Judgement {
  const all = verdict.state === 'breached' ? verdict.findings : [];
  const excepted: ExceptedFinding[] = [];
  const findings: Finding[] = [];
  for (const finding of all) {
    const exception = exceptions.find((one) => holdsOn(one, today) && covers(one, finding));
    if (exception) excepted.push({ ...finding, exception });
    else findings.push(finding);
  }
  const idle = exceptions.flatMap((exception): IdleException[] => {
    if (exception.until < today) return [{ exception, because: 'ended' }];
    if (exception.from > today) return [{ exception, because: 'not begun' }];
    const used = all.some((finding) => covers(exception, finding));
    return used ? [] : [{ exception, because: 'covers nothing' }];
  });
  const said =
    verdict.state === 'holds' ? verdict.proof : verdict.state === 'breached' ? '' : verdict.why;
  const state = all.length > 0 && findings.length === 0 ? 'excepted' : verdict.state;
  return { standard, state, said, findings, excepted, idle };
}

const holdsOn = ({ from, until }: PlacedException, today: string) =>
  from <= today && today <= until;

/** An exception for a cable or an item covers every conductor or terminal of it. */
const covers = ({ at }: PlacedException, finding: Finding): boolean =>
  !at || at.some((place) => finding.at === place || finding.at.startsWith(`${place}.`));
