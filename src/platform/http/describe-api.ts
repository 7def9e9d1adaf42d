import { setImmediate as nextTurn } from 'node:timers/promises';
import swagger from '@fastify/swagger';
import swaggerUi from '@fastify/swagger-ui';
import type { FastifyInstance, RouteOptions } from 'fastify';
import type { OpenAPIV3_1 } from 'openapi-types';
import { jsonSchemaTransform, jsonSchemaTransformObject } from 'fastify-type-provider-zod';
import { completed } from './api-document.ts';
import { SESSION_COOKIE } from './sign-in.ts';

/** What a stranger has to know before the first call; Markdown. */
const ABOUT = `The job book of a small silversmithing studio.

**Begin**: make the first owner with the code the server prints at its first start (POST /api/v1/people/first-owner), sign in (POST /api/v1/sessions) and make a bearer token for a program (POST /api/v1/tokens). Who may call what is at /docs/roles.

**Numbers** carry their unit in their name. Money is whole minor units of its currency; a price for a weight is a decimal with its unit. Times are UTC, dates are the studio's.

**Edits** say with If-Match which version they change; the ETag of a reply is the version. **Moves** (POST …/moves) take a thing from one state to another: "from" is the state you saw, "to" one of its allowedMoves; a move that asks for something first is answered 409 with what is missing.

**Refusals** are problems (RFC 9457); their type is a path that explains them. Every field that cannot be used is in "errors", with what it may have meant ("perhaps"). A field marked "confirmable" passes when the request is sent again with the headers Confirm and Confirm-Reason.

**Lists** are newest first; nextCursor is the cursor of the next page.

Predictions are arithmetic from figures you or your supplier gave: try them on scrap; they do not replace safety data sheets, training or the law.`;

const VERSION = '3.1.0';

type Told = ReturnType<typeof jsonSchemaTransform>['schema'];

/**
 * OpenAPI 3.1 from the very schemas that validate, at /api/v1/openapi.json, and as a page at /docs. It is put together when somebody
 * asks for it first, route by route, with turns for others between them.
 */
export async function describeApi(app: FastifyInstance): Promise<void> {
  const routes: Pick<RouteOptions, 'schema' | 'url'>[] = [];
  app.addHook('onRoute', ({ schema, url }) => {
    if (schema) routes.push({ schema, url });
  });
  const toldBefore = new Map<object, Told>();
  const tellAll = async () => {
    for (const { schema, url } of routes) {
      toldBefore.set(schema!, jsonSchemaTransform({ schema, url, openapiObject: { openapi: VERSION } } as never).schema);
      await nextTurn();
    }
    app.swagger();
    toldBefore.clear();
    await nextTurn();
  };
  let allTold: Promise<void> | undefined;
  const ready = () => (allTold ??= tellAll());
  await app.register(swagger, {
    openapi: {
      openapi: VERSION,
      info: {
        title: 'Hearthbook',
        version: '0.1.0',
        description: ABOUT,
      },
      servers: [{ url: '/' }],
      components: {
        securitySchemes: {
          token: { type: 'http', scheme: 'bearer' },
          session: { type: 'apiKey', in: 'cookie', name: SESSION_COOKIE },
        },
      },
      security: [{ token: [] }, { session: [] }],
    },
    // A route at the root of its folder is described as people call it, without the slash at its end.
    transform: (route) => ({
      schema: toldBefore.get(route.schema) ?? jsonSchemaTransform(route).schema,
      url: route.url.replace(/\/$/, ''),
    }),
    transformObject: jsonSchemaTransformObject,
  });
  await app.register(swaggerUi, {
    routePrefix: '/docs',
    staticCSP: true,
    uiHooks: {
      preHandler: ({ url }, _reply, done) => {
        if (/\/(json|yaml)$/.test(url)) ready().then(() => done(), done);
        else done();
      },
    },
    // Nothing is asked of anybody else's server, and nothing is to be upgraded to TLS.
    transformStaticCSP: (csp) => csp.replace(' validator.swagger.io', '').replace('upgrade-insecure-requests;', ''),
    uiConfig: { docExpansion: 'none', validatorUrl: null },
    transformSpecification: (document) => completed(document as unknown as OpenAPIV3_1.Document),
    theme: {
      title: 'Hearthbook: the API',
      css: [{ filename: 'hearthbook.css', content: '.swagger-ui .topbar { display: none }' }],
    },
  });
  let described: OpenAPIV3_1.Document | undefined;
  app.get('/api/v1/openapi.json', { schema: { hide: true } }, async () => {
    await ready();
    described ??= completed(app.swagger() as OpenAPIV3_1.Document);
    return described;
  });
}
