import { z } from 'zod';
import { SentFile } from '../../platform/http/form-body.ts';

export const NewSafetySheet = z.strictObject({
  file: z
    .custom<SentFile>((value) => value instanceof SentFile, 'Send the safety data sheet itself as a file.')
    .meta({
      type: 'string',
      format: 'binary',
      description: 'PDF, PNG or JPEG, at most 10 MB. It takes the place of the one before.',
    }),
});

export const SafetySheetReply = z.object({
  productId: z.string(),
  mediaType: z.enum(['application/pdf', 'image/png', 'image/jpeg']),
  sizeBytes: z.number().int(),
  sha256: z.string(),
  createdAt: z.string(),
});
