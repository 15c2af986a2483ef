import { h, fill, field, tick } from '../dom.js';
import { phone, say, device as deviceSubject, campaignSubject } from '../phone.js';
import { rank } from '../judge.js';
import { stationOf, title } from '../kit.js';
import { scanBox, listen } from '../scan.js';
import { draftOf, reader, showDevice, showWhy, stationFrom, placedList } from '../parts.js';

let before;
let carried;

const list = context => placedList(context, {
  address: '#/take-in/',
  words: count => count > 0 ? ['Scan the station or a part', `${count} out there`] : ['Everything is taken in'],
  hasFirst: true,
  last: () => { const done = before; before = undefined; return done; },
  carry: id => { carried = id; },
});

const work = async ({ body, heading, dock, go }, name) => {
  const station = stationOf(phone.view, name);
  if (!station?.placed) { fill(body, h('p', {}, station ? `Nothing is placed at ${name}.` : `There is no station ${name} in this campaign.`), h('a', { class: 'plain', href: '#/take-in' }, 'All stations')); return undefined; }
  heading.textContent = `Take in ${name}`;
  const chain = [...station.placed.devices].sort((a, b) => rank(phone.view.byId.get(a)?.kind) - rank(phone.view.byId.get(b)?.kind));
  const draft = await draftOf('take-in:' + name, { here: [], remark: '' });
  const d = draft.value;
  const [told, next, parts] = [h('div', { role: 'status' }), h('div', {}), h('div', {})];
  const box = scanBox();
  const find = id => phone.view.byId.get(id);
  let isBusy = false;
  let isWarned = false;
  const keep = () => { if (!isBusy) draft.keep(); };
  const missing = () => chain.filter(id => !d.here.includes(id));
  const done = h('button', { type: 'button', class: 'act', onclick: () => finish() }, 'Taken in');
  const nameOf = id => find(id)?.name ?? id;
  const mark = (id, isHere) => { d.here = isHere ? [...new Set([...d.here, id])] : d.here.filter(o => o !== id); keep(); show(); };
  const show = () => {
    const gone = missing();
    done.className = gone.length === 0 ? 'act' : 'act later';
    fill(next, h('p', { class: 'next-act' }, gone.length === 0 ? 'Press Taken in' : d.here.length === 0 ? 'Scan or tick what is here' : `${d.here.length} of ${chain.length} are here`, h('small', {}, gone.length === 0 ? 'All parts are here.' : `Not ticked counts as missing: ${gone.map(nameOf).join(', ')}`)));
    fill(parts, h('ul', { class: 'rows', 'aria-label': 'Parts of this chain' }, chain.map(id => h('li', {}, tick(`${nameOf(id)}${find(id) ? ' · ' + find(id).kindLabel : ''}`, d.here.includes(id), v => mark(id, v))))),
      gone.length > 1 && h('button', { type: 'button', class: 'plain', onclick: () => { d.here = [...chain]; keep(); show(); } }, 'All are here'));
  };
  const finish = async () => {
    if (isBusy) return;
    if (d.here.length === 0 && chain.length > 0 && !isWarned) { isWarned = true; showWhy(told, 'Nothing is ticked. Press Taken in once more if really all parts are missing.'); return; }
    isBusy = true;
    await draft.settled();
    const [here, gone] = [chain.filter(id => d.here.includes(id)), missing()];
    const facts = await say([{ kind: 'chain-taken-in', subjects: [campaignSubject(), ...here.map(deviceSubject), ...gone.map(deviceSubject)], body: { station: name, devices: here, missing: gone, remark: d.remark.trim() || undefined } }], { draft: 'take-in:' + name });
    before = { facts, verdict: gone.length === 0 ? 'good' : 'look', text: gone.length === 0 ? `${name} is taken in.` : `${name} is taken in; missing: ${gone.map(nameOf).join(', ')}.` };
    go('#/take-in');
  };
  fill(body, told, next, parts, h('details', {}, h('summary', {}, 'Remark'), field('Remark', d.remark, v => { d.remark = v; keep(); }, { rows: 2 })));
  fill(dock, box.element, done);
  if (carried && chain.includes(carried)) { d.here = [...new Set([...d.here, carried])]; keep(); }
  carried = undefined;
  show();
  listen(reader(told, found => {
    if (found.station) { if (found.station.name !== name) go('#/take-in/' + encodeURIComponent(found.station.name)); return; }
    if (!found.device) { showWhy(told, `Label ${found.spoken} belongs to nothing in this campaign.`); return; }
    if (!chain.includes(found.device.id)) { const at = stationFrom(found); showWhy(told, `${title(found.device)} is no part of ${name}${at.name ? `; it belongs to ${at.name}` : ''}.`); return; }
    mark(found.device.id, true);
    showDevice(told, found.device, 'good', []);
  }));
  return {};
};

export const takeIn = { title: 'Take in', caution: 'Switch off before unscrewing; mind vehicles and rotors. All cautions', open: context => context.param ? work(context, context.param) : list(context) };
