import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import type { Platform } from '../../platform/platform.ts';
import { IncidentChange, IncidentMove, IncidentParams, IncidentQuery, IncidentReply, NewIncident } from './incidents.schema.ts';
import type { IncidentService } from './incidents.service.ts';

interface Needs {
  platform: Platform;
  incidents: IncidentService;
}

export const incidentRoutes: FastifyPluginAsyncZod<Needs> = async (app, { platform, incidents }) => {
  const tags = ['incidents'];

  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Note that something went wrong; the cause may follow later',
        body: NewIncident,
        response: { 201: IncidentReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const incident = once(platform, { request, reply, status: 201 }, () => incidents.add(actorOf(request), request.body));
      sendVersion(reply, incident.version);
      return incident;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Incidents, newest first',
        querystring: IncidentQuery,
        response: { 200: pageReply(IncidentReply), ...problemReplies },
      },
    },
    async (request) => incidents.list(actorOf(request), request.query),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags,
        summary: 'One incident',
        params: IncidentParams,
        response: { 200: IncidentReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const incident = incidents.get(actorOf(request), request.params.id);
      sendVersion(reply, incident.version);
      return incident;
    },
  );

  app.patch(
    '/:id',
    {
      config: { stored: ({ id }: { id: string }) => incidents.stored(id) },
      schema: {
        tags,
        summary: 'Note the likely cause, and what was lost',
        params: IncidentParams,
        body: IncidentChange,
        response: { 200: IncidentReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const incident = incidents.change(actorOf(request), request.params.id, versionSeen(request), request.body);
      sendVersion(reply, incident.version);
      return incident;
    },
  );

  app.post(
    '/:id/moves',
    {
      schema: {
        tags,
        summary: 'Explain an incident, and bring it to an end',
        params: IncidentParams,
        body: IncidentMove,
        response: { 200: IncidentReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const incident = once(platform, { request, reply, status: 200, needed: true }, () =>
        incidents.move(actorOf(request), request.params.id, request.body),
      );
      sendVersion(reply, incident.version);
      return incident;
    },
  );
};
