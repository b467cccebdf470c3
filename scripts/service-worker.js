// Keeps the whole page in the browser, so that everything works with the network off. The build puts in the list of
// its files and a name for the lot (scripts/offline.ts).
const NAME = '%NAME%';
const FILES = ['%FILES%'];
const PREFIX = 'evenhand-';
/** Ways to look a file up: hosts send `Vary`, which says nothing of files that are the same for everyone. */
const LOOSE = { ignoreVary: true, ignoreSearch: true };

self.addEventListener('install', (event) => {
  // Never from the browser's own cache: that may hold yesterday's index.html. And no skipWaiting: an update waits for a click.
  event.waitUntil(
    caches
      .open(NAME)
      .then((cache) => cache.addAll(FILES.map((file) => new Request(file, { cache: 'reload' })))),
  );
});

self.addEventListener('message', (event) => {
  if (event.data === 'take over') self.skipWaiting();
});

self.addEventListener('activate', (event) => {
  event.waitUntil(tidied().then(() => self.clients.claim()));
});

/** The version before stays: another tab may still be in it, and ask for parts that it has not loaded yet. */
async function tidied() {
  const own = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== NAME);
  await Promise.all(own.slice(0, -1).map((name) => caches.delete(name)));
}

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || new URL(request.url).origin !== self.location.origin) return;
  event.respondWith(answer(request));
});

async function answer(request) {
  const cache = await caches.open(NAME);
  const wanted = request.mode === 'navigate' ? new URL('index.html', self.registration.scope).href : request;
  const found = (await cache.match(wanted, LOOSE)) ?? (await caches.match(wanted, LOOSE));
  return found ?? fetch(request);
}
