let waiting;
let isOurs = false;

const watch = (registration, tell) => {
  const see = worker => worker?.addEventListener('statechange', () => {
    if (worker.state === 'installed' && navigator.serviceWorker.controller) { waiting = worker; tell(); }
  });
  // A first visit has no controller: then this is no newer version but the only one.
  if (registration.waiting && navigator.serviceWorker.controller) { waiting = registration.waiting; tell(); }
  see(registration.installing);
  registration.addEventListener('updatefound', () => see(registration.installing));
  addEventListener('online', () => registration.update().catch(() => {}));
  setInterval(() => { if (navigator.onLine) registration.update().catch(() => {}); }, 600_000);
};

const reload = () => {
  isOurs = true;
  waiting.postMessage('take-over');
};

const begin = async tell => {
  if (!('serviceWorker' in navigator)) return;
  navigator.serviceWorker.addEventListener('controllerchange', () => { if (isOurs) location.reload(); });
  try {
    watch(await navigator.serviceWorker.register('/field/sw.js', { scope: '/field/', updateViaCache: 'none' }), tell);
  } catch { /* the page works while it is open */ }
};

/** With a listener: keeps this page for days without a network. Without: the way to the newer version, where one waits. */
export const installed = tell => tell ? begin(tell) : waiting && reload;

/** Version of the files that this page runs from; undefined where it came straight from the network. */
export const version = () => new Promise(done => {
  const worker = navigator.serviceWorker?.controller;
  if (!worker) { done(undefined); return; }
  const { port1, port2 } = new MessageChannel();
  port1.onmessage = e => done(e.data);
  setTimeout(() => done(undefined), 1000);
  worker.postMessage('version', [port2]);
});
