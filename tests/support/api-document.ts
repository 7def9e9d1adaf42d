import type { Person } from './start-app.ts';

/** As much of JSON Schema as the server's OpenAPI document uses. */
export interface Schema {
  $ref?: string;
  type?: string | string[];
  enum?: unknown[];
  const?: unknown;
  anyOf?: Schema[];
  oneOf?: Schema[];
  properties?: Record<string, Schema>;
  required?: string[];
  additionalProperties?: boolean | Schema;
  items?: boolean | Schema;
  prefixItems?: Schema[];
  minItems?: number;
  maxItems?: number;
  format?: string;
  pattern?: string;
  minLength?: number;
  maxLength?: number;
  minimum?: number;
  maximum?: number;
  exclusiveMinimum?: number;
}

interface Parameter {
  in: string;
  name: string;
  required?: boolean;
  schema: Schema;
}

interface Described {
  parameters?: Parameter[];
  requestBody?: { content: Record<string, { schema: Schema }> };
  responses: Record<string, { content?: Record<string, unknown> }>;
}

export interface ApiDocument {
  paths: Record<string, Record<string, Described>>;
  components: { schemas: Record<string, Schema> };
}

/** One route, as the document has it. */
export interface Operation {
  /** As in the access table: "PATCH /clients/:id". */
  route: string;
  method: string;
  /** Its path below /api/v1, with {names}. */
  path: string;
  parameters: Parameter[];
  body?: Schema;
  /** Where it takes a form with a file in place of JSON. */
  form?: Schema;
  /** It takes a table of text in place of JSON. */
  table?: true;
  responses: Described['responses'];
}

export async function apiDocument(person: Person): Promise<ApiDocument> {
  return (await person.get('/openapi.json').expect(200)).body;
}

export function operationsOf({ paths }: ApiDocument): Operation[] {
  return Object.entries(paths).flatMap(([fullPath, methods]) =>
    Object.entries(methods).map(([name, { parameters = [], requestBody, responses }]) => {
      const [path, method] = [fullPath.replace('/api/v1', '').replace(/\/$/, ''), name.toUpperCase()];
      const body = requestBody?.content['application/json']?.schema;
      const form = requestBody?.content['multipart/form-data']?.schema;
      return {
        route: `${method} ${path.replaceAll(/\{(\w+)\}/g, ':$1')}`,
        method,
        path,
        parameters,
        responses,
        ...(body === undefined ? {} : { body }),
        ...(form === undefined ? {} : { form }),
        ...(requestBody?.content['text/csv'] ? { table: true as const } : {}),
      };
    }),
  );
}

/** What the document says of a status: by itself or by its class. */
export function declared({ responses }: Operation, status: number): { content?: Record<string, unknown> } | undefined {
  return responses[String(status)] ?? responses[`${Math.floor(status / 100)}XX`];
}

export function resolved(ref: string, { components }: ApiDocument): Schema {
  const schema = components.schemas[ref.split('/').at(-1)!];
  if (!schema) throw new Error(`The document points to ${ref}, which it does not hold`);
  return schema;
}
