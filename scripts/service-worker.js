// Keeps the whole page in the browser, so that everything works with the network off. The build puts in the list of
// its files and a name for the lot (scripts/offline.ts).
const NAME = '%NAME%';
const FILES = ['%FILES%'];
const PREFIX = 'evenhand-';
/** Ways to look a file up: hosts send `Vary`, which says nothing of files that are the same for everyone. */
const LOOSE = { ignoreVary: true, ignoreSearch: true };
/** The build puts a hash of what is in it into a file's name. */
const HASHED = /-[\w-]{8}\.\w+$/;

self.addEventListener('install', (event) => {
  // Never from the browser's own cache: that may hold yesterday's index.html. And no skipWaiting: an update waits for a click.
  event.waitUntil(installed());
});

/** All of it or nothing: where one file fails to come, the version in use stays as it is. */
async function installed() {
  const wasThere = await caches.has(NAME);
  try {
    const cache = await caches.open(NAME);
    await cache.addAll(FILES.map((file) => new Request(file, { cache: 'reload' })));
  } catch (error) {
    // One of the same name is in use: its files are these files.
    if (!wasThere) await caches.delete(NAME);
    throw error;
  }
}

self.addEventListener('message', (event) => {
  if (event.data === 'take over') self.skipWaiting();
});

self.addEventListener('activate', (event) => {
  event.waitUntil(tidied().then(() => self.clients.claim()));
});

/**
 * The version before stays: another tab may still be in it, and ask for parts that it has not loaded yet. One that a dying
 * browser left empty is none.
 */
async function tidied() {
  const own = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== NAME);
  const sizes = await Promise.all(own.map(async (name) => (await (await caches.open(name)).keys()).length));
  const before = own.filter((_, index) => sizes[index] > 0).at(-1);
  await Promise.all(own.filter((name) => name !== before).map((name) => caches.delete(name)));
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
  return found ?? again(request, cache);
}

/** A file that the browser has thrown out is fetched again, and kept where its name says that it is the same one; else it is named. */
async function again(request, cache) {
  try {
    const response = await fetch(request);
    if (response.ok && HASHED.test(new URL(request.url).pathname)) await cache.put(request, response.clone());
    return response;
  } catch {
    return request.mode === 'navigate' ? named('index.html') : Response.error();
  }
}

function named(file) {
  const text = `<!doctype html><html lang="en"><meta charset="utf-8"><title>Evenhand</title>
<p>Evenhand can’t open: the browser has thrown out ${file}, and there is no network to fetch it again. What you
played is not touched. Load this page again when you are online.</p></html>`;
  return new Response(text, { status: 503, headers: { 'content-type': 'text/html' } });
}
