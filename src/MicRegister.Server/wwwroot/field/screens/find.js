import { h, fill, choice, clock } from '../dom.js';
import { phone, say, device as deviceSubject, campaignSubject } from '../phone.js';
import { concernsOf, verdictOf, mountWords, wordsOf } from '../judge.js';
import { resolve, title } from '../kit.js';
import { scanBox, listen } from '../scan.js';
import { feel, flash, card } from '../feel.js';
import { undoKey, reader, showDevice, showUnknown, showWhy, devicePicker, stateWords, partName } from '../parts.js';

const row = (word, value) => value ? [h('dt', {}, word), h('dd', {}, value)] : [];

const aboutDevice = (told, more, part) => {
  const view = phone.view;
  const concerns = concernsOf(view, view, undefined, [part.id]);
  const now = view.where.get(part.id);
  const planned = part.station ?? view.stations.find(s => s.planned.includes(part.id))?.name;
  showDevice(told, part, verdictOf(concerns), concerns.map(c => c.text), part.label && 'Label ' + part.label);
  fill(more,
    h('dl', { class: 'facts' }, row('Model', part.model), row('Owner', part.owner), row('Planned for', planned ?? (part.isSpare ? 'spare' : 'nothing here')), row('Stands', now ? `${now.station}, placed by ${now.by}` : view.elsewhere?.[part.id] ?? 'at no station'),
      row('Kept at', part.place), row('Due', part.due), row('Status', part.status && wordsOf(phone.view, 'statuses', part.status))),
    h('div', { class: 'buttons' }, planned && !now && h('a', { class: 'plain', href: '#/lay-out/' + encodeURIComponent(planned) }, `Lay out ${planned}`), now && h('a', { class: 'plain', href: '#/swap/' + encodeURIComponent(now.station) }, 'Swap it'), h('a', { class: 'plain', href: '#/report/' + encodeURIComponent(part.id) }, 'Report it')));
};

const aboutStation = (told, more, station) => {
  const verdict = station.state === 'failing' ? 'stop' : 'good';
  feel(verdict);
  const last = station.checks.at(-1);
  fill(told, card({ kind: 'Station', name: station.name, verdict, more: `${stateWords(station)} · ${mountWords(phone.view, station)}` }));
  fill(more,
    h('dl', { class: 'facts' }, row('Placed', station.placed && `${clock(station.placed.at)} by ${station.placed.by}`), row('Last check', last && `${last.day} ${clock(last.at)}, ${last.moment}`), row('Label', station.label)),
    h('h2', {}, station.placed ? 'Stands there' : 'Planned'), h('ul', {}, (station.placed?.devices ?? station.planned).map(id => h('li', {}, partName(id)))),
    h('div', { class: 'buttons' }, h('a', { class: 'plain', href: '#/lay-out/' + encodeURIComponent(station.name) }, 'Lay out'), station.placed && h('a', { class: 'plain', href: '#/check/' + encodeURIComponent(station.name) }, 'Check'), station.placed && h('a', { class: 'plain', href: '#/take-in/' + encodeURIComponent(station.name) }, 'Take in')));
};

/** A genuine label that belongs to nothing: it is bound to what it hangs on, once and for ever. */
const bind = (told, more, dock, box, code, speech) => {
  showUnknown(told, code, speech, 'Bind it to what it hangs on.');
  let chosen;
  const act = h('button', { type: 'button', class: 'act', 'aria-disabled': 'true', onclick: async () => {
    if (!chosen) { showWhy(told, 'Choose what the label hangs on first.'); return; }
    const { part, station } = chosen;
    act.disabled = true;
    const facts = await say([{ kind: 'label-bound', subjects: part ? ['label:' + code, deviceSubject(part.id)] : ['label:' + code, campaignSubject()], body: part ? { code } : { code, station: station.name } }]);
    fill(dock, box.element);
    feel('good');
    fill(more);
    flash(told, 'good', `${speech} is bound to ${part ? title(part) : station.name}.`, undoKey(told, facts));
  } }, 'Bind this label');
  const picks = h('div', {});
  const planned = () => phone.view.devices.filter(d => d.isPlanned).sort((a, b) => Boolean(a.label) - Boolean(b.label));
  const choose = what => {
    chosen = what;
    const name = what.part ? title(what.part) : what.station.name;
    act.setAttribute('aria-disabled', 'false');
    fill(picks, h('p', { class: 'next-act' }, name, h('small', {}, what.part ? what.part.kindLabel + (what.part.label ? ` · has label ${what.part.label} already` : '') : 'Station')), h('button', { type: 'button', class: 'plain', onclick: () => show(what.part ? 'device' : 'station') }, 'Another one'));
  };
  const show = sort => {
    chosen = undefined;
    act.setAttribute('aria-disabled', 'true');
    fill(picks, choice('It hangs on a', [['device', 'Device'], ['station', 'Station']], sort, show),
      // A label is bound to what is planned here; of what is not, the desk does it.
      sort === 'device' ? devicePicker('Name, serial or kind', planned(), part => choose({ part }))
        : h('div', { class: 'list' }, phone.view.stations.map(station => h('button', { type: 'button', class: 'key', onclick: () => choose({ station }) }, station.name, h('small', {}, station.label ? 'has a label already' : stateWords(station))))));
  };
  fill(more, picks);
  fill(dock, box.element, act);
  show('device');
};

export const find = {
  title: 'Find',
  caution: 'Flight line, rotors, vehicles, lightning: all cautions',
  open: ({ body, dock, param, go }) => {
    const box = scanBox();
    const [told, more] = [h('div', { role: 'status' }), h('div', {})];
    const about = found => {
      fill(dock, box.element);
      if (found.device) aboutDevice(told, more, found.device);
      else if (found.station) aboutStation(told, more, found.station);
      else bind(told, more, dock, box, found.code, found.spoken);
    };
    fill(body, told, more);
    fill(dock, box.element);
    const read = reader(told, about);
    if (!param) fill(more, h('p', { class: 'next-act' }, 'Scan anything', h('small', {}, 'Or type a code, a name or a serial.')));
    else if (phone.view.byId.has(param)) about({ device: phone.view.byId.get(param) });
    else read(param);
    // An address of its own for each thing, so that Back leads to the one before.
    listen(text => {
      const found = resolve(phone.view, text);
      const key = found.code ?? found.station?.name ?? found.device?.id;
      if (!key) { fill(more); read(text); } else go('#/find/' + encodeURIComponent(key));
    });
    return {};
  },
};
