import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import {
  AddedMetalQuery,
  AddedMetalReply,
  PlaceParams,
  PlaceQuery,
  PlaceRulesBody,
  PlaceRulesReply,
  PublishedReply,
} from './place-rules.schema.ts';
import type { PlaceRulesService } from './place-rules.service.ts';

export const placeRulesRoutes: FastifyPluginAsyncZod<{ placeRules: PlaceRulesService }> = async (app, { placeRules }) => {
  const tags = ['place-rules'];

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Rules of places for marking and tax, as the studio entered them; by place',
        querystring: PlaceQuery,
        response: { 200: pageReply(PlaceRulesReply), ...problemReplies },
      },
    },
    async (request) => placeRules.list(request.query),
  );

  app.get(
    '/published',
    {
      schema: {
        tags,
        summary: 'What is published on the marking of silver, with its source; nothing is computed with it',
        response: { 200: PublishedReply, ...problemReplies },
      },
    },
    async () => placeRules.published(),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags,
        summary: 'The rules of one place',
        params: PlaceParams,
        response: { 200: PlaceRulesReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const rules = placeRules.get(request.params.id);
      sendVersion(reply, rules.version);
      return rules;
    },
  );

  app.get(
    '/:id/added-metal',
    {
      schema: {
        tags,
        summary: 'Whether so much metal may be added to a piece that is marked already',
        params: PlaceParams,
        querystring: AddedMetalQuery,
        response: { 200: AddedMetalReply, ...problemReplies },
      },
    },
    async (request) => placeRules.addedMetal(request.params.id, request.query),
  );

  app.put(
    '/:id',
    {
      config: { stored: ({ id }: { id: string }) => placeRules.stored(id) },
      schema: {
        tags,
        summary: 'Enter the rules of a place, whole; with If-Match once there are some',
        params: PlaceParams,
        body: PlaceRulesBody,
        response: { 200: PlaceRulesReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const rules = placeRules.put(actorOf(request), request.params.id, () => versionSeen(request), request.body);
      sendVersion(reply, rules.version);
      return rules;
    },
  );
};
