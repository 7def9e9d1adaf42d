import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { METAL_TABLE } from '../../../shared/materials/metal-table.ts';
import { listSolders } from '../../../shared/materials/solder.ts';
import { REFERENCE_FILLERS, SOLDER_GRADES } from '../../../shared/materials/solder-table.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';

/** Found in a copy of the source, from memory, derived from other values, or chosen for the model. */
const standing = z.enum(['found', 'memory', 'derived', 'judgement']);
const sourced = <Value extends z.ZodType>(value: Value) => z.object({ value, source: z.string(), standing });
const number = sourced(z.number());
/** at20C + perK · (T − 20). */
const line = sourced(z.object({ at20C: z.number(), perK: z.number() }));

const MetalReply = z.object({
  id: z.string(),
  name: z.string(),
  densityGPerCm3: number,
  finenessFraction: number,
  solidusC: number,
  castSolidusC: number,
  liquidusC: number,
  conductivityWPerMK: line,
  specificHeatJPerKgK: line,
  emissivityFraction: number,
});

const SolderGradeReply = z.object({
  id: z.string(),
  name: z.string(),
  /** Percent by mass. */
  composition: sourced(z.record(z.string(), z.number())),
  solidusC: number,
  liquidusC: number,
  densityGPerCm3: z.number(),
  cadmiumStanding: z.enum(['no', 'yes', 'unknown']),
  /** False for rows that are there to be compared with, never offered. */
  isOffered: z.boolean(),
});

/** The tables that the engine reckons with, each value with its source. */
export const materialRoutes: FastifyPluginAsyncZod = async (app) => {
  const tags = ['materials'];

  app.get(
    '/metals',
    {
      schema: {
        tags,
        summary: 'Metals that a part may name, every value with its source',
        response: { 200: z.object({ items: z.array(MetalReply) }), ...problemReplies },
      },
    },
    async () => ({ items: Object.entries(METAL_TABLE).map(([id, entry]) => ({ id, ...entry })) }),
  );

  app.get(
    '/solder-grades',
    {
      schema: {
        tags,
        summary: 'Grades as tables print them; a plan uses the two numbers of your own packet',
        response: { 200: z.object({ items: z.array(SolderGradeReply) }), ...problemReplies },
      },
    },
    async () => ({
      items: listSolders().map(({ id, name, densityGPerCm3, cadmiumStanding, isOffered }) => {
        const { composition, solidusC, liquidusC } = TABLE.get(id)!;
        const parts = Object.entries(composition.value).map(([element, percent]): [string, number] => [element, percent]);
        return {
          id,
          name,
          composition: { ...composition, value: Object.fromEntries(parts) },
          solidusC,
          liquidusC,
          densityGPerCm3,
          cadmiumStanding,
          isOffered,
        };
      }),
    }),
  );
};

const TABLE = new Map(Object.entries({ ...SOLDER_GRADES, ...REFERENCE_FILLERS }));
