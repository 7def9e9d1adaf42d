import type { Reading } from './readings.ts';

/** Two fences round a number: outside the refuse fence it is an error, outside the ask fence it passes when confirmed. */
export interface Fence {
  /** What the number is, as a sentence begins. */
  name: string;
  unit?: string;
  refuseBelow?: number;
  askBelow?: number;
  askAbove?: number;
  refuseAbove?: number;
  /** Units the number may have been meant in, likeliest first. */
  mayBe?: readonly Reading[];
  /** Added when the number lies over the ask fence, refused or asked about. */
  whenTooHigh?: string;
}
