/** Every problem this API sends. Its type URI serves its explanation; a test keeps docs and list equal. */
export const PROBLEMS = {
  'malformed-json': { status: 400, title: 'The body is not JSON' },
  'malformed-request': { status: 400, title: 'The request is not HTTP' },
  'not-signed-in': { status: 401, title: 'Sign in first' },
  'tablet-locked': { status: 401, title: 'The tablet has locked itself' },
  'sign-in-refused': { status: 401, title: 'The name, the password or the PIN is wrong' },
  forbidden: { status: 403, title: 'This role may not do that' },
  'other-site': { status: 403, title: 'The request came from another site' },
  'not-found': { status: 404, title: 'No such record' },
  'move-not-allowed': { status: 409, title: 'The life cycle does not allow this move' },
  'moved-on': { status: 409, title: 'It is no longer in the state you saw' },
  'condition-not-met': { status: 409, title: 'Something has to be done first' },
  'solder-lot-short': { status: 409, title: 'The solder lot holds less than was asked for' },
  'cadmium-blocks': { status: 409, title: 'Cadmium is in it or may be: this heat is blocked' },
  'times-overlap': { status: 409, title: 'One person cannot be at two things at once' },
  'other-book': { status: 409, title: 'Another book is open here' },
  'already-used': { status: 409, title: 'This name or number is taken' },
  'too-slow': { status: 408, title: 'The request took too long to arrive' },
  stale: { status: 412, title: 'Someone changed it since you read it' },
  'too-large': { status: 413, title: 'The body is too large' },
  'wrong-media-type': { status: 415, title: 'This kind of body is not taken here' },
  'invalid-fields': { status: 422, title: 'Some fields cannot be used' },
  'outside-model': { status: 422, title: 'A quantity is outside the range the model covers' },
  'letters-not-in-font': { status: 422, title: 'The fonts of the papers lack a letter' },
  'idempotency-key-reused': { status: 422, title: 'This Idempotency-Key was sent with another request' },
  'if-match-missing': { status: 428, title: 'Say which version you are changing' },
  'too-many-requests': { status: 429, title: 'Too many tries; wait a little' },
  'headers-too-large': { status: 431, title: 'The headers or the address are too long' },
  'no-room-on-disk': { status: 507, title: 'No room is left on the disk' },
  'book-not-writable': { status: 503, title: 'The book cannot be written' },
  'book-damaged': { status: 503, title: 'The book is damaged' },
  internal: { status: 500, title: 'Unexpected error' },
} as const;

export type ProblemSlug = keyof typeof PROBLEMS;

/** One field that cannot be used. */
export interface FieldError {
  /** JSON Pointer into the body; `?name` for a query parameter, `:name` for a part of the path. */
  pointer: string;
  detail: string;
  given?: unknown;
  unit?: string;
  /** The value it may have been meant as, converted. */
  perhaps?: unknown;
  /** It passes when sent again with the headers Confirm and Confirm-Reason. */
  confirmable?: boolean;
  /** What puts it right, where that is known. */
  bestFix?: unknown;
}

export class Problem extends Error {
  readonly slug: ProblemSlug;
  readonly extensions: Record<string, unknown>;

  constructor(slug: ProblemSlug, detail: string, extensions: Record<string, unknown> = {}) {
    super(detail);
    this.slug = slug;
    this.extensions = extensions;
  }

  get status(): number {
    return PROBLEMS[this.slug].status;
  }

  toJSON() {
    return { ...this.extensions, type: `/api/v1/problems/${this.slug}`, ...PROBLEMS[this.slug], detail: this.message };
  }
}

/** More than a form has; a body that is wrong in more places is wrong as a whole. */
const MOST_ERRORS = 500;
const MOST_DETAILS = 20;
const MOST_GIVEN = 200;
const MOST_POINTER = 300;
const MOST_DETAIL = 1000;

/** All bad fields at once. What was given, and the names it was given under, are shown again as far as somebody would read them. */
export function invalidFields(errors: FieldError[]): Problem {
  const count = errors.length === 1 ? 'One field' : `${errors.length} fields`;
  const told = errors.slice(0, MOST_ERRORS).map(shortened);
  const details = told.slice(0, MOST_DETAILS).map(({ pointer, detail }) => (pointer === '' ? detail : `${pointer}: ${detail}`));
  if (errors.length > MOST_DETAILS) details.push('And so on.');
  return new Problem('invalid-fields', `${count} cannot be used: ${details.join(' ')}`, { errors: told });
}

function shortened({ pointer, detail, ...error }: FieldError): FieldError {
  const { given } = error;
  const shown = typeof given === 'string' ? { given: cut(given, MOST_GIVEN) } : {};
  return { pointer: cut(pointer, MOST_POINTER), detail: cut(detail, MOST_DETAIL), ...error, ...shown };
}

const cut = (text: string, most: number): string => (text.length > most ? `${text.slice(0, most)}…` : text);

/** What the engine cannot compute: which quantity, and what was given for it. */
export function outsideModel(detail: string, { quantity, given }: { quantity: string; given: unknown }): Problem {
  return new Problem('outside-model', `Cannot compute this: ${cut(detail, MOST_DETAIL)}`, { quantity, given });
}

export function notFound(what: string, id: string): Problem {
  return new Problem('not-found', `Cannot find ${what} ${id}`);
}

/** @param waitMs until the next try is taken */
export function tooManyTries(waitMs: number): Problem {
  const retryAfterS = Math.ceil(waitMs / 1000);
  return new Problem('too-many-requests', `Too many tries from this device: wait ${retryAfterS} seconds`, { retryAfterS });
}
