const NAME = 'micregister-field';
let opened;

const wait = request => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});

const open = () => opened ??= new Promise((resolve, reject) => {
  const request = indexedDB.open(NAME, 1);
  request.onupgradeneeded = () => {
    const db = request.result;
    db.createObjectStore('outbox', { keyPath: 'id' });
    db.createObjectStore('sent', { keyPath: 'id' });
    db.createObjectStore('photos', { keyPath: 'sha256' });
    db.createObjectStore('meta');
    db.createObjectStore('drafts');
  };
  request.onsuccess = () => {
    // Another tab with a newer page must not be held up by this one.
    request.result.onversionchange = () => { request.result.close(); opened = undefined; };
    request.result.onclose = () => { opened = undefined; };
    resolve(request.result);
  };
  request.onerror = () => { opened = undefined; reject(request.error); };
});

/** Runs `work(stores)` in one transaction; what it returns is given once all of it is on the disk. */
export const within = async (names, work, mode = 'readwrite') => {
  const db = await open();
  // A phone may lose power the moment after “kept” was shown, so that has to be true of the disk.
  const transaction = db.transaction(names, mode, { durability: 'strict' });
  const stores = Object.fromEntries(names.map(name => [name, transaction.objectStore(name)]));
  const done = new Promise((resolve, reject) => {
    transaction.oncomplete = resolve;
    transaction.onabort = () => reject(transaction.error ?? new Error('Nothing was kept: the browser gave up.'));
  });
  let result;
  try {
    result = await work(stores, wait);
  } catch (error) {
    done.catch(() => {});
    try { transaction.abort(); } catch { /* it is over already */ }
    throw error;
  }
  await done;
  return result;
};

const reading = (name, ask) => within([name], (stores, ready) => ready(ask(stores[name])), 'readonly');

export const get = (name, key) => reading(name, store => store.get(key));
export const all = name => reading(name, store => store.getAll());
/** All facts and photos at one moment, so that none is seen on its way from one place to the other. */
export const everything = () => within(['outbox', 'sent', 'photos'], async (stores, ready) => ({ outbox: await ready(stores.outbox.getAll()), sent: await ready(stores.sent.getAll()), photos: await ready(stores.photos.getAll()) }), 'readonly');

export const setMeta = (key, value) => within(['meta'], ({ meta }) => { meta.put(value, key); });
export const setDraft = (key, value) => within(['drafts'], ({ drafts }) => { drafts.put(value, key); });
export const dropDraft = key => within(['drafts'], ({ drafts }) => { drafts.delete(key); });
export const allDrafts = () => within(['drafts'], async ({ drafts }, ready) => {
  const [keys, values] = [await ready(drafts.getAllKeys()), await ready(drafts.getAll())];
  return keys.map((key, i) => [key, values[i]]);
}, 'readonly');

/**
 * Keeps facts, their photos and the end of the draft that they came from together: after a power cut either all of it is
 * there or none, so that no station is put in twice.
 */
export const addFacts = (client, make, { draft, photos = [] } = {}) => within(['outbox', 'meta', 'drafts', 'photos'], async (stores, ready) => {
  const key = 'counter:' + client;
  const last = await ready(stores.meta.get(key)) ?? 0;
  const items = make(last + 1);
  stores.meta.put(last + items.length, key);
  // add() fails on an id that is there already, where put() would silently replace what somebody said.
  for (const item of items) stores.outbox.add({ ...item, state: 'waiting' });
  for (const photo of photos) stores.photos.put(photo);
  if (draft) stores.drafts.delete(draft);
  return items;
});

export const putOutbox = item => within(['outbox'], async ({ outbox }, ready) => {
  // Only what still waits is changed.
  if (await ready(outbox.get(item.id))) outbox.put(item);
});

export const dropOutbox = id => within(['outbox'], ({ outbox }) => { outbox.delete(id); });

/** Moves what the register has to `sent`, and marks the rest with why it stays. */
export const settle = (taken, marked) => within(['outbox', 'sent'], async ({ outbox, sent }, ready) => {
  for (const item of taken) {
    outbox.delete(item.id);
    sent.put(item);
  }
  for (const item of marked) if (await ready(outbox.get(item.id))) outbox.put(item);
});

export const dropSentBefore = instant => within(['sent'], async ({ sent }, ready) => {
  for (const item of await ready(sent.getAll())) if (item.sentAt < instant) sent.delete(item.id);
});

export const dropPhoto = sha256 => within(['photos'], ({ photos }) => { photos.delete(sha256); });
export const putPhoto = photo => within(['photos'], ({ photos }) => { photos.put(photo); });
