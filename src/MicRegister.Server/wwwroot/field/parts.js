import { h, fill, field, clock } from './dom.js';
import { scanBox, listen } from './scan.js';
import { phone, takeBack } from './phone.js';
import { resolve, homeOf, title } from './kit.js';
import { badge, card, feel, flash } from './feel.js';
import { wordsOf } from './judge.js';
import * as store from './store.js';

const STATE_SHAPES = { planned: '○', placed: '◐', checked: '●', failing: '■', 'taken-in': '–' };
export const stateWords = station => `${STATE_SHAPES[station.state] ?? '◇'} ${wordsOf(phone.view, 'states', station.state)}`;

/** A thing that is kept on the disk at each step, so that a phone which dies forgets nothing. */
export const draftOf = async (key, blank) => {
  const kept = await store.get('drafts', key);
  const value = { ...blank, ...kept };
  let line = Promise.resolve();
  // One after the other: an older state must not arrive last.
  const keep = () => { line = line.then(() => store.setDraft(key, structuredClone(value))).catch(() => {}); return line; };
  return { value, keep, isKept: kept !== undefined, drop: () => { line = line.then(() => store.dropDraft(key)); return line; }, settled: () => line };
};

/** Takes back what was said a moment ago. */
export const undoKey = (told, facts, more = '') => h('button', { type: 'button', class: 'plain', onclick: async e => {
  e.target.disabled = true;
  await takeBack(facts, 'Undone on the phone');
  flash(told, 'look', 'Taken back. ' + more);
} }, 'Undo');

/** Stations as large keys; the first may be the biggest thing on the page. */
export const stationKeys = (stations, address, describe, hasFirst) => h('div', { class: 'list' }, stations.map((s, i) => h('a', { class: 'key' + (hasFirst && i === 0 ? ' first' : ''), href: address(s) }, h('span', {}, s.name), h('small', {}, describe(s)))));

// What was scanned is shown at the top, wherever one had scrolled to.
const toTop = () => { document.getElementById('scroll').scrollTop = 0; };

/** Tells a person why something was not taken. */
export const showWhy = (place, why, name = 'Not taken') => {
  toTop();
  feel('stop');
  fill(place, card({ name, verdict: 'stop', reasons: [why] }));
};

/** Asks which of several devices of one serial is meant. */
const askWhich = (place, many, onDevice) => {
  feel('look');
  fill(place, card({ kind: 'Several devices', name: 'Which of these?', verdict: 'look' }), h('div', { class: 'list' }, many.map(d => h('button', { type: 'button', class: 'key', onclick: () => onDevice({ device: d }) }, title(d), h('small', {}, d.kindLabel)))));
};

/** A handler of scans: `take({ device | station | code })` for what could be read; the rest is told at `place`, and false is given. */
export const reader = (place, take) => text => {
  const found = resolve(phone.view, text);
  if (found.why) { showWhy(place, found.why, 'Scan again'); return false; }
  if (found.many) askWhich(place, found.many, take);
  else take(found);
  return true;
};

export const showDevice = (place, device, verdict, reasons, more) => {
  toTop();
  feel(verdict);
  fill(place, card({ kind: device.kindLabel, name: device.name, more: [device.serial && !device.name.includes(device.serial) && `Serial ${device.serial}`, more].filter(Boolean).join(' · ') || undefined, verdict, reasons }));
};

export const showUnknown = (place, code, spoken, what) => {
  toTop();
  feel('look');
  fill(place, card({ kind: 'Unknown label', name: spoken, verdict: 'look', reasons: [`The label is genuine, but it belongs to nothing in this campaign. ${what}`] }));
};

/** The station that a scan points at, or why there is none. */
export const stationFrom = found => found.station ? { name: found.station.name } : found.device ? (name => name ? { name, device: found.device } : { why: `${found.device.name} stands at no station and is planned for none.` })(homeOf(phone.view, found.device)) : { why: `Label ${found.spoken} belongs to nothing in this campaign. Find can bind it.` };

export const partName = id => { const d = phone.view.byId.get(id); return d ? `${d.kindLabel}: ${title(d)}` : `Device ${id}, not in this campaign`; };

/** A list of devices that narrows as one types. */
export const devicePicker = (label, devices, onPick) => {
  const list = h('div', { class: 'list' });
  const show = text => {
    const words = text.toUpperCase().split(/\s+/).filter(Boolean);
    const some = devices.filter(d => words.every(w => `${d.name} ${d.serial ?? ''} ${d.kindLabel} ${d.model ?? ''}`.toUpperCase().includes(w)));
    fill(list, some.slice(0, 12).map(d => h('button', { type: 'button', class: 'key', onclick: () => onPick(d) }, title(d), h('small', {}, d.kindLabel))), some.length > 12 && h('p', {}, `${some.length - 12} more; type to narrow down.`));
  };
  show('');
  return h('div', {}, field(label, '', show), list);
};

export const placedWords = station => station.placed ? `placed ${clock(station.placed.at)} by ${station.placed.by}` : stateWords(station);

/**
 * The first screen of an act on what stands somewhere: scan a part or choose its station. `words(count)` gives the big text and
 * the small one; `last()` gives what was said a moment ago, once; `carry` gets the part that was scanned.
 */
export const placedList = ({ body, dock, go }, { address, words, hasFirst, last, carry, more }) => {
  const box = scanBox();
  const [told, shown] = [h('div', { role: 'status' }), h('div', {})];
  const link = name => address + encodeURIComponent(name);
  const show = () => {
    const placed = phone.view.stations.filter(s => s.placed);
    const [big, small] = words(placed.length);
    fill(shown, h('p', { class: 'next-act' }, big, small && h('small', {}, small)), stationKeys(placed, s => link(s.name), placedWords, hasFirst));
  };
  fill(body, told, shown);
  fill(dock, box.element);
  const done = last();
  if (done) flash(told, done.verdict ?? 'good', done.text, undoKey(told, done.facts, more));
  show();
  listen(reader(told, found => {
    const at = stationFrom(found);
    if (at.why) { showWhy(told, at.why); return; }
    carry(at.device?.id);
    go(link(at.name));
  }));
  return { changed: show };
};
