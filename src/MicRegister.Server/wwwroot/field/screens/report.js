import { h, fill, field, choice, tick } from '../dom.js';
import { phone, say, device as deviceSubject, photoSaying, isOfCampaign } from '../phone.js';
import { homeOf, title } from '../kit.js';
import { scanBox, listen } from '../scan.js';
import { photoKey } from '../photos.js';
import { flash } from '../feel.js';
import { undoKey, draftOf, reader, showDevice, showWhy, devicePicker } from '../parts.js';

const KINDS = [['damage', 'Damage'], ['water', 'Water'], ['insects', 'Insects'], ['fault', 'Does not work'], ['theft', 'Theft'], ['lost', 'Lost'], ['other', 'Other']];
const WORDS = Object.fromEntries(KINDS);
const GONE = ['theft', 'lost'];
let before;

const list = ({ body, dock, go }) => {
  const box = scanBox();
  const told = h('div', { role: 'status' });
  const picker = devicePicker('Name, serial or kind', phone.view.devices.filter(isOfCampaign),
    d => go('#/report/' + encodeURIComponent(d.id)));
  fill(body, told, h('p', { class: 'next-act' }, 'Scan the device'),
    h('details', {}, h('summary', {}, 'It cannot be scanned: choose it'), picker));
  fill(dock, box.element);
  if (before) {
    const { text, facts } = before;
    before = undefined;
    flash(told, 'good', text, undoKey(told, facts));
  }
  listen(reader(told, found => {
    if (found.device) go('#/report/' + encodeURIComponent(found.device.id));
    else showWhy(told, found.station ? `${found.station.name} is a station. Scan the device that it is about.` : `Label ${found.spoken} belongs to nothing in this campaign. Find can bind it.`);
  }));
  return {};
};

const work = async ({ body, heading, dock, go }, id) => {
  const part = phone.view.byId.get(id);
  if (!part) { fill(body, h('p', {}, 'This device is not in the campaign.'), h('a', { class: 'plain', href: '#/report' }, 'Another device')); return undefined; }
  heading.textContent = `Report: ${part.name}`;
  if (!isOfCampaign(part)) {
    fill(body, h('p', {}, `${part.name} is not of this campaign and was not placed here: tell the desk what happened to it.`),
      h('a', { class: 'plain', href: '#/report' }, 'Another device'));
    return undefined;
  }
  const station = homeOf(phone.view, part);
  const draft = await draftOf('report:' + id, { what: undefined, text: '', isOut: false, photos: [] });
  const d = draft.value;
  const [told, form, pictures] = [h('div', { role: 'status' }), h('div', {}), h('div', {})];
  const box = scanBox();
  let isBusy = false;
  const keep = () => { if (!isBusy) draft.keep(); };
  const outTick = h('div', {});
  const done = h('button', { type: 'button', class: 'act', onclick: () => finish() }, 'Report it');
  const show = () => {
    done.className = d.what ? 'act' : 'act later';
    // What is gone is not used any more in any case.
    fill(outTick, GONE.includes(d.what) ? null : tick('Do not use it any more', d.isOut, v => { d.isOut = v; keep(); }));
  };
  const showPictures = problem => fill(pictures, d.photos.map((photo, i) => h('p', {}, `Photo ${i + 1} is kept. `, h('button', { type: 'button', class: 'plain', 'aria-label': `Remove photo ${i + 1}`, onclick: () => { d.photos.splice(i, 1); keep(); showPictures(); } }, 'Remove'))),
    problem && h('p', {}, problem), photoKey(photo => { d.photos.push(photo); keep(); showPictures(); }, showPictures));
  const finish = async () => {
    if (isBusy) return;
    const text = d.text.trim();
    if (!d.what) { showWhy(told, 'Choose what happened.'); return; }
    if (!text && ['other', 'damage'].includes(d.what)) { showWhy(told, 'Write what is to be seen, in a few words.'); return; }
    isBusy = true;
    await draft.settled();
    const words = [station && `${station}:`, WORDS[d.what] + (text ? ',' : ''), text].filter(Boolean).join(' ');
    const subjects = [deviceSubject(id)];
    const sayings = GONE.includes(d.what) ? [{ kind: 'device-status-changed', subjects, body: { status: 'lost', reason: words } }]
      : d.what === 'other' ? [{ kind: 'device-noted', subjects, body: { text: words } }]
      : [{ kind: 'device-serviced', subjects, body: { what: d.what === 'fault' ? 'malfunction' : 'damage', text: words, beginsAnew: false } }];
    if (d.isOut && !GONE.includes(d.what)) sayings.push({ kind: 'device-status-changed', subjects, body: { status: 'out-of-service', reason: words } });
    const photos = d.photos.map(p => ({ ...p }));
    const facts = await say([...sayings, ...photos.map(p => photoSaying(p, { station, devices: [id], text: words }))], { draft: 'report:' + id, photos });
    before = { facts, text: `Reported: ${part.name}, ${WORDS[d.what].toLowerCase()}.` };
    go('#/report');
  };
  fill(form, choice('What happened', KINDS, d.what, v => { d.what = v; keep(); show(); }), field('In a few words', d.text, v => { d.text = v; keep(); }, { rows: 3 }), outTick, pictures);
  fill(body, told, h('p', { class: 'next-act' }, title(part), h('small', {}, `${part.kindLabel}${station ? ' · ' + station : ''}`)), form);
  fill(dock, box.element, done);
  show();
  showPictures();
  listen(reader(told, found => { if (found.device && found.device.id !== id) go('#/report/' + encodeURIComponent(found.device.id)); else if (found.device) showDevice(told, part, 'good', []); else showWhy(told, 'This label is that of no device of the campaign.'); }));
  return {};
};

export const report = { title: 'Report', caution: 'Water near powered gear: switch off first. All cautions', open: context => context.param ? work(context, context.param) : list(context) };
