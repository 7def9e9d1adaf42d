const KEY = 'device-id';
const SEQ = 'device-seq';

/** What this device calls itself in the journal; made once and kept. */
export function deviceId(): string {
  const known = localStorage.getItem(KEY);
  if (known) return known;
  const made = `page-${randomId().slice(0, 12)}`;
  localStorage.setItem(KEY, made);
  return made;
}

/** What every move carries: when it was done, on which device, and as which of its steps. */
export function doneHere(): { occurredAt: string; deviceId: string; deviceSeq: number } {
  const deviceSeq = Number(localStorage.getItem(SEQ) ?? 0) + 1;
  localStorage.setItem(SEQ, String(deviceSeq));
  return { occurredAt: new Date().toISOString(), deviceId: deviceId(), deviceSeq };
}

/** A key under which the server does a thing once, however often it is sent. */
export function idempotencyKey(): string {
  return randomId();
}

// crypto.randomUUID is only there over https or on the machine itself.
function randomId(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, '0')).join('');
}
