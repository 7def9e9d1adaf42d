import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import {
  ComparisonQuery,
  ComparisonReply,
  EstimateAsked,
  EstimateFromBook,
  NewQuote,
  QuoteChange,
  QuoteMove,
  QuoteParams,
  QuoteQuery,
  QuoteReply,
  WhatIf,
  WhatIfReply,
} from './quotes.schema.ts';
import type { QuoteService } from './quotes.service.ts';

interface Options {
  quotes: QuoteService;
  platform: Once;
}

export const estimateRoutes: FastifyPluginAsyncZod<Options> = async (app, { quotes }) => {
  app.post(
    '/',
    {
      schema: {
        tags: ['quotes'],
        summary: 'Price a piece or a commission from the book; nothing is kept',
        description:
          'The request is made from design, plan, settings and stock; "overrides" is a JSON Merge Patch of it, so every number can be typed instead. The answer shows the request it was made from.',
        body: EstimateAsked,
        response: { 200: EstimateFromBook, ...problemReplies },
      },
    },
    async (request) => quotes.estimate(actorOf(request), request.body),
  );
};

export const quoteRoutes: FastifyPluginAsyncZod<Options> = async (app, { quotes, platform }) => {
  app.post(
    '/',
    {
      schema: {
        tags: ['quotes'],
        summary: 'Write the next version of a quote, as a sketch',
        body: NewQuote,
        response: { 201: QuoteReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const quote = once(platform, { request, reply, status: 201 }, () => quotes.add(actorOf(request), request.body));
      sendVersion(reply, quote.version);
      return quote;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags: ['quotes'],
        summary: 'Versions, newest first; by commission or state',
        querystring: QuoteQuery,
        response: { 200: pageReply(QuoteReply), ...problemReplies },
      },
    },
    async (request) => quotes.list(actorOf(request), request.query),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags: ['quotes'],
        summary: 'One version: the page for the client, and for the owner the page with every line',
        params: QuoteParams,
        response: { 200: QuoteReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const quote = quotes.get(actorOf(request), request.params.id);
      sendVersion(reply, quote.version);
      return quote;
    },
  );

  app.patch(
    '/:id',
    {
      schema: {
        tags: ['quotes'],
        summary: 'Change a sketch; with overrides it is priced again from the book as it is now',
        params: QuoteParams,
        body: QuoteChange,
        response: { 200: QuoteReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const quote = quotes.change(actorOf(request), request.params.id, versionSeen(request), request.body);
      sendVersion(reply, quote.version);
      return quote;
    },
  );

  app.post(
    '/:id/what-if',
    {
      schema: {
        tags: ['quotes'],
        summary: 'Change a number of a version and see the price move; nothing is kept',
        params: QuoteParams,
        body: WhatIf,
        response: { 200: WhatIfReply, ...problemReplies },
      },
    },
    async (request) => quotes.whatIf(actorOf(request), request.params.id, request.body),
  );

  app.get(
    '/:id/comparison',
    {
      schema: {
        tags: ['quotes'],
        summary: 'A version beside another of the same commission, line by line and input by input',
        params: QuoteParams,
        querystring: ComparisonQuery,
        response: { 200: ComparisonReply, ...problemReplies },
      },
    },
    async (request) => quotes.compare(request.params.id, request.query.with),
  );

  app.post(
    '/:id/moves',
    {
      schema: {
        tags: ['quotes'],
        summary: 'Send, accept, decline, withdraw, replace or bin a version',
        description:
          'A version sent never changes, and replaces the one sent before. Moving the accepted version to replaced accepts the newest version sent in its place.',
        params: QuoteParams,
        body: QuoteMove,
        response: { 200: QuoteReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const quote = once(platform, { request, reply, status: 200, needed: true }, () =>
        quotes.move(actorOf(request), request.params.id, request.body),
      );
      sendVersion(reply, quote.version);
      return quote;
    },
  );
};
