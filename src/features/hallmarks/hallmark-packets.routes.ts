import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import { NewPacket, PacketChange, PacketMove, PacketParams, PacketQuery, PacketReply } from './hallmark-packets.schema.ts';
import type { HallmarkPacketService } from './hallmark-packets.service.ts';

export const hallmarkPacketRoutes: FastifyPluginAsyncZod<{ packets: HallmarkPacketService; platform: Once }> = async (
  app,
  { packets, platform },
) => {
  const tags = ['hallmark-packets'];

  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Begin a packet of pieces to be assayed and marked; its cost is shared by its articles',
        body: NewPacket,
        response: { 201: PacketReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const packet = once(platform, { request, reply, status: 201 }, () => packets.add(actorOf(request), request.body));
      sendVersion(reply, packet.version);
      return packet;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Packets, newest first; by state or by a piece in them',
        querystring: PacketQuery,
        response: { 200: pageReply(PacketReply), ...problemReplies },
      },
    },
    async (request) => packets.list(actorOf(request), request.query),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags,
        summary: 'One packet: its pieces, what each costs, and how fine each is beside the rules of the place',
        params: PacketParams,
        response: { 200: PacketReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const packet = packets.get(actorOf(request), request.params.id);
      sendVersion(reply, packet.version);
      return packet;
    },
  );

  app.patch(
    '/:id',
    {
      schema: {
        tags,
        summary: 'Change a packet while it is packed',
        params: PacketParams,
        body: PacketChange,
        response: { 200: PacketReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const packet = packets.change(actorOf(request), request.params.id, versionSeen(request), request.body);
      sendVersion(reply, packet.version);
      return packet;
    },
  );

  app.post(
    '/:id/moves',
    {
      schema: {
        tags,
        summary: 'Send a packet, note that it is there, struck or refused, take it back, or note it lost',
        description:
          'Its pieces go along: away when it is sent, back to finishing when they are counted and weighed; a refused or lost piece is hurt, with an incident.',
        params: PacketParams,
        body: PacketMove,
        response: { 200: PacketReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const packet = once(platform, { request, reply, status: 200, needed: true }, () =>
        packets.move(actorOf(request), request.params.id, request.body),
      );
      sendVersion(reply, packet.version);
      return packet;
    },
  );
};
