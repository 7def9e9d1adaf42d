import { SharedTablets } from './shared-tablets.tsx';
import { Tokens } from './tokens.tsx';

/** What lets programs and tablets in. */
export function KeysPart() {
  return (
    <>
      <Tokens />
      <SharedTablets />
    </>
  );
}
