import { z } from 'zod';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';
import { moveFields } from '../../platform/http/moves.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { blockOfText } from '../../platform/http/text.ts';
import { withoutCardNumber } from '../clients/index.ts';

const LinkState = z.enum(LIFECYCLES.private_link.states);

export const LinkParams = z.strictObject({ id: z.uuid() });
export const NewLink = z.strictObject({ commissionId: z.uuid() });
export const LinkQuery = PageQuery.extend({ commissionId: z.uuid().optional(), state: LinkState.optional() });
export const LinkMove = z.strictObject({ ...moveFields, to: LinkState });

export const LinkReply = z.object({
  id: z.string(),
  commissionId: z.string(),
  commissionNumber: z.string(),
  clientName: z.string(),
  state: LinkState,
  stateReason: z.string().nullable(),
  endsOn: z.string().nullable().describe('Its last day: 30 days after handing over, or after it was called off. Null before.'),
  visits: z.number().int().describe('How often its page was opened.'),
  lastVisitAt: z.string().nullable(),
  allowedMoves: z.array(z.string()),
  version: z.number().int(),
  createdAt: z.string(),
});

export const NewLinkReply = LinkReply.extend({
  path: z.string().describe('The address of the page behind the host, with its secret: shown this once, kept nowhere.'),
});

export const MessageQuery = PageQuery.extend({ commissionId: z.uuid().optional() });

export const MessageReply = z.object({
  id: z.string(),
  commissionId: z.string(),
  linkId: z.string(),
  words: z.string(),
  createdAt: z.string(),
});

/** What a client's page sends; a form has only texts. */
export const PageParams = z.strictObject({ token: z.string().max(100) });
export const PageQueryParams = z.strictObject({ said: z.enum(['accepted', 'declined', 'message']).optional() });
export const LetterParams = PageParams.extend({ number: z.coerce.number().int().min(1).max(10_000) });
export const PhotoParams = PageParams.extend({ photo: z.uuid() });
export const CardParams = PageParams.extend({ serial: z.coerce.number().int().min(1).max(10_000) });

export const ClientAnswer = z.discriminatedUnion('answer', [
  z.strictObject({ answer: z.literal('accepted'), version: z.coerce.number().int().min(1), read: z.literal('yes') }),
  z.strictObject({ answer: z.literal('declined'), version: z.coerce.number().int().min(1) }),
]);

export const ClientMessage = z.strictObject({
  // A form sends each line with a carriage return before its end.
  words: z.preprocess(
    (words) => (typeof words === 'string' ? words.replaceAll('\r\n', '\n') : words),
    withoutCardNumber(blockOfText(2000)),
  ),
});
