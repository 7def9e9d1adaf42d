import { api, bodyOf } from '../api/client.ts';
import { idempotencyKey } from '../api/device.ts';
import { ApiProblem, Unreachable } from '../api/problem.ts';
import { sendPhoto } from '../api/send-photo.ts';
import { forgetPicture, keepPicture, keptPictures, type KeptPicture, type PictureOf } from './kept-pictures.ts';
import { keptNotes } from './step-queue.ts';

/** Why a picture has not gone out. */
type Standing = 'sending' | 'unreachable' | 'waits_for_step' | 'step_refused' | ApiProblem;

export interface WaitingPicture extends KeptPicture {
  standing: Standing;
  /** What of it has gone out, 0 to 1. */
  sent: number;
  /** The picture itself, as the browser shows it. */
  url: string;
}

export type PictureQueue = ReturnType<typeof createPictureQueue>;

/** So often what waits is tried again. */
const ROUND_MS = 10_000;

const queues = new Map<string, PictureQueue>();
let shownTo: string | undefined;

/** The pictures of whoever is signed in; those of others wait until they are. */
export function pictureQueueOf(personId: string): PictureQueue {
  shownTo = personId;
  const known = queues.get(personId);
  if (known) return known;
  const made = createPictureQueue(personId);
  queues.set(personId, made);
  return made;
}

/**
 * The pictures of one person on this device: each is kept in its storage before it is sent, and goes out by itself, one after the other,
 * under a key by which the book takes it once.
 */
function createPictureQueue(personId: string) {
  const heard = new Set<() => void>();
  const endings = new Map<string, AbortController>();
  let pictures: readonly WaitingPicture[] = [];
  let running = false;
  const become = (next: readonly WaitingPicture[]) => {
    pictures = next;
    heard.forEach((listener) => listener());
  };
  const change = (key: string, to: Partial<WaitingPicture>) =>
    become(pictures.map((one) => (one.key === key ? { ...one, ...to } : one)));
  const drop = async (key: string) => {
    const gone = pictures.find((one) => one.key === key);
    if (gone) URL.revokeObjectURL(gone.url);
    become(pictures.filter((one) => one.key !== key));
    await forgetPicture(key);
  };
  async function sendOne(key: string, confirming: Readonly<Record<string, string>>): Promise<void> {
    const picture = pictures.find((one) => one.key === key);
    if (!picture) return;
    const ending = new AbortController();
    endings.set(key, ending);
    change(key, { standing: 'sending', sent: 0 });
    try {
      const of = await whatItShows(picture);
      if (typeof of === 'string') return change(key, { standing: of });
      const onSent = (sent: number) => change(key, { sent });
      await sendPhoto(formOf(picture, of), { key, confirming, onSent, signal: ending.signal });
      await drop(key);
    } catch (error) {
      if (error instanceof DOMException && error.name === 'AbortError') return;
      if (error instanceof ApiProblem && error.body.status < 500) change(key, { standing: error });
      else if (error instanceof ApiProblem || error instanceof Unreachable) change(key, { standing: 'unreachable' });
      else throw error;
    } finally {
      endings.delete(key);
    }
  }

  async function send(): Promise<void> {
    if (running || shownTo !== personId) return;
    running = true;
    try {
      const later = pictures.filter(({ standing }) => !(standing instanceof ApiProblem) || standing.body.status === 401);
      for (const { key } of later) await sendOne(key, {});
    } finally {
      running = false;
    }
    // What was taken while others were on their way.
    if (pictures.some(({ standing, key }) => standing === 'sending' && !endings.has(key))) await send();
  }

  void keptPictures(personId).then((kept) => {
    const known = new Set(pictures.map(({ key }) => key));
    become([...kept.filter(({ key }) => !known.has(key)).map(shown), ...pictures]);
    return send();
  });
  setInterval(() => {
    if (document.visibilityState === 'visible' && pictures.length > 0) void send();
  }, ROUND_MS);
  for (const event of ['online', 'focus']) window.addEventListener(event, () => void send());

  return {
    pictures: () => pictures,
    /** Tells of every change, until the function that comes back is called. */
    listen(listener: () => void): () => void {
      heard.add(listener);
      return () => void heard.delete(listener);
    },
    /** Keeps a picture, and sends it when there is a way. @throws when the device has no room for it */
    async add(picture: Omit<KeptPicture, 'key' | 'personId' | 'takenAt'>): Promise<void> {
      const kept = { ...picture, key: idempotencyKey(), personId, takenAt: new Date().toISOString() };
      await keepPicture(kept);
      become([...pictures, shown(kept)]);
      void send();
    },
    send,
    /** Sends one again with a reason for what is unusual of it. */
    confirm: (key: string, reason: string) => sendOne(key, { confirm: '/file', 'confirm-reason': reason }),
    /** Of what went wrong and was not taken: the picture stays with the heat. */
    async withHeat(key: string): Promise<void> {
      const found = pictures.find((one) => one.key === key);
      if (!found) return;
      const { incident: _incident, standing: _standing, sent: _sent, url: _url, ...kept } = found;
      await keepPicture(kept);
      become(pictures.map((one) => (one.key === key ? { ...kept, standing: 'sending', sent: 0, url: one.url } : one)));
      await send();
    },
    /** Not sent after all: what has gone out of it breaks off. */
    async cancel(key: string): Promise<void> {
      endings.get(key)?.abort();
      await drop(key);
    },
  };
}

const shown = (kept: KeptPicture): WaitingPicture => ({
  ...kept,
  standing: 'sending',
  sent: 0,
  url: URL.createObjectURL(kept.file),
});

/** With the id that the book gave to what went wrong; why not, while it has none. */
async function whatItShows({ of, incident, personId }: KeptPicture): Promise<PictureOf | 'waits_for_step' | 'step_refused'> {
  if (!incident) return of;
  const note = keptNotes(personId).find(({ step }) => step.key === incident.stepKey);
  if (note?.answeredAtMs === null) return 'waits_for_step';
  if (note?.problem) return 'step_refused';
  const query = { pieceId: of.pieceId!, limit: 50 };
  const { items } = await bodyOf(api.GET('/api/v1/incidents', { params: { query } }));
  const ofHeat = items.filter(({ heatId, seenBy }) => heatId === of.heatId && seenBy === personId);
  // The clock of the device may have been set right meanwhile: then it is the newest.
  const found = ofHeat.find(({ seenAt }) => Date.parse(seenAt) === Date.parse(incident.seenAt)) ?? ofHeat[0];
  return found ? { ...of, incidentId: found.id } : 'step_refused';
}

function formOf({ file, showsPerson, takenAt }: KeptPicture, of: PictureOf): FormData {
  const form = new FormData();
  for (const [name, value] of Object.entries({ ...of, takenAt, showsPerson: String(showsPerson) })) form.append(name, value);
  form.append('file', file, 'picture');
  return form;
}
