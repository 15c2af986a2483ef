import * as store from './store.js';
import * as sync from './sync.js';
import { ulid, randomCharacters } from './ids.js';
import { canonical, compact } from './canonical.js';
import { overlay, keptKit, whoAmI, refreshKit, campaigns } from './kit.js';

/** All that this page knows. `view` is the kit with this phone's own facts; `unsent` is undefined until the disk was read. */
export const phone = { me: undefined, campaign: undefined, kit: undefined, view: undefined, unsent: undefined, problem: undefined };
const listeners = new Set();
const channel = 'BroadcastChannel' in window ? new BroadcastChannel('micregister-field') : undefined;

export const onChange = listener => { listeners.add(listener); return () => listeners.delete(listener); };
let shown;
let running;
const changed = () => { for (const listener of [...listeners]) listener(); };

/** Reads the disk anew and works the view out again. */
export const reread = async () => {
  const { outbox, sent, photos } = await store.everything();
  Object.assign(phone, { outbox, sent, photos, unsent: outbox.length, oldest: outbox.reduce((least, i) => Math.min(least, i.at), Infinity) });
  const kit = phone.kit?.kit;
  // Drawing a list anew under a finger that is about to press would lose the press, so only news are drawn.
  const news = JSON.stringify([outbox.map(i => [i.id, i.state, i.why, i.handedOverAt]), sent.length, photos.map(p => [p.sha256, p.why, p.isSaved]), phone.campaign, phone.kit?.etag, kit?.madeAt, phone.kitProblem, phone.isSignedOut, sync.status.problem, sync.status.isSignedOut]);
  if (news === shown) return;
  shown = news;
  if (kit) {
    // A fact with a sequence above the kit's came after it was made; one below is in it already.
    const own = [...outbox.filter(i => i.state !== 'unreadable'), ...sent.filter(i => (i.sequence ?? Infinity) > kit.sequence)].map(i => i.fact);
    phone.view = overlay(kit, own);
  }
  changed();
};

let later;
const soon = () => { clearTimeout(later); later = setTimeout(() => reread().catch(fail), 30); };
const fail = error => { phone.problem = `This browser keeps nothing: ${error?.message ?? error}. Do not work with this page; use another browser.`; changed(); };

const client = async kit => {
  const own = await store.within(['meta'], async ({ meta }, ready) => {
    const kept = await ready(meta.get('installation'));
    if (kept) return kept;
    const made = randomCharacters(4);
    meta.put(made, 'installation');
    return made;
  });
  return `${kit.speaker.client}.${own}`;
};

export const device = id => 'device:' + id;
export const campaignSubject = () => 'campaign:' + phone.view.campaign.id;

const STAYS = ['chain-placed', 'chain-checked', 'chain-taken-in'];

/** Whether the register takes from this phone what happened to a device: it is of the campaign, or this phone said that it was there. */
export const isOfCampaign = part => !part.isStranger || [...phone.outbox, ...phone.sent]
  .some(({ fact }) => STAYS.includes(fact.kind) && fact.subjects.includes(device(part.id)) && fact.subjects.includes(campaignSubject()));

/** A photo and the fact that says what it shows, position only where it was asked for. */
export const photoSaying = (photo, { station, devices = [], text, place }) => ({
  kind: 'photo-taken',
  subjects: [campaignSubject(), ...devices.map(device)],
  body: { sha256: photo.sha256, mediaType: 'image/jpeg', station, text: text || undefined, latitudeDeg: place?.latitudeDeg, longitudeDeg: place?.longitudeDeg },
});

/** States facts: they are on the disk when this returns, and are sent when there is a network. */
export const say = async (sayings, { draft, photos = [] } = {}) => {
  const kit = phone.kit.kit;
  const name = await client(kit);
  const now = new Date();
  const items = await store.addFacts(name, first => sayings.map(({ kind, version = 1, subjects, body }, i) => {
    const fact = { at: now.toISOString(), author: kit.speaker.author, body: compact(body), client: name, counter: first + i, id: ulid(now.getTime()), kind, subjects: [...new Set(subjects)], version };
    return { id: fact.id, fact, line: canonical(fact), at: now.getTime() };
  }), { draft, photos: photos.map(p => ({ ...p, at: now.getTime() })) });
  // They are on the disk: what fails from here on must not make a person say them again.
  await reread().catch(fail);
  channel?.postMessage('said');
  sync.flush();
  // Asked for once there is something to lose.
  navigator.storage?.persist?.().catch(() => {});
  return items.map(i => i.fact);
};

export const takeBack = (facts, reason) => say(facts.map(f => ({ kind: 'fact-annulled', subjects: f.subjects, body: { target: f.id, reason } })));

export const chooseCampaign = async id => {
  await store.setMeta('campaign', id);
  phone.campaign = id;
  phone.kit = await keptKit(id);
  phone.view = undefined;
  await reread();
  await running;
  await refresh();
};

/** Asks for who this phone is and for the kit; what is kept stands in while that fails. */
export const refresh = () => running ??= (async () => {
  try {
    phone.me = await whoAmI();
    if (phone.me.campaign) phone.campaign = phone.me.campaign;
    if (!phone.campaign) {
      const open = await campaigns();
      phone.campaigns = open.map(({ id, name }) => ({ id, name }));
      if (open.length === 1) { phone.campaign = open[0].id; await store.setMeta('campaign', phone.campaign); }
    }
    const { campaign } = phone;
    const kit = campaign && await refreshKit(campaign);
    // Another one may have been chosen meanwhile.
    if (kit && campaign === phone.campaign) phone.kit = kit;
    phone.kitProblem = undefined;
    phone.isSignedOut = sync.status.isSignedOut = false;
  } catch (error) {
    phone.isSignedOut = error.answer === 401 || error.answer === 403;
    phone.kitProblem = error.answer ? error.message : 'The register was not reached.';
  } finally {
    running = undefined;
  }
  await reread().catch(fail);
})();

export const begin = async () => {
  try {
    phone.me = await store.get('meta', 'me');
    phone.crew = await store.get('meta', 'crew') ?? '';
    phone.hasPhotoPlace = await store.get('meta', 'photo-place') ?? false;
    phone.campaign = phone.me?.campaign ?? await store.get('meta', 'campaign');
    phone.campaigns = await store.get('meta', 'campaigns');
    if (phone.campaign) phone.kit = await keptKit(phone.campaign);
    await reread();
    await store.dropSentBefore(Date.now() - 60 * 86_400_000);
  } catch (error) {
    fail(error);
    return;
  }
  channel?.addEventListener('message', soon);
  sync.begin(() => { channel?.postMessage('sent'); soon(); });
  const look = () => { if (document.visibilityState === 'visible' && navigator.onLine !== false) refresh(); };
  addEventListener('online', look);
  document.addEventListener('visibilitychange', look);
  setInterval(look, 120_000);
  refresh();
};
