import { crc32, deflateSync } from 'node:zlib';
import exifr from 'exifr';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { bookOf } from '../support/a-small-studio.ts';
import { aDrawer, aDrawnPiece, planInUse } from '../support/at-the-bench.ts';
import { aPhoneJpeg, aPicture, fileOf, sendPhoto } from '../support/pictures.ts';
import { startApp } from '../support/start-app.ts';

const GPS = { latitude: 53.546_139, longitude: 9.986_667 };

async function aPiece() {
  const app = await startApp();
  const piece = await aDrawnPiece(app);
  return { ...app, piece };
}

test('a photo comes back upright and with nothing in it but what can be seen', async () => {
  const { bench, piece } = await aPiece();
  const sent = await aPhoneJpeg();
  const before = await exifr.parse(sent, true);
  expect(before).toMatchObject({ Make: 'Quillwharf', Model: 'Telephone', latitude: expect.closeTo(GPS.latitude, 4) });
  const { body, headers } = await sendPhoto(bench, sent, { pieceId: piece.id, caption: 'Bezel, seam up', part: 'wall' }).expect(
    201,
  );
  expect(headers['etag']).toBe('"1"');
  expect(body).toMatchObject({
    pieceId: piece.id,
    commissionId: piece.commissionId,
    heatId: null,
    part: 'wall',
    caption: 'Bezel, seam up',
    takenAt: '2031-05-05T08:00:00.000Z',
    showsPerson: false,
    clientMaySee: false,
    // It lay on its side: 640 × 360, turned by a quarter.
    widthPx: 360,
    heightPx: 640,
    file: `/api/v1/photos/${body.id}/file`,
  });
  for (const size of ['full', 'thumbnail']) {
    const kept = await fileOf(bench, body.id, size);
    expect(await exifr.parse(kept, true)).toBeUndefined();
    expect(await exifr.gps(kept)).toBeUndefined();
    const { format, exif, xmp, icc, iptc, comments, orientation } = await sharp(kept).metadata();
    expect({ format, exif, xmp, icc, iptc, comments, orientation }).toEqual({ format: 'jpeg' });
    for (const word of ['Quillwharf', 'Basalt', 'at home', 'Exif', 'xmpmeta']) expect(kept.includes(word)).toBe(false);
  }
  // What was left is on top once it was turned clockwise.
  const meanOf = async (top: number) => {
    const half = sharp(await fileOf(bench, body.id)).extract({ left: 0, top, width: 360, height: 300 });
    return (await sharp(await half.png().toBuffer()).stats()).channels[0]!.mean;
  };
  expect(await meanOf(0)).toBeLessThan(80);
  expect(await meanOf(340)).toBeGreaterThan(170);
  const small = await sharp(await fileOf(bench, body.id, 'thumbnail')).metadata();
  expect([small.width, small.height]).toEqual([225, 400]);
});

test('PNG and WebP are taken too, whatever they are called, and large ones are made smaller', async () => {
  const { bench, piece } = await aPiece();
  const png = await aPicture({ widthPx: 3000, heightPx: 1500 }).png().toBuffer();
  const webp = await aPicture().webp({ quality: 95 }).toBuffer();
  for (const [file, widthPx] of [
    [png, 2560],
    [webp, 640],
  ] as const) {
    const { body } = await sendPhoto(bench, file, { pieceId: piece.id }, { name: 'x.txt', type: 'text/plain' }).expect(201);
    expect(body.widthPx).toBe(widthPx);
    expect((await sharp(await fileOf(bench, body.id)).metadata()).format).toBe('jpeg');
  }
});

test('a picture is sent as a picture, privately, and not again to whoever has it', async () => {
  const { bench, stranger, piece } = await aPiece();
  const { body } = await sendPhoto(bench, await aPhoneJpeg(), { pieceId: piece.id }).expect(201);
  const path = `/photos/${body.id}/file`;
  const { headers } = await bench.get(path).expect(200);
  expect(headers).toMatchObject({
    'content-type': 'image/jpeg',
    'x-content-type-options': 'nosniff',
    'cache-control': 'private, no-cache',
    'content-security-policy': "default-src 'none'; sandbox",
    etag: expect.stringMatching(/^"[0-9a-f]{64}-full"$/),
  });
  const again = await bench.get(path).set('if-none-match', headers['etag']!).expect(304);
  expect(again.headers['etag']).toBe(headers['etag']);
  const thumbnail = await bench.get(`${path}?size=thumbnail`).set('if-none-match', headers['etag']!).expect(200);
  expect(thumbnail.headers['etag']).not.toBe(headers['etag']);
  await stranger.get(path).expect(401);
});

