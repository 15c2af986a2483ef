import * as store from './store.js';

const BATCH = 100;
const EVERY = 15_000;
const LEASE = 90_000;
const me = Math.random().toString(36).slice(2);

/** How the last sending went: `{ at?, problem?, isSignedOut?, isRunning }`. */
export const status = { isRunning: false };
let listener = () => {};
let pauseUntil = 0;
let isAgain = false;

/** An answer of the register, or a thrown `Error` whose `answer` says what came instead. */
export const ask = async (address, options = {}) => {
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), options.timeout ?? 30_000);
  try {
    const response = await fetch(address, { cache: 'no-store', credentials: 'same-origin', redirect: 'error', ...options, signal: stop.signal });
    if (response.ok || response.status === 304) return response;
    const text = await response.text();
    let problem = {};
    try { problem = JSON.parse(text); } catch { /* not from the register itself */ }
    throw Object.assign(new Error(problem.detail ?? problem.title ?? `The register answered ${response.status}.`), { answer: response.status, after: Number(response.headers.get('Retry-After')) || 0 });
  } finally {
    clearTimeout(timer);
  }
};

// Two tabs, or two calls of one tab, would send the same batch side by side.
const alone = async work => {
  if (navigator.locks) return navigator.locks.request('micregister-field-send', { ifAvailable: true }, lock => lock ? work() : undefined);
  const hasLease = await store.within(['meta'], async ({ meta }, ready) => {
    const lease = await ready(meta.get('lease'));
    if (lease && lease.until > Date.now() && lease.by !== me) return false;
    meta.put({ by: me, until: Date.now() + LEASE }, 'lease');
    return true;
  });
  if (!hasLease) return undefined;
  try {
    return await work();
  } finally {
    await store.within(['meta'], async ({ meta }, ready) => { if ((await ready(meta.get('lease')))?.by === me) meta.delete('lease'); });
  }
};

const renew = () => navigator.locks ? undefined : store.setMeta('lease', { by: me, until: Date.now() + LEASE });

const waiting = async () => (await store.all('outbox')).filter(item => item.state === 'waiting').sort((a, b) => a.at - b.at || a.fact.counter - b.fact.counter);

const sendFacts = async () => {
  let count = 0;
  for (let items = await waiting(); items.length > 0; items = await waiting()) {
    await renew();
    const batch = items.slice(0, BATCH);
    const response = await ask('/api/field/facts', {
      method: 'POST',
      headers: { 'Content-Type': 'application/x-ndjson', 'Client-Clock': new Date().toISOString() },
      body: batch.map(item => item.line + '\n').join(''),
    });
    const answer = await response.json();
    if (!Array.isArray(answer.results)) throw new Error('The register’s answer was cut off; it is asked again.');
    const byId = new Map(answer.results.filter(r => r.id).map(r => [r.id, r]));
    const isWhole = answer.results.length === batch.length;
    const [taken, marked] = [[], []];
    batch.forEach((item, i) => {
      const inPlace = isWhole && (answer.results[i].id ?? item.id) === item.id ? answer.results[i] : undefined;
      const result = byId.get(item.id) ?? inPlace;
      // What got no answer of its own keeps waiting: sending it again does no harm.
      if (!result) return;
      if (result.result === 'stored' || result.result === 'duplicate') {
        taken.push({ id: item.id, fact: item.fact, sequence: result.sequence ?? answer.sequence, sentAt: Date.now() });
      } else if (result.result === 'conflict' || result.result === 'unreadable' || result.result === 'refused') {
        marked.push({ ...item, state: result.result, why: result.why, now: result.now });
      }
    });
    await store.settle(taken, marked);
    if (taken.length + marked.length === 0) throw new Error('The register answered nothing about what was sent.');
    count += taken.length;
    listener();
  }
  return count;
};

const sendPhotos = async () => {
  for (const photo of (await store.all('photos')).filter(p => !p.why)) {
    await renew();
    try {
      const answer = await (await ask('/api/attachments', { method: 'POST', headers: { 'Content-Type': 'image/jpeg' }, body: photo.blob, timeout: 120_000 })).json();
      if (answer.sha256 !== photo.sha256) throw Object.assign(new Error('The photo arrived damaged.'), { answer: 0 });
      await store.dropPhoto(photo.sha256);
    } catch (error) {
      // Too large, or no photo: sending it again would not help, and the others must not wait for it.
      if (![400, 413, 415, 422].includes(error.answer)) throw error;
      await store.putPhoto({ ...photo, why: error.message });
    }
    listener();
  }
};

/** Sends what waits. Safe to call at any time, by any tab. */
export const flush = async () => {
  if (Date.now() < pauseUntil) return 0;
  if (status.isRunning) {
    isAgain = true;
    return 0;
  }
  if (navigator.onLine === false) {
    status.problem = 'No network.';
    listener();
    return 0;
  }
  status.isRunning = true;
  try {
    const count = await alone(async () => {
      const sent = await sendFacts();
      await sendPhotos();
      Object.assign(status, { at: Date.now(), problem: undefined, isSignedOut: false });
      return sent;
    });
    return count ?? 0;
  } catch (error) {
    status.isSignedOut = error.answer === 401 || error.answer === 403;
    status.problem = error.answer ? error.message : navigator.onLine === false ? 'No network.' : 'The register was not reached.';
    if (error.answer === 429) pauseUntil = Date.now() + Math.max(error.after, 5) * 1000;
    return 0;
  } finally {
    status.isRunning = false;
    listener();
    if (isAgain) {
      isAgain = false;
      setTimeout(flush, 0);
    }
  }
};

/** Sends now, and whenever the network, the page or the clock gives reason to. */
export const begin = onChange => {
  listener = onChange;
  addEventListener('online', flush);
  document.addEventListener('visibilitychange', () => { if (document.visibilityState === 'visible') flush(); });
  setInterval(flush, EVERY);
  flush();
};
