import swagger from '@fastify/swagger';
import swaggerUi from '@fastify/swagger-ui';
import type { FastifyInstance } from 'fastify';
import type { OpenAPIV3_1 } from 'openapi-types';
import { jsonSchemaTransform, jsonSchemaTransformObject } from 'fastify-type-provider-zod';
import { completed } from './api-document.ts';

/** OpenAPI 3.1 from the very schemas that validate, at /api/v1/openapi.json, and as a page at /docs. */
export async function describeApi(app: FastifyInstance): Promise<void> {
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'Hearthbook',
        version: '0.1.0',
        description:
          'The job book of a small silversmithing studio. Sign in with POST /api/v1/sessions, or send a bearer token. Numbers carry their unit in their name; money is integer minor units. Predictions are arithmetic from figures you or your supplier gave: try them on scrap; they do not replace safety data sheets, training or the law.',
      },
      servers: [{ url: '/' }],
      components: {
        securitySchemes: {
          token: { type: 'http', scheme: 'bearer' },
          session: { type: 'apiKey', in: 'cookie', name: 'hearthbook_session' },
        },
      },
      security: [{ token: [] }, { session: [] }],
    },
    // A route at the root of its folder is described as people call it, without the slash at its end.
    transform: (route) => jsonSchemaTransform({ ...route, url: route.url.replace(/\/$/, '') }),
    transformObject: jsonSchemaTransformObject,
  });
  await app.register(swaggerUi, {
    routePrefix: '/docs',
    staticCSP: true,
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
    described ??= completed(app.swagger() as OpenAPIV3_1.Document);
    return described;
  });
}
