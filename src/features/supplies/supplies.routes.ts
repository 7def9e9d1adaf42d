import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import {
  NewSupply,
  NewSupplyMovement,
  SupplyChange,
  SupplyMovementQuery,
  SupplyMovementReply,
  SupplyParams,
  SupplyQuery,
  SupplyReply,
  SupplyReversal,
} from './supplies.schema.ts';
import type { SupplyService } from './supplies.service.ts';
import type { SupplyMovementService } from './supply-movements.service.ts';

const tags = ['stock'];

export const supplyRoutes: FastifyPluginAsyncZod<{ supplies: SupplyService; platform: Once }> = async (
  app,
  { supplies, platform },
) => {
  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Add flux, pickle salt, gas, findings or stones that the studio keeps',
        body: NewSupply,
        response: { 201: SupplyReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const supply = once(platform, { request, reply, status: 201 }, () => supplies.add(actorOf(request), request.body));
      sendVersion(reply, supply.version);
      return supply;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary:
          'Flux, pickle salt, gas, findings and stones with what there is, newest first; by kind, in use or not, to be ordered',
        querystring: SupplyQuery,
        response: { 200: pageReply(SupplyReply), ...problemReplies },
      },
    },
    async (request) => supplies.list(actorOf(request), request.query),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags,
        summary: 'One supply, with what there is of it',
        params: SupplyParams,
        response: { 200: SupplyReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const supply = supplies.get(actorOf(request), request.params.id);
      sendVersion(reply, supply.version);
      return supply;
    },
  );

  app.patch(
    '/:id',
    {
      config: { stored: ({ id }: { id: string }) => supplies.stored(id) },
      schema: {
        tags,
        summary: 'Change a supply; its kind and unit stand',
        params: SupplyParams,
        body: SupplyChange,
        response: { 200: SupplyReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const supply = supplies.change(actorOf(request), request.params.id, versionSeen(request), request.body);
      sendVersion(reply, supply.version);
      return supply;
    },
  );
};

export const supplyMovementRoutes: FastifyPluginAsyncZod<{ supplyMovements: SupplyMovementService; platform: Once }> = async (
  app,
  { supplyMovements, platform },
) => {
  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Receive a supply, use it, put it back, count it or write it off',
        body: NewSupplyMovement,
        response: { 201: SupplyMovementReply, ...problemReplies },
      },
    },
    async (request, reply) =>
      once(platform, { request, reply, status: 201 }, () => supplyMovements.add(actorOf(request), request.body)),
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'The ledger of supplies, newest first; by supply',
        querystring: SupplyMovementQuery,
        response: { 200: pageReply(SupplyMovementReply), ...problemReplies },
      },
    },
    async (request) => supplyMovements.list(actorOf(request), request.query),
  );

  app.post(
    '/:id/reversals',
    {
      schema: {
        tags,
        summary: 'Take a wrong movement of a supply back by its opposite, once',
        params: SupplyParams,
        body: SupplyReversal,
        response: { 201: SupplyMovementReply, ...problemReplies },
      },
    },
    async (request, reply) =>
      once(platform, { request, reply, status: 201 }, () =>
        supplyMovements.reverse(actorOf(request), request.params.id, request.body.reason),
      ),
  );
};
