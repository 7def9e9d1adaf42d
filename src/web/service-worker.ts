/// <reference lib="webworker" />
/** Keeps the page's own files, so that it opens with the network gone. What the book holds is never kept here. */

const worker = self as unknown as ServiceWorkerGlobalScope;
const SHELL = '/';

async function keepFiles(): Promise<void> {
  const list = await fetch('/files.json', { cache: 'no-store' });
  const files = (await list.json()) as string[];
  const cache = await caches.open('files');
  const kept = new Set((await cache.keys()).map(({ url }) => new URL(url).pathname));
  await cache.addAll([SHELL, '/manifest.webmanifest', '/icon.svg', ...files.filter((file) => !kept.has(file))]);
  const now = new Set([SHELL, '/manifest.webmanifest', '/icon.svg', ...files]);
  for (const path of kept) if (!now.has(path)) await cache.delete(path);
}

worker.addEventListener('install', (event) => {
  event.waitUntil(keepFiles().then(() => worker.skipWaiting()));
});

worker.addEventListener('activate', (event) => {
  event.waitUntil(worker.clients.claim());
});

worker.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== worker.location.origin) return;
  if (request.mode === 'navigate' && !/^\/(api|docs|link)\b/.test(url.pathname)) event.respondWith(shellOf(request));
  else if (url.pathname.startsWith('/assets/') || url.pathname === '/icon.svg') event.respondWith(keptOr(request));
});

/** The newest page while the network is there; the kept one when it is gone. */
async function shellOf(request: Request): Promise<Response> {
  try {
    const answer = await fetch(request);
    if (answer.ok) {
      const cache = await caches.open('files');
      await cache.put(SHELL, answer.clone());
      // A new page may be made of new files.
      void keepFiles().catch(() => undefined);
    }
    return answer;
  } catch {
    return (await caches.match(SHELL)) ?? Response.error();
  }
}

async function keptOr(request: Request): Promise<Response> {
  return (await caches.match(request)) ?? fetch(request);
}
