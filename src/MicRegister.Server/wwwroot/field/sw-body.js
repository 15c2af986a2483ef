// The server puts VERSION and FILES before this text. Without them the network answers all.
const isServed = typeof VERSION !== 'undefined' && typeof FILES !== 'undefined';
const PREFIX = 'micregister-field-';
const NAME = isServed ? PREFIX + VERSION : '';
// They look better with these, and work without.
const EXTRAS = ['/fonts/source-sans-3-latin-400-normal.woff2', '/fonts/source-sans-3-latin-600-normal.woff2'];

const keep = async () => {
  const cache = await caches.open(NAME);
  await Promise.all(FILES.map(async file => {
    const response = await fetch(new Request(file, { cache: 'reload' }));
    // A redirect would be kept as an answer that browsers refuse for a page.
    if (!response.ok || response.redirected) throw new Error(`${file} answered ${response.status}.`);
    await cache.put(file, response);
  }));
  await Promise.all(EXTRAS.map(file => cache.add(file).catch(() => {})));
};

const answer = async request => {
  const cache = await caches.open(NAME);
  const { pathname } = new URL(request.url);
  const kept = await cache.match(request.mode === 'navigate' ? '/field/' : pathname);
  return kept ?? fetch(request);
};

if (isServed) {
  addEventListener('install', event => event.waitUntil(keep()));

  addEventListener('activate', event => event.waitUntil((async () => {
    for (const name of await caches.keys()) if (name.startsWith(PREFIX) && name !== NAME) await caches.delete(name);
    await clients.claim();
  })()));

  addEventListener('fetch', event => {
    const { pathname, origin } = new URL(event.request.url);
    const isOurs = event.request.method === 'GET' && origin === location.origin && (pathname.startsWith('/field/') || EXTRAS.includes(pathname));
    // Whatever is asked of the register itself goes to the register.
    if (isOurs && pathname !== '/field/sw.js') event.respondWith(answer(event.request));
  });

  addEventListener('message', event => {
    if (event.data === 'take-over') skipWaiting();
    if (event.data === 'version') event.ports[0]?.postMessage(VERSION);
  });
}
