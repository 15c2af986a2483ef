import * as store from './store.js';
import { ask } from './sync.js';
import { readLabel } from './labels.js';
import { judge, localDay } from './check.js';

export const keptKit = campaign => store.get('meta', 'kit:' + campaign);

/** Asks who this phone is; what it said last stands in where there is no network. */
export const whoAmI = async () => {
  const me = await (await ask('/api/me')).json();
  await store.setMeta('me', me);
  return me;
};

export const campaigns = async () => {
  const answer = await (await ask('/api/campaigns')).json();
  await store.setMeta('campaigns', answer.items.map(({ id, name }) => ({ id, name })));
  return answer.items;
};

/** Brings the kit up to date; gives `{ kit, etag, at }`, or the kept one where nothing changed. */
export const refreshKit = async campaign => {
  const kept = await keptKit(campaign);
  const response = await ask(`/api/campaigns/${encodeURIComponent(campaign)}/field-kit`, { headers: kept?.etag ? { 'If-None-Match': kept.etag } : {}, timeout: 60_000 });
  const next = response.status === 304 ? { ...kept, at: Date.now() } : { kit: await response.json(), etag: response.headers.get('ETag') ?? undefined, at: Date.now() };
  await store.setMeta('kit:' + campaign, next);
  return next;
};

/** The check of a fact as kits hold it. */
export const checkOf = (fact, offsets) => {
  const { moment, devices, calibrator, method, rangeV, sensitivityDb, sensitivityUnit, indicatedDb, budget, deviationDb } = fact.body;
  const check = { fact: fact.id, at: fact.at, day: localDay(Date.parse(fact.at), offsets), instant: Date.parse(fact.at), moment, devices, calibrator, method, budget: budget ?? [] };
  for (const [key, value] of Object.entries({ rangeV, sensitivityDb, sensitivityUnit, indicatedDb, deviationDb })) if (value !== undefined) check[key] = value;
  return check;
};

const takeBack = (view, target) => {
  for (const station of view.stations) {
    if (station.placed?.fact === target) {
      delete station.placed;
      station.state = 'planned';
    }
    station.checks = station.checks.filter(c => c.fact !== target);
    if (['checked', 'failing'].includes(station.state) && station.checks.length === 0) station.state = 'placed';
  }
};

const apply = {
  'chain-placed': (view, fact, station) => {
    for (const other of view.stations) {
      if (other.placed) other.placed = { ...other.placed, devices: other.placed.devices.filter(id => !fact.body.devices.includes(id)) };
    }
    station.placed = { fact: fact.id, at: fact.at, devices: fact.body.devices, unknownLabels: fact.body.unknownLabels, by: 'this phone', isOwn: true };
    station.state = 'placed';
  },
  'chain-taken-in': (view, fact, station) => {
    delete station.placed;
    station.state = 'taken-in';
  },
  'chain-checked': (view, fact, station) => {
    station.checks.push(checkOf(fact, view.campaign.offsets));
    station.state = judge(view, fact.body, { fact: fact.id, at: fact.at }).verdict === 'does-not-conform' ? 'failing' : 'checked';
  },
  'tone-noted': (view, fact, station) => { (station.tones ??= []).push({ fact: fact.id, at: fact.at, moment: fact.body.moment }); },
  'device-status-changed': (view, fact) => {
    const device = view.devices.find(d => fact.subjects.includes('device:' + d.id));
    if (device) Object.assign(device, { status: fact.body.status, why: fact.body.reason });
  },
  'label-bound': (view, fact) => {
    const thing = fact.body.station ? view.stations.find(s => s.name === fact.body.station) : view.devices.find(d => fact.subjects.includes('device:' + d.id));
    if (thing) thing.label = fact.body.code;
  },
};

/**
 * The kit with what this phone said since: `own` are its facts that the kit cannot know yet, because they were not sent or have a
 * higher sequence. Nothing of the kit itself is changed.
 */
export const overlay = (kit, own) => {
  const view = structuredClone(kit);
  // A kit may be days old where no network is.
  const today = localDay(Date.now(), kit.campaign.offsets);
  if (today > view.today) view.today = today;
  for (const station of view.stations) station.checks ??= [];
  const mine = own.filter(f => {
    const campaign = f.subjects.find(s => s.startsWith('campaign:'));
    return campaign ? campaign === 'campaign:' + kit.campaign.id : f.subjects.some(s => s.startsWith('device:'));
  });
  const ordered = mine.sort((a, b) => a.at < b.at ? -1 : a.at > b.at ? 1 : a.counter - b.counter);
  const annulled = new Set(ordered.filter(f => f.kind === 'fact-annulled').map(f => f.body.target));
  for (const target of annulled) takeBack(view, target);
  for (const fact of ordered) {
    if (annulled.has(fact.id)) continue;
    const station = view.stations.find(s => s.name === fact.body.station);
    // A station that left the plan is not shown; the fact is kept and sent.
    if (fact.body.station && !station) continue;
    apply[fact.kind]?.(view, fact, station);
  }
  view.byId = new Map(view.devices.map(d => [d.id, d]));
  view.where = new Map(view.stations.flatMap(s => (s.placed?.devices ?? []).map(id => [id, { station: s.name, by: s.placed.by }])));
  return view;
};

// Blanks, dashes and leading zeros are no difference, nor is what people mix up: as the register compares serials.
const lookAlike = text => text.toUpperCase().replace(/[\s\-./_']/g, '').replace(/[OQ]/g, '0').replace(/[IL]/g, '1').replace(/^0+/, '');

/**
 * What a scanned or typed text stands for: `{ device }`, `{ station }`, `{ code }` that is bound to nothing here, `{ many }`
 * devices of one serial, or `{ why }`. A name or serial serves where a label cannot be read.
 */
export const resolve = (view, text) => {
  const label = readLabel(text);
  if (label.code) {
    const device = view.devices.find(d => d.label === label.code);
    const station = view.stations.find(s => s.label === label.code);
    return device ? { device, ...label } : station ? { station, ...label } : label;
  }
  const plain = (text ?? '').trim();
  if (!plain || label.isAddress) return label;
  const upper = plain.toUpperCase();
  const station = view.stations.find(s => s.name.toUpperCase() === upper);
  if (station) return { station };
  const named = view.devices.filter(d => d.name.toUpperCase() === upper || (d.serial && d.serial.toUpperCase() === upper));
  const key = lookAlike(plain);
  const found = named.length > 0 ? named : key.length < 2 ? [] : view.devices.filter(d => d.serial && lookAlike(d.serial) === key);
  if (found.length === 1) return { device: found[0] };
  if (found.length > 1) return { many: found };
  return { why: label.isMistyped ? label.why : `“${plain.slice(0, 40)}” is no label code, and no name or serial in this campaign.` };
};

export const stationOf = (view, name) => view.stations.find(s => s.name === name);

/** The station that a device belongs to: where it stands, or where it is planned. */
export const homeOf = (view, device) => view.where.get(device.id)?.station ?? device.station ?? view.stations.find(s => s.planned.includes(device.id))?.name;

export const title = device => device.serial && !device.name.includes(device.serial) ? `${device.name} (${device.serial})` : device.name;
