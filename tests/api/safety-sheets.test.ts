import { expect, test } from 'vitest';
import { startApp } from '../support/start-app.ts';
import { addProduct } from '../support/stock.ts';
import { aPhoneJpeg } from '../support/pictures.ts';

const PDF = Buffer.from('%PDF-1.4\n1 0 obj<<>>endobj\ntrailer<<>>\n%%EOF\n');

test('the safety sheet of a solder is kept as a file, by what it is and not by what it is called, and read by all', async () => {
  const { owner, bench, desk, student } = await startApp();
  const { id } = await addProduct(owner);
  const path = `/solder-products/${id}/safety-sheet`;
  expect((await bench.get(path).expect(404)).body.detail).toContain('it is noted as: sheet 12 in the red folder');
  const send = (bytes: Buffer, person = desk) => person.post(path).attach('file', bytes, { filename: 'sheet.pdf' });
  await send(PDF, student).expect(403);
  const kept = (await send(PDF).expect(201)).body;
  expect(kept).toMatchObject({ productId: id, mediaType: 'application/pdf', sizeBytes: PDF.length });
  const read = await student.get(path).expect(200).expect('content-type', 'application/pdf').buffer(true);
  expect(Buffer.from(read.body as Buffer).equals(PDF)).toBe(true);
  expect((await send(Buffer.from('<script>alert(1)</script>')).expect(422)).body.errors[0].pointer).toBe('/file');
  await desk.post(path, { file: 'none' }).expect(415);
  await send(await aPhoneJpeg()).expect(201);
  await bench.get(path).expect(200).expect('content-type', 'image/jpeg');
  expect((await owner.get('/journal?what=safety-sheet').expect(200)).body.items).toHaveLength(2);
});
