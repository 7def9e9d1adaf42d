/** One field that could not be used. */
export interface FieldError {
  pointer: string;
  detail: string;
  given?: unknown;
  unit?: string;
  perhaps?: unknown;
  /** Unusual, not wrong: it passes when it is said again with a reason. */
  confirmable?: boolean;
}

/** RFC 9457, as the server writes it. */
export interface ProblemBody {
  type?: string;
  title: string;
  status: number;
  detail?: string;
  errors?: FieldError[];
  [extension: string]: unknown;
}

/** What the server refused, and why. */
export class ApiProblem extends Error {
  readonly body: ProblemBody;
  constructor(body: ProblemBody) {
    super(body.detail ?? body.title);
    this.body = body;
  }

  /** The last part of its type, such as "stale". */
  get slug(): string {
    return this.body.type?.split('/').at(-1) ?? '';
  }

  get errors(): FieldError[] {
    return this.body.errors ?? [];
  }

  /** Whether a reason would let it pass as it is. */
  get confirmable(): boolean {
    return this.errors.length > 0 && this.errors.every(({ confirmable }) => confirmable === true);
  }
}

/** No answer came: the network or the studio's machine is gone. */
export class Unreachable extends Error {
  constructor() {
    super('unreachable');
  }
}
