/**
 * The page's worker: keeps the page's own files, and the answers already got, for when there is
 * no connection. Builds and their answers are kept by the page itself (builds/shelf.js).
 */
importScripts('/page/edition.js'); // self.PAGE: what the page is made of, and which edition

const FILES = `page-${self.PAGE.edition}`;
const ANSWERS = 'answers';
const MOST_ANSWERS = 200;

self.addEventListener('install', (event) => {
  event.waitUntil(keepFiles().then(() => self.skipWaiting()));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(forgetOldFiles().then(() => self.clients.claim()));
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== self.location.origin) return;
  if (request.mode === 'navigate' && url.pathname === '/') event.respondWith(fileOr(request, '/'));
  else if (url.pathname.startsWith('/page/')) event.respondWith(fileOr(request, url.pathname));
  else if (url.pathname.startsWith('/v1/')) event.respondWith(answerOr(request));
});

async function keepFiles() {
  const cache = await caches.open(FILES);
  const fresh = (path) => new Request(path, { cache: 'no-cache' });
  await cache.addAll(self.PAGE.files.map((name) => fresh(`/page/${name}`)));
  await cache.put('/', (await cache.match('/page/index.html')).clone());
}

async function forgetOldFiles() {
  for (const name of await caches.keys()) {
    if (name !== FILES && name !== ANSWERS) await caches.delete(name);
  }
}

/** A file of this edition, so that all files fit together; else from the service. */
async function fileOr(request, path) {
  const cache = await caches.open(FILES);
  return (await cache.match(path)) ?? fetch(request);
}

/** The service's answer, kept if there is room; without a connection the one kept before. */
async function answerOr(request) {
  const cache = await caches.open(ANSWERS);
  try {
    const answer = await fetch(request);
    if (answer.ok) await keepAnswer(cache, request, answer.clone()).catch(console.warn);
    return answer;
  } catch (failure) {
    const kept = await cache.match(request);
    if (!kept) throw failure;
    return kept;
  }
}

async function keepAnswer(cache, request, answer) {
  const headers = new Headers(answer.headers);
  headers.set('Dryfit-Kept', new Date().toISOString());
  const body = await answer.blob();
  await cache.put(request, new Response(body, { status: answer.status, headers }));
  const keys = await cache.keys();
  for (const old of keys.slice(0, Math.max(0, keys.length - MOST_ANSWERS))) await cache.delete(old);
}
