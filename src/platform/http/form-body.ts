import { createHash } from 'node:crypto';
import type { FastifyRequest } from 'fastify';
import { invalidFields, Problem, type FieldError } from './problem.ts';

/** A file that was sent in a form. What the sender calls it and says of its kind is not gone by. */
export class SentFile {
  // Private, so that whatever walks through a body does not walk through every byte.
  readonly #bytes: Buffer;

  constructor(bytes: Buffer) {
    this.#bytes = bytes;
  }

  get bytes(): Buffer {
    return this.#bytes;
  }

  /** Stands for the bytes where two requests are compared. */
  toJSON(): string {
    return createHash('sha256').update(this.#bytes).digest('hex');
  }
}

/**
 * The fields of a multipart form (RFC 7578) by their names, text as text and a file as a SentFile; for routes of a scope in which
 * @fastify/multipart is registered, with its limits.
 *
 * @throws {Problem} 415 for another kind of body, 413 for more than the limits, 422 for a form that breaks off or names a field twice
 */
export async function readForm(request: FastifyRequest): Promise<Record<string, string | SentFile>> {
  if (!request.isMultipart())
    throw new Problem(
      'wrong-media-type',
      'Send a form: the content type multipart/form-data, with the file as one of its fields',
    );
  const fields: Record<string, string | SentFile> = {};
  const errors: FieldError[] = [];
  try {
    for await (const part of request.parts()) {
      const { fieldname } = part;
      if (part.type === 'field' && (part.fieldnameTruncated || part.valueTruncated))
        errors.push({ pointer: `/${fieldname}`, detail: 'It is too long.' });
      // Read in any case: what follows comes only once it was.
      const value = part.type === 'file' ? new SentFile(await part.toBuffer()) : part.value;
      if (Object.hasOwn(fields, fieldname)) errors.push({ pointer: `/${fieldname}`, detail: 'This field was sent twice.' });
      fields[fieldname] = value instanceof SentFile ? value : String(value);
    }
  } catch (error) {
    // What comes of the form yet would stand before the next request on this connection.
    request.raw.unpipe().resume();
    if (error instanceof Error && 'statusCode' in error && error.statusCode === 413) throw error;
    // Busboy tells of a broken form in plain errors, the plugin in some with a status of its own.
    throw invalidFields([
      { pointer: '', detail: 'The form cannot be read: it breaks off, or is not written as RFC 7578 has it. Send it again.' },
    ]);
  }
  if (errors.length > 0) throw invalidFields(errors);
  return fields;
}
