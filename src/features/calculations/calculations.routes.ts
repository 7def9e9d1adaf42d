import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { estimate } from '../../../shared/costing/estimate.ts';
import { solderUse } from '../../../shared/costing/solder-use.ts';
import { pieceWeight } from '../../../shared/forms/piece-weight.ts';
import { aroundMm, ringBlank } from '../../../shared/forms/ring-blank.ts';
import { reorderPoint } from '../../../shared/stock/reorder-point.ts';
import { convertUnit } from '../../../shared/units/convert-unit.ts';
import { actorOf } from '../../platform/http/actor.ts';
import { goneSignal } from '../../platform/http/gone.ts';
import { hourlyRates } from '../../../shared/costing/hourly-rates.ts';
import { invalidFields } from '../../platform/http/problem.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import type { Platform } from '../../platform/platform.ts';
import {
  PieceWeightBody,
  PieceWeightReply,
  PlanCheckBody,
  PlanSearchBody,
  ReorderPointBody,
  ReorderPointReply,
  SolderUseBody,
  SolderUseReply,
  UnitConversionBody,
  UnitConversionReply,
} from './calculations.schema.ts';
import { TorchCalibrationBody, TorchCalibrationReply } from './calibration.schema.ts';
import { PlanCheckReply, PlanSearchReply } from './check.schema.ts';
import { EstimateReply, EstimateRequestSchema } from './estimate.schema.ts';
import { HourlyRatesBody, HourlyRatesReply } from './hourly-rates.schema.ts';
import { knownDesign, knownMetal, knownObservations, knownParts } from './known-designs.ts';
import { checkOrRefuse, whatIfOrRefuse, type Planning } from './planning.ts';
import { PlanWhatIfBody, PlanWhatIfReply } from './what-if.schema.ts';
import { RingBlankBody, RingBlankReply } from './ring-blank.schema.ts';

/** The engine, asked directly: nothing is stored, nothing changes. */
export const calculationRoutes: FastifyPluginAsyncZod<{ platform: Pick<Platform, 'db'>; planning: Planning }> = async (
  app,
  { platform: { db }, planning },
) => {
  const tags = ['calculations'];

  app.post(
    '/plan-check',
    {
      schema: {
        tags,
        summary: 'What every heat of a plan does to the joints made before it',
        body: PlanCheckBody,
        response: { 200: PlanCheckReply, ...problemReplies },
      },
    },
    async ({ body }) => checkOrRefuse({ ...body, design: knownDesign(db, body.design) }),
  );

  app.post(
    '/plan-search',
    {
      schema: {
        tags,
        summary: 'The best order, grades and protections for a design',
        body: PlanSearchBody,
        response: { 200: PlanSearchReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const { body } = request;
      const asker = { personId: actorOf(request).personId, gone: goneSignal(reply) };
      return planning.search(asker, { ...body, design: knownDesign(db, body.design) });
    },
  );

  app.post(
    '/plan-what-if',
    {
      schema: {
        tags,
        summary: 'What edits of a plan would change, and nothing else',
        description: 'An edit that cannot be made, or that breaks a rule, is refused at /edits with what is wrong.',
        body: PlanWhatIfBody,
        response: { 200: PlanWhatIfReply, ...problemReplies },
      },
    },
    async ({ body: { edits, ...body } }) => whatIfOrRefuse({ ...body, design: knownDesign(db, body.design) }, edits),
  );

  app.post(
    '/piece-weight',
    {
      schema: {
        tags,
        summary: 'Volume, mass and surface of every part, and the fineness of the whole',
        body: PieceWeightBody,
        response: { 200: PieceWeightReply, ...problemReplies },
      },
    },
    async ({ body }) => pieceWeight({ ...body.design, parts: knownParts(db, body.design.parts, '/design/parts') }),
  );

  app.post(
    '/solder-use',
    {
      schema: {
        tags,
        summary: 'How much solder every joint takes, and what decides it',
        body: SolderUseBody,
        response: { 200: SolderUseReply, ...problemReplies },
      },
    },
    async ({ body }) => solderUse(body),
  );

  app.post(
    '/estimate',
    {
      schema: {
        tags,
        summary: 'A price by recipe 1, every step shown',
        body: EstimateRequestSchema,
        response: { 200: EstimateReply, ...problemReplies },
      },
    },
    async ({ body }) => estimate(body),
  );

  app.post(
    '/hourly-rates',
    {
      schema: {
        tags,
        summary: 'What an hour has to cost, from a year’s bills and the hours that reach jobs',
        body: HourlyRatesBody,
        response: { 200: HourlyRatesReply, ...problemReplies },
      },
    },
    async ({ body }) => hourlyRates(body),
  );

  app.post(
    '/ring-blank',
    {
      schema: {
        tags,
        summary: 'How long a strip or wire is to be cut for a ring of a size, and what it weighs',
        body: RingBlankBody,
        response: { 200: RingBlankReply, ...problemReplies },
      },
    },
    async ({ body: { sizeMm, insideDiameterMm, metal, ...body } }) => {
      if ((sizeMm === undefined) === (insideDiameterMm === undefined))
        throw invalidFields([{ pointer: '/sizeMm', detail: 'Say the size or the inside diameter: one of them.' }]);
      const { densityGPerCm3 } = knownMetal(db, metal, '/metal');
      return ringBlank({ ...body, insideCircumferenceMm: sizeMm ?? aroundMm(insideDiameterMm!), densityGPerCm3 });
    },
  );

  app.post(
    '/reorder-point',
    {
      schema: {
        tags,
        summary: 'When to order a thing used in lumps, and how much, with the working',
        body: ReorderPointBody,
        response: { 200: ReorderPointReply, ...problemReplies },
      },
    },
    async ({ body }) => reorderPoint(body),
  );

  app.post(
    '/unit-conversion',
    {
      schema: {
        tags,
        summary: 'A quantity in another unit (UCUM codes) or gauge',
        body: UnitConversionBody,
        response: { 200: UnitConversionReply, ...problemReplies },
      },
    },
    async ({ body }) => ({ value: convertUnit(body), unit: body.to }),
  );

  app.post(
    '/torch-calibration',
    {
      schema: {
        tags,
        summary: 'What observed heats say of a torch: its power, the loss to the room, how wide its flame is',
        description:
          'Power is told by the time to clear flux or to flow, loss by a time from flame off to the end of the glow with the piece held in the air, spread by a strip with two chips. What they cannot tell stays at 1 with toldByData false. Noise assumed: 12 % flux clear and flow, 15 % glow, 20 % chips.',
        body: TorchCalibrationBody,
        response: { 200: TorchCalibrationReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const { body } = request;
      const asker = { personId: actorOf(request).personId, gone: goneSignal(reply) };
      return planning.calibrate(asker, { ...body, ...knownObservations(db, body) });
    },
  );
};
