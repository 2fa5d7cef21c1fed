// The service worker: keeps the page of one build whole. Each build has a cache of its
// own, filled before it takes over, and the page names its files by their content, so
// that script and core never come from two builds. The cache of the build before stays
// for windows that still show it; older ones go.
import kept from 'springrib:kept';

interface Extendable extends Event { waitUntil(done: Promise<unknown>): void }
interface Fetch extends Extendable { request: Request; respondWith(response: Promise<Response>): void }

interface Scope {
  registration: { scope: string };
  skipWaiting(): Promise<void>;
  clients: { claim(): Promise<void> };
  addEventListener(type: 'install' | 'activate', act: (event: Extendable) => void): void;
  addEventListener(type: 'fetch', act: (event: Fetch) => void): void;
}

const worker = globalThis as unknown as Scope;

// Caches belong to an origin, which may hold other pages, and other copies of this one.
const mine = `springrib ${worker.registration.scope} `;
const cacheName = mine + kept.build;
const page = new URL('./', worker.registration.scope).href;
const files = new Set(kept.files.map((name) => new URL(name, page).href));

worker.addEventListener('install', (event) => event.waitUntil(install()));
worker.addEventListener('activate', (event) => event.waitUntil(activate()));
worker.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET') return;
  const url = new URL(request.url);
  url.search = url.hash = '';
  if (url.href === page || url.href === `${page}index.html`) event.respondWith(answer(page, request));
  else if (files.has(url.href) || isMine(url.href)) event.respondWith(answer(url.href, request));
});

// A file that is named by its content, beside this worker: of this build or the one before.
const isMine = (url: string): boolean => url.startsWith(page) && /^[a-z]+-[0-9a-f]{16}\.[a-z.]+$/.test(url.slice(page.length));

async function install(): Promise<void> {
  const cache = await caches.open(cacheName);
  await cache.addAll([new Request(page, { cache: 'reload' }), ...[...files].map((url) => new Request(url))]);
  await worker.skipWaiting();
}

async function activate(): Promise<void> {
  const all = (await caches.keys()).filter((name) => name.startsWith(mine)); // oldest first
  const before = all.filter((name) => name !== cacheName);
  await Promise.all(before.slice(0, -1).map((name) => caches.delete(name)));
  await worker.clients.claim();
}

async function answer(url: string, request: Request): Promise<Response> {
  const here = await (await caches.open(cacheName)).match(url);
  if (here) return here;
  for (const name of await caches.keys()) {
    const found = name.startsWith(mine) && url !== page ? await (await caches.open(name)).match(url) : undefined;
    if (found) return found;
  }
  return fetch(request);
}
