/** A quantity the engine cannot use: outside the range the model covers, or contradicting another one. */
export class EngineInputError extends RangeError {
  readonly quantity: string;
  readonly given: unknown;

  constructor(quantity: string, given: unknown, allowed: string) {
    super(`${quantity} must be ${allowed}; it is ${String(given)}`);
    this.name = 'EngineInputError';
    this.quantity = quantity;
    this.given = given;
  }
}
