import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { listSolders } from '../../../shared/materials/solder.ts';
import { REFERENCE_FILLERS, SOLDER_GRADES } from '../../../shared/materials/solder-table.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';

/** Found in a copy of the source, from memory, derived from other values, or chosen for the model. */
const standing = z.enum(['found', 'memory', 'derived', 'judgement']);
const sourced = <Value extends z.ZodType>(value: Value) => z.object({ value, source: z.string(), standing });
const number = sourced(z.number());

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

/** The table of solders to compare with, each value with its source. */
export const materialRoutes: FastifyPluginAsyncZod = async (app) => {
  const tags = ['materials'];

  app.get(
    '/solder-grades',
    {
      schema: {
        tags,
        summary: 'Grades as tables print them, to compare with',
        description:
          'Reference only, the same for every studio. What a plan may use is in the studio’s own drawer: add each packet with its own two temperatures and its silver at POST /solder-products. Rows with cadmium in them are here so that old work can be recognised, and are never offered.',
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
