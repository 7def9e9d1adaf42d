/** Writes the types of the page's client from the server's own description; kept out of the repository, made anew by `npm run types`. */

import { writeFileSync } from 'node:fs';
import openapiTS, { astToString, type OpenAPI3 } from 'openapi-typescript';
import { buildApp } from '../../src/app.ts';
import { systemClock } from '../../src/platform/clock.ts';
import { openDb } from '../../src/platform/db/client.ts';

const { db, close } = openDb(':memory:', systemClock.now());
const { http } = await buildApp({ db, clock: systemClock });
const { body } = await http.inject('/api/v1/openapi.json');
const types = await openapiTS(JSON.parse(body) as OpenAPI3, { defaultNonNullable: false });
writeFileSync(new URL('../../src/web/api/api-schema.d.ts', import.meta.url), astToString(types));
await http.close();
close();
