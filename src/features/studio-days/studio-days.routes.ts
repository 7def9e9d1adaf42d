import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { actorOf } from '../../platform/http/actor.ts';
import { PageQuery, pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import {
  AbsenceChange,
  AbsenceQuery,
  AbsenceReply,
  BenchChange,
  BenchReply,
  IdParams,
  NewAbsence,
  NewBench,
} from './studio-days.schema.ts';
import type { StudioDayService } from './studio-days.service.ts';

interface Needs {
  studioDays: StudioDayService;
}

const tags = ['studio days'];

export const benchListRoutes: FastifyPluginAsyncZod<Needs> = async (app, { studioDays }) => {
  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Note a bench, and who works at it',
        body: NewBench,
        response: { 201: BenchReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const bench = studioDays.addBench(actorOf(request), request.body);
      reply.code(201);
      sendVersion(reply, bench.version);
      return bench;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Benches, newest first',
        querystring: PageQuery,
        response: { 200: pageReply(BenchReply), ...problemReplies },
      },
    },
    async (request) => studioDays.listBenches(request.query),
  );

  app.get(
    '/:id',
    { schema: { tags, summary: 'One bench', params: IdParams, response: { 200: BenchReply, ...problemReplies } } },
    async (request, reply) => {
      const bench = studioDays.getBench(request.params.id);
      sendVersion(reply, bench.version);
      return bench;
    },
  );

  app.patch(
    '/:id',
    {
      config: { stored: ({ id }: { id: string }) => studioDays.getBench(id) },
      schema: {
        tags,
        summary: 'Give a bench to somebody else, or close it',
        params: IdParams,
        body: BenchChange,
        response: { 200: BenchReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const bench = studioDays.changeBench(actorOf(request), request.params.id, versionSeen(request), request.body);
      sendVersion(reply, bench.version);
      return bench;
    },
  );
};

export const absenceRoutes: FastifyPluginAsyncZod<Needs> = async (app, { studioDays }) => {
  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Note days on which somebody is away, or the studio is closed',
        body: NewAbsence,
        response: { 201: AbsenceReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const absence = studioDays.addAbsence(actorOf(request), request.body);
      reply.code(201);
      sendVersion(reply, absence.version);
      return absence;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Absences, newest first',
        querystring: AbsenceQuery,
        response: { 200: pageReply(AbsenceReply), ...problemReplies },
      },
    },
    async (request) => studioDays.listAbsences(request.query),
  );

  app.get(
    '/:id',
    { schema: { tags, summary: 'One absence', params: IdParams, response: { 200: AbsenceReply, ...problemReplies } } },
    async (request, reply) => {
      const absence = studioDays.getAbsence(request.params.id);
      sendVersion(reply, absence.version);
      return absence;
    },
  );

  app.patch(
    '/:id',
    {
      schema: {
        tags,
        summary: 'Change an absence',
        params: IdParams,
        body: AbsenceChange,
        response: { 200: AbsenceReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const absence = studioDays.changeAbsence(actorOf(request), request.params.id, versionSeen(request), request.body);
      sendVersion(reply, absence.version);
      return absence;
    },
  );

  app.delete(
    '/:id',
    {
      schema: {
        tags,
        summary: 'Take an absence out: it does not come about',
        params: IdParams,
        response: { 204: z.null(), ...problemReplies },
      },
    },
    async (request, reply) => {
      studioDays.removeAbsence(actorOf(request), request.params.id);
      return reply.code(204).send(null);
    },
  );
};
