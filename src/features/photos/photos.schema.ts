import { z } from 'zod';
import { SentFile } from '../../platform/http/form-body.ts';
import { Moment } from '../../platform/http/moment.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { lineOfText } from '../../platform/http/text.ts';

export const PhotoParams = z.strictObject({ id: z.uuid() });

export const PhotoFileQuery = z.strictObject({
  size: z.enum(['full', 'thumbnail']).default('full').describe('At most 2560 or 400 pixels a side.'),
});

const caption = lineOfText(200);

/** A field of a form is text. */
const yesOrNo = z.enum(['true', 'false']).transform((word) => word === 'true');

export const NewPhoto = z.strictObject({
  file: z
    .custom<SentFile>((value) => value instanceof SentFile, 'Send the picture itself as a file.')
    .meta({
      type: 'string',
      format: 'binary',
      description:
        'JPEG, PNG or WebP, 10 kB to 40 MB. It is read in full and written anew, upright, without place, time or device.',
    }),
  pieceId: z.uuid().optional().describe('Of a piece; needed with a heat, an incident or a part.'),
  commissionId: z
    .uuid()
    .optional()
    .describe('Of a commission as a whole, such as of metal or stones that were taken in; not needed with a piece.'),
  heatId: z.uuid().optional(),
  incidentId: z.uuid().optional(),
  part: z.string().min(1).max(80).optional().describe('A part of the piece as its design names it.'),
  caption: caption.optional().describe('Read by the client too, once they may see the photo.'),
  takenAt: Moment.optional().describe('When it was taken, if it is sent later.'),
  showsPerson: yesOrNo.describe('Whether a person can be made out. It then stays in the studio.'),
});

export const PhotoChange = z
  .strictObject({
    caption: caption.nullable(),
    showsPerson: z.boolean(),
    clientMaySee: z
      .boolean()
      .describe('Shown to the client by the private link. Of an incident the owner alone says so; with a person in it, nobody.'),
  })
  .partial();

export const PhotoQuery = PageQuery.extend({
  commissionId: z.uuid().optional().describe('With those of its pieces.'),
  pieceId: z.uuid().optional(),
  heatId: z.uuid().optional(),
  incidentId: z.uuid().optional(),
});

export const PhotoReply = z.object({
  id: z.string(),
  commissionId: z.string(),
  pieceId: z.string().nullable(),
  heatId: z.string().nullable(),
  incidentId: z.string().nullable(),
  part: z.string().nullable(),
  caption: z.string().nullable(),
  takenAt: z.string(),
  showsPerson: z.boolean(),
  clientMaySee: z.boolean(),
  widthPx: z.number().int(),
  heightPx: z.number().int(),
  file: z.string().describe('Where the picture is; with ?size=thumbnail a small one.'),
  addedBy: z.string(),
  version: z.number().int(),
  createdAt: z.string(),
});
