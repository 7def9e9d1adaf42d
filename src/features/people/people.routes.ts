import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { actorOf } from '../../platform/http/actor.ts';
import { PageQuery, pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import { FirstOwner, NewPerson, PersonChange, PersonParams, PersonReply } from './people.schema.ts';
import type { PeopleService } from './people.service.ts';
import { OwnerReset } from './tablets.schema.ts';

export const peopleRoutes: FastifyPluginAsyncZod<{ people: PeopleService }> = async (app, { people }) => {
  app.post(
    '/first-owner',
    {
      config: { rateLimit: { max: 10, timeWindow: '1 minute' } },
      schema: {
        tags: ['people'],
        summary: 'Make the first owner, with the code printed at the first start',
        body: FirstOwner,
        response: { 201: PersonReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const person = await people.makeFirstOwner(request.body);
      reply.code(201);
      sendVersion(reply, person.version);
      return person;
    },
  );

  app.post(
    '/owner-resets',
    {
      config: { rateLimit: { max: 10, timeWindow: '1 minute' } },
      schema: {
        tags: ['people'],
        summary: 'Set the password of an owner who lost it, with the code that npm run reset-owner printed on the machine',
        description: 'Every session and every token of that owner ends with it: programs are given new ones.',
        body: OwnerReset,
        response: { 200: z.object({ personId: z.string(), name: z.string(), signInName: z.string() }), ...problemReplies },
      },
    },
    async (request) => people.resetOwner(request.body),
  );

  app.post(
    '/',
    {
      schema: {
        tags: ['people'],
        summary: 'Add someone who works at the studio',
        body: NewPerson,
        response: { 201: PersonReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const person = await people.add(actorOf(request), request.body);
      reply.code(201);
      sendVersion(reply, person.version);
      return person;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags: ['people'],
        summary: 'Who works at the studio',
        querystring: PageQuery,
        response: { 200: pageReply(PersonReply), ...problemReplies },
      },
    },
    async (request) => people.list(request.query),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags: ['people'],
        summary: 'One person',
        params: PersonParams,
        response: { 200: PersonReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const person = people.get(request.params.id);
      sendVersion(reply, person.version);
      return person;
    },
  );

  app.patch(
    '/:id',
    {
      config: { stored: ({ id }: { id: string }) => people.get(id) },
      schema: {
        tags: ['people'],
        summary: 'Change a person',
        params: PersonParams,
        body: PersonChange,
        response: { 200: PersonReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const person = await people.change(actorOf(request), request.params.id, versionSeen(request), request.body);
      sendVersion(reply, person.version);
      return person;
    },
  );
};
