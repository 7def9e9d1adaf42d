/** Pictures that wait on this device: their bytes are too many for the storage that the rest is kept in. */

import { placeHere } from './book.ts';

/** What a picture shows. */
export interface PictureOf {
  commissionId?: string;
  pieceId?: string;
  heatId?: string;
  incidentId?: string;
}

export interface KeptPicture {
  key: string;
  personId: string;
  file: Blob;
  of: PictureOf;
  showsPerson: boolean;
  takenAt: string;
  /** Of what went wrong, noted by this step at this time: the book gives it its id when it has taken the step. */
  incident?: { stepKey: string; seenAt: string };
}

const STORE = 'pictures';

function open(): Promise<IDBDatabase> {
  const asked = indexedDB.open(placeHere('hearthbook'), 1);
  asked.addEventListener('upgradeneeded', () => asked.result.createObjectStore(STORE, { keyPath: 'key' }));
  return answered(asked);
}

async function inStore<T>(mode: IDBTransactionMode, ask: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  const db = await open();
  try {
    return await answered(ask(db.transaction(STORE, mode).objectStore(STORE)));
  } finally {
    db.close();
  }
}

function answered<T>(asked: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    asked.addEventListener('success', () => resolve(asked.result));
    asked.addEventListener('error', () => reject(asked.error ?? new Error('the storage of the device refused')));
  });
}

/** In the order in which they were taken. */
export async function keptPictures(personId: string): Promise<KeptPicture[]> {
  const all = await inStore('readonly', (store) => store.getAll() as IDBRequest<KeptPicture[]>);
  return all.filter((one) => one.personId === personId).toSorted((a, b) => a.takenAt.localeCompare(b.takenAt));
}

export async function keepPicture(picture: KeptPicture): Promise<void> {
  await inStore('readwrite', (store) => store.put(picture));
}

export async function forgetPicture(key: string): Promise<void> {
  await inStore('readwrite', (store) => store.delete(key));
}
