import { z } from 'zod';
import { PageQuery } from '../../platform/http/paging.ts';
import { ObservedHeatSchema, ObservedStripSchema, TorchCalibrationReply } from '../calculations/index.ts';

/** A fit plays every observation some sixty times, so there are not many. */
const MOST_HEATS = 8;

export const NewCalibration = z
  .strictObject({
    torchId: z.uuid(),
    heatIds: z.array(z.uuid()).max(MOST_HEATS).default([]).describe('Heats of the book that one lit oneself and noted times of.'),
    observations: z.array(ObservedHeatSchema).max(MOST_HEATS).default([]).describe('Heats that are in no book.'),
    strips: z.array(ObservedStripSchema).max(8).default([]),
  })
  .refine(({ heatIds, observations }) => heatIds.length + observations.length <= MOST_HEATS, {
    path: ['heatIds'],
    message: `Send at most ${MOST_HEATS} heats together: the newest tell most.`,
  })
  .refine(({ heatIds }) => new Set(heatIds).size === heatIds.length, { path: ['heatIds'], message: 'Name each heat once.' });

export const CalibrationQuery = PageQuery.extend({ torchId: z.uuid().optional(), personId: z.uuid().optional() });

const CalibrationSummary = TorchCalibrationReply.extend({
  id: z.string(),
  personId: z.string(),
  torchId: z.string(),
  version: z.number().int().describe('Of this person with this torch, from 1; the newest is used.'),
  heatIds: z.array(z.string()),
  createdAt: z.string(),
});

export const CalibrationList = CalibrationSummary;

export const CalibrationReply = CalibrationSummary.extend({
  observations: z.array(ObservedHeatSchema).describe('What it was fitted to, the heats of the book first, as they were then.'),
  strips: z.array(ObservedStripSchema),
});
