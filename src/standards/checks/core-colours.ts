import type { ConductorBranch } from '../../circuit/index.ts';
import { colourName, coreName, corePath, list } from '../say.ts';
import type { Subject } from '../subject.ts';
import { apart, type Check, type Finding, verdict } from '../types.ts';
import { isLive } from '../volts.ts';
import { isExtraLow } from './conductor-size.ts';

/** What a conductor does that asks for a colour, as the circuit shows it. */
type Duty = 'neutral' | 'call' | 'permanent' | 'switched';

const DUTY_WORDS: Readonly<Record<Duty, string>> = {
  neutral: 'a neutral',
  call: 'part of an extra-low-voltage call',
  permanent: 'live in every working mode',
  switched: 'live in some modes',
};

/** Each conductor is of a colour, or sleeved in one, that says what it does. */
export const coreColours: Check<'core colours'> = {
  words: ({ kinds, permanent, switched, neutral, call }) =>
    [
      `In ${list(kinds, 'or')} cable, by its sleeve or else its own colour:`,
      `a conductor live in every working mode is ${list(permanent.map(colourName), 'or')},`,
      `one live in some modes ${list(switched.map(colourName), 'or')},`,
      `a neutral ${list(neutral.map(colourName), 'or')}`,
      call
        ? `and an extra-low-voltage call ${list(call.map(colourName), 'or')}.`
        : 'and a call of any colour.',
      'What each conductor does is read off the solved circuit.',
    ].join(' '),
  run(rule, subject) {
    const { cables } = subject.network.system;
    const cores = subject.conductors.filter(({ cable }) =>
      rule.kinds.includes(cables[cable]!.kind),
    );
    if (cores.length === 0) return apart(`no cable is ${list(rule.kinds, 'or')}`);
    const findings = cores.flatMap((core): Finding[] => {
      const duty = dutyOf(subject, core);
      if (!duty) return [];
      const marking = core.sleeve ?? core.colour;
      const allowed = rule[duty];
      if (!allowed || allowed.includes(marking)) return [];
      return [
        {
          at: core.id,
          path: corePath(core),
          message: `${coreName(core)} is ${DUTY_WORDS[duty]} and ${core.sleeve ? `sleeved ${colourName(core.sleeve)}` : `${colourName(core.colour)}`}`,
          found: marking,
          allowed: list(allowed, 'or'),
          mend: `Sleeve ${coreName(core)} ${list(allowed.map(colourName), 'or')} at both ends, or take a core of that colour`,
        },
      ];
    });
    return verdict(findings, `cores: ${cores.length}`);
  },
};

/** A core conducts, so one of its ends tells; null for an earth, and for one that is never live. */
function dutyOf(subject: Subject, core: ConductorBranch): Duty | null {
  const { network, earthNodes, neutralNodes, working } = subject;
  if (isExtraLow(network, core)) return 'call';
  if (earthNodes.has(core.from)) return null;
  if (neutralNodes.has(core.from)) return 'neutral';
  const live = working.filter((settled) => isLive(subject, settled, core.from));
  if (live.length === 0) return null;
  return live.length === working.length ? 'permanent' : 'switched';
}