function chunk(name: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  check.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, check]);
}

/** A PNG that says it is larger than it is, or really holds so many pixels of nothing. */
function pngOf(widthPx: number, heightPx: number, rows: number): Buffer {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(widthPx, 0);
  head.writeUInt32BE(heightPx, 4);
  head.set([8, 0, 0, 0, 0], 8);
  const data = deflateSync(Buffer.alloc(rows * (widthPx + 1)));
  const mark = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([mark, chunk('IHDR', head), chunk('IDAT', data), chunk('IEND', Buffer.alloc(0))]);
}

test('what is no sound picture is refused in words, and nothing of it is kept', async () => {
  const app = await aPiece();
  const { bench, piece } = app;
  const book = bookOf(app);
  const before = book();
  const jpeg = await aPhoneJpeg();
  const padding = Buffer.alloc(20_000, ' ');
  const html = Buffer.concat([Buffer.from('<html><script>alert(1)</script></html>'), padding]);
  const svg = Buffer.concat([Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'), padding]);
  const tiff = await aPicture().tiff().toBuffer();
  const gif = await aPicture().gif().toBuffer();
  const avif = Buffer.concat([Buffer.from([0, 0, 0, 28]), Buffer.from('ftypheic'), padding]);
  const cases: [string, Buffer, RegExp][] = [
    ['HTML', html, /This file is not a picture\. Send a JPEG, PNG or WebP\./],
    ['HTML that begins like a JPEG', Buffer.concat([jpeg.subarray(0, 4), html]), /begins like a JPEG picture but cannot be read/],
    ['SVG', svg, /This is an SVG drawing\. Send a JPEG, PNG or WebP\./],
    ['TIFF', tiff, /not a picture/],
    ['GIF', gif, /not a picture/],
    ['HEIC', avif, /HEIF \(HEIC, AVIF\) picture\. Send a JPEG/],
    ['a JPEG cut off', jpeg.subarray(0, Math.floor(jpeg.length / 2)), /cut off or damaged/],
    ['a PNG cut off', (await aPicture().png().toBuffer()).subarray(0, 60_000), /begins like a PNG picture.*cut off or damaged/],
    [
      'a WebP cut off',
      (await aPicture().webp().toBuffer()).subarray(0, 30_000),
      /begins like a WebP picture.*cut off or damaged/,
    ],
    ['more pixels than any camera has', Buffer.concat([pngOf(60_000, 60_000, 1), padding]), /pixels/],
    ['a bomb', pngOf(20_000, 20_000, 20_000), /pixels/],
    ['too small a file', jpeg.subarray(0, 9_999), /must be between 10000 and 40000000 bytes/],
  ];
  for (const [what, file, words] of cases) {
    const { body } = await sendPhoto(bench, file, { pieceId: piece.id }).expect(422);
    expect([what, body.type, body.errors[0].pointer, body.errors[0].detail]).toEqual([
      what,
      '/api/v1/problems/invalid-fields',
      '/file',
      expect.stringMatching(words),
    ]);
  }
  const huge = await sendPhoto(bench, Buffer.concat([jpeg, Buffer.alloc(40_000_000)]), { pieceId: piece.id }).expect(413);
  expect(huge.body.type).toBe('/api/v1/problems/too-large');
  expect(book()).toBe(before);
});

test('of a sound picture with something hidden behind it, only the picture is kept', async () => {
  const { bench, piece } = await aPiece();
  const hidden = Buffer.from('<script>alert(document.cookie)</script>PK\u0003\u0004');
  const { body } = await sendPhoto(bench, Buffer.concat([await aPhoneJpeg(), hidden]), { pieceId: piece.id }).expect(201);
  const kept = await fileOf(bench, body.id);
  expect(kept.includes('script')).toBe(false);
  expect(kept.subarray(-2)).toEqual(Buffer.from([0xff, 0xd9]));
});

test('all that is wrong with a form is told at once, and a broken one in words', async () => {
  const { bench, piece } = await aPiece();
  const file = await aPhoneJpeg();
  const other = '01964e00-0000-7000-8000-000000000000';
  const wrong = {
    pieceId: piece.id,
    heatId: other,
    incidentId: other,
    part: 'handle',
    commissionId: other,
    takenAt: '2031-06-01T00:00:00Z',
  };
  const { body } = await sendPhoto(bench, file, wrong).expect(422);
  expect(body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
    '/takenAt',
    '/heatId',
    '/incidentId',
    '/part',
    '/commissionId',
  ]);
  const odd = await bench.post('/photos').field('showsPerson', 'maybe').field('tone', 'warm').expect(422);
  expect(odd.body.errors.map(({ pointer }: { pointer: string }) => pointer).sort()).toEqual(['/file', '/showsPerson', '/tone']);
  const nowhere = await sendPhoto(bench, file, {}).expect(422);
  expect(nowhere.body.errors).toEqual([{ pointer: '/pieceId', detail: expect.stringContaining('which piece it is of') }]);
  const small = await bench
    .post('/photos')
    .field('showsPerson', 'false')
    .field('pieceId', piece.id)
    .attach('file', file.subarray(0, 20_000), 'x.jpg');
  expect([small.status, small.body.errors[0]]).toMatchObject([422, { pointer: '/file', confirmable: true }]);
  await bench.post('/photos', { pieceId: piece.id }).expect(415);
  const post = (type: string, text: string) => bench.post('/photos').set('content-type', type).send(text);
  for (const [type, text] of [
    ['multipart/form-data', 'x'],
    ['multipart/form-data; boundary=x', ''],
    ['multipart/form-data; boundary=x', '--x\r\ncontent-disposition: form-data; name="file"; filename="a"\r\n\r\nabc'],
    ['multipart/form-data; boundary=x', '--x\r\ncontent-disposition: form-data; name="__proto__"\r\n\r\nabc\r\n--x--\r\n'],
    [
      'multipart/form-data; boundary=x',
      '--x\r\ncontent-disposition: form-data; name="caption"\r\n\r\na\r\n'.repeat(2) + '--x--\r\n',
    ],
  ] as const) {
    const answer = await post(type, text);
    expect([type, text, answer.status, answer.body.type]).toEqual([type, text, 422, '/api/v1/problems/invalid-fields']);
  }
  const many = '--x\r\ncontent-disposition: form-data; name="caption"\r\n\r\na\r\n'.repeat(40);
  expect((await post('multipart/form-data; boundary=x', `${many}--x--\r\n`)).status).toBe(413);
});

test('the same form sent again under its key adds nothing, and another under it is refused', async () => {
  const { bench, piece } = await aPiece();
  const file = await aPhoneJpeg();
  const key = 'photo-0001';
  const [first, second] = await Promise.all([1, 2].map(() => sendPhoto(bench, file, { pieceId: piece.id }, { key })));
  expect([first!.status, second!.status, first!.body]).toEqual([201, 201, second!.body]);
  const third = await sendPhoto(bench, file, { pieceId: piece.id }, { key }).expect(201);
  expect(third.body).toEqual(first!.body);
  expect(third.headers['etag']).toBe('"1"');
  const other = await aPicture({ widthPx: 700 }).jpeg().toBuffer();
  const reused = await sendPhoto(bench, other, { pieceId: piece.id }, { key }).expect(422);
  expect(reused.body.type).toBe('/api/v1/problems/idempotency-key-reused');
  expect((await bench.get('/photos').expect(200)).body.items).toHaveLength(1);
});

test('photos stand with their piece, heat and incident, and can be taken out again', async () => {
  const app = await aPiece();
  const { bench, owner, desk, piece } = app;
  await aDrawer(app);
  const { heats } = await planInUse(bench, piece.id);
  const heatId = heats[0]!.id;
  const incident = (await bench.post('/incidents', { pieceId: piece.id, heatId, kind: 'pit' }).expect(201)).body;
  const file = await aPhoneJpeg();
  const ids: string[] = [];
  for (const of of [{}, { heatId }, { incidentId: incident.id as string, heatId }])
    ids.push((await sendPhoto(bench, file, { pieceId: piece.id, ...of }).expect(201)).body.id as string);
  const [plain, ofHeat, ofIncident] = ids as [string, string, string];
  const listed = async (path: string) => {
    const { body } = await bench.get(path).expect(200);
    return ((body.items ?? body.photos) as { id: string }[]).map(({ id }) => id);
  };
  expect(await listed(`/pieces/${piece.id}`)).toEqual([ofIncident, ofHeat, plain]);
  expect(await listed(`/heats/${heatId}`)).toEqual([ofIncident, ofHeat]);
  expect(await listed(`/incidents/${incident.id}`)).toEqual([ofIncident]);
  expect(await listed(`/photos?pieceId=${piece.id}`)).toEqual([ofIncident, ofHeat, plain]);
  expect(await listed(`/photos?heatId=${heatId}&limit=1`)).toEqual([ofIncident]);
  expect(await listed(`/photos?incidentId=${incident.id}`)).toEqual([ofIncident]);
  expect(await listed(`/photos?commissionId=${piece.commissionId}`)).toEqual([ofIncident, ofHeat, plain]);
  await desk.delete(`/photos/${plain}`).expect(403);
  await bench.delete(`/photos/${plain}`).expect(204);
  await owner.delete(`/photos/${ofHeat}`).expect(204);
  await bench.get(`/photos/${plain}`).expect(404);
  await bench.get(`/photos/${plain}/file`).expect(404);
  expect(await listed(`/pieces/${piece.id}`)).toEqual([ofIncident]);
  const { body: lines } = await owner.get(`/journal?thingId=${plain}`).expect(200);
  expect(lines.items.map(({ what, before, after }: Record<string, unknown>) => [what, before !== null, after !== null])).toEqual([
    ['photo', true, false],
    ['photo', false, true],
  ]);
});

test('a client may see what the desk ticks, of an incident what the owner ticks, and nobody who was not asked', async () => {
  const app = await aPiece();
  const { bench, owner, desk, piece } = app;
  const file = await aPhoneJpeg();
  const incident = (await bench.post('/incidents', { pieceId: piece.id, kind: 'pit' }).expect(201)).body;
  const add = async (fields: Record<string, string>) =>
    (await sendPhoto(bench, file, { pieceId: piece.id, ...fields }).expect(201)).body.id as string;
  const [plain, ofIncident, withPerson] = [
    await add({}),
    await add({ incidentId: incident.id }),
    await add({ showsPerson: 'true' }),
  ];
  const tick = { clientMaySee: true };
  await bench.patch(`/photos/${plain}`, tick, 1).expect(403);
  expect((await desk.patch(`/photos/${plain}`, tick, 1).expect(200)).body).toMatchObject({ clientMaySee: true, version: 2 });
  await desk.patch(`/photos/${ofIncident}`, tick, 1).expect(403);
  await owner.patch(`/photos/${ofIncident}`, tick, 1).expect(200);
  const refused = await owner.patch(`/photos/${withPerson}`, tick, 1).expect(422);
  expect(refused.body.errors).toEqual([{ pointer: '/clientMaySee', detail: 'People in the picture: keep it private.' }]);
  await bench.patch(`/photos/${plain}`, { showsPerson: true }, 2).expect(422);
  await bench.patch(`/photos/${plain}`, { showsPerson: true, clientMaySee: false, caption: 'With Pebble' }, 2).expect(200);
});

test('a student adds to and sees practice pieces only', async () => {
  const { student, bench, desk, piece } = await aPiece();
  const { id: commissionId } = (await desk.post('/commissions', { title: 'Practice', kind: 'teaching_piece' }).expect(201)).body;
  const file = await aPhoneJpeg();
  const theirs = (await sendPhoto(bench, file, { pieceId: piece.id }).expect(201)).body.id as string;
  const own = (await sendPhoto(student, file, { commissionId }).expect(201)).body.id as string;
  for (const fields of [{ pieceId: piece.id }, { commissionId: piece.commissionId }])
    await sendPhoto(student, file, fields).expect(422);
  for (const path of [`/photos/${theirs}`, `/photos/${theirs}/file`]) await student.get(path).expect(404);
  await student.delete(`/photos/${theirs}`).expect(404);
  expect((await student.get('/photos').expect(200)).body.items.map(({ id }: { id: string }) => id)).toEqual([own]);
  expect(await fileOf(student, own)).toBeInstanceOf(Buffer);
});
