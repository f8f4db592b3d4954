import type { z } from 'zod';

/** Longest part of a foreign file that a message repeats. */
const MOST_QUOTED = 160;

/** What is wrong with a file by its schema, in plain words, with the place in it. */
export function issueText({ issues: [issue] }: z.ZodError): string {
  const at = issue!.path.map(String).join(' › ').slice(0, 80);
  return `${at === '' ? '' : `at ${at}: `}${saidOf(issue!)}`.slice(0, MOST_QUOTED);
}

function saidOf(issue: z.core.$ZodIssue): string {
  // A message of the schema's own is plain already.
  if (!/^(Invalid|Unrecognized|Too)/.test(issue.message)) return issue.message;
  switch (issue.code) {
    case 'unrecognized_keys':
      return `the key “${issue.keys[0]}” is not known`;
    case 'invalid_value':
      return `this is none of ${issue.values.map(String).join(', ')}`;
    case 'invalid_type':
      return / undefined$/.test(issue.message)
        ? 'this is missing'
        : `this is no ${issue.expected === 'int' ? 'whole number' : issue.expected}`;
    case 'too_big':
      return `this is more than ${issue.maximum}`;
    case 'too_small':
      return `this is less than ${issue.minimum}`;
    default:
      return 'this is not what stands here';
  }
}
