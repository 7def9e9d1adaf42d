import { z } from 'zod';
import { SettingsBody } from '../settings/index.ts';

const { language, units } = SettingsBody.shape;

export const PreferencesBody = z.strictObject({
  language: language.nullable().describe('Null: that of the studio.'),
  units: units.nullable().describe('Null: those of the studio.'),
});

export const PreferencesReply = z.object({
  own: PreferencesBody,
  language: z.string().describe('What holds: the own one, else that of the studio.'),
  units,
  studio: z.object({ name: z.string(), currency: z.string(), timeZone: z.string(), language: z.string(), units }),
  version: z.number().int(),
});
