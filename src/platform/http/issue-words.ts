import type { z } from 'zod';

type Issue = z.core.$ZodRawIssue;

const KINDS: Readonly<Record<string, string>> = {
  string: 'text in quotes',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  tuple: 'a list',
  object: 'an object',
  record: 'an object',
};

const FORMS: Readonly<Record<string, string>> = {
  uuid: 'This is not an id: take it from the member "id" of a record; numbers such as C31-014 are for people.',
  datetime: 'Write a moment in UTC, such as 2031-06-14T08:30:00Z.',
  date: 'Write a date of the calendar, such as 2031-06-14.',
};

/** What is wrong with a value, in plain words, where its schema has none of its own. */
export function issueWords(issue: Issue): string {
  switch (issue.code) {
    case 'invalid_type':
      if (issue.input === undefined) return 'This field is needed.';
      return `It must be ${KINDS[issue.expected] ?? issue.expected}; this is ${kindOf(issue)}.`;
    case 'invalid_value': {
      const values = issue.values.map(String).join(', ');
      return issue.input === undefined ? `This field is needed: one of ${values}.` : `It must be one of ${values}.`;
    }
    case 'invalid_format':
      return FORMS[issue.format] ?? 'It is not written as it must be here.';
    case 'too_small':
      return tooSmall(issue.origin, Number(issue.minimum), issue.inclusive !== false);
    case 'too_big':
      return tooBig(issue.origin, Number(issue.maximum), issue.inclusive !== false);
    case 'invalid_union':
      return Array.isArray(issue.options)
        ? `It must be one of ${issue.options.map(String).join(', ')}.`
        : 'It has none of the shapes that are taken here.';
    case 'unrecognized_keys':
      return `There is no field "${issue.keys.join(', ')}" here.`;
    case 'not_multiple_of':
      return `It must be a multiple of ${issue.divisor}.`;
    case 'custom':
    case 'invalid_element':
    case 'invalid_key':
      return 'It cannot be used here.';
  }
}

function tooSmall(origin: string, least: number, inclusive: boolean): string {
  if (origin === 'string') return least === 1 ? 'It cannot be empty.' : `It needs ${least} characters or more.`;
  if (origin === 'array') return `It needs ${least} or more of them.`;
  return inclusive ? `It must be ${least} or more.` : `It must be more than ${least}.`;
}

function tooBig(origin: string, most: number, inclusive: boolean): string {
  if (origin === 'string') return `It can have ${most} characters at most.`;
  if (origin === 'array') return `It can have ${most} of them at most.`;
  return inclusive ? `It must be ${most} or less.` : `It must be less than ${most}.`;
}

function kindOf({ input: value, expected }: { input?: unknown; expected: string }): string {
  if (expected === 'int') return String(value);
  if (value === null) return 'null';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'number') return Number.isFinite(value) ? 'a number' : 'no number';
  if (typeof value === 'boolean') return String(value);
  return { string: 'text', object: 'an object' }[typeof value as string] ?? typeof value;
}
