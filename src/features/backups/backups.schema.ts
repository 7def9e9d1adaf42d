import { z } from 'zod';

export const BackupReply = z.object({
  id: z.uuid(),
  state: z
    .enum(['running', 'kept', 'failed', 'removed'])
    .describe('kept: the file is in the folder; removed: newer ones took its place, by the rule of the settings.'),
  begunAt: z.string(),
  endedAt: z.string().nullable(),
  folder: z.string(),
  fileName: z.string(),
  bytes: z.number().int().nullable().describe('Of the encrypted file.'),
  sha256: z.string().nullable().describe('Of the encrypted file, in hexadecimal.'),
  failure: z.string().nullable().describe('Why there is no file, in words.'),
  checkedAt: z.string().nullable().describe('When the server last opened the file and read the whole book in it.'),
  checkFailure: z.string().nullable().describe('What it found wrong; null: nothing.'),
});

export const BackupParams = z.strictObject({ id: z.uuid() });

export const BackupStanding = z.object({
  folder: z.string().describe('Empty: no backups are made; PATCH /settings with backups.folder turns them on.'),
  nextAt: z.string().nullable(),
  lastKeptAt: z.string().nullable(),
  lastCheckedAt: z.string().nullable(),
  working: z.boolean().describe('One is being made or read through now.'),
  warnings: z.array(z.string()).describe('What is not as it should be, in words.'),
});
