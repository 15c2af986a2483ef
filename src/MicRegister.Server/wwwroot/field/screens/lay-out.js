import { h, fill, field, choice, numeric, clock } from '../dom.js';
import { phone, say, device as deviceSubject, campaignSubject, photoSaying } from '../phone.js';
import { concernsOf, verdictOf, kindsOf, isSingle, isOnPlate, mountWords, wordsOf, gapConcern } from '../judge.js';
import { stationOf, title } from '../kit.js';
import { scanBox, listen } from '../scan.js';
import { photoKey } from '../photos.js';
import { canLocate, isAllowed, follow, metres, inMetres } from '../position.js';
import { feel, flash, card, badge } from '../feel.js';
import { undoKey, draftOf, stationKeys, reader, showDevice, showUnknown, showWhy, stationFrom, placedWords } from '../parts.js';
import { spoken as speak } from '../labels.js';
import { allDrafts } from '../store.js';
import { stayAwake } from '../wake.js';

const FAR_M = 5;
let before;

const blank = station => ({ station, devices: [], unknownLabels: [], gap: '', flush: undefined, position: undefined, remark: '', photos: [], at: Date.now() });

const list = async ({ body, dock, go }) => {
  const box = scanBox();
  const told = h('div', { role: 'status' });
  const shown = h('div', {});
  const begun = new Set((await allDrafts()).filter(([key, d]) => key.startsWith('lay-out:') && d.devices.length + d.unknownLabels.length > 0).map(([, d]) => d.station));
  const show = () => {
    const open = phone.view.stations.filter(s => s.state === 'planned' || begun.has(s.name)).sort((a, b) => begun.has(b.name) - begun.has(a.name));
    const done = phone.view.stations.filter(s => !open.includes(s));
    fill(shown,
      open.length > 0 ? h('p', { class: 'next-act' }, begun.has(open[0].name) ? 'Go on here' : 'Next station', h('small', {}, 'Or scan any station label or any part.')) : h('p', { class: 'next-act' }, 'All stations are placed', h('small', {}, 'Scan a part to look at its station.')),
      stationKeys(open, s => '#/lay-out/' + encodeURIComponent(s.name), s => begun.has(s.name) ? 'begun' : mountWords(phone.view, s), true),
      done.length > 0 && h('details', {}, h('summary', {}, `Done: ${done.length}`), stationKeys(done, s => '#/lay-out/' + encodeURIComponent(s.name), placedWords)));
  };
  fill(body, told, shown);
  fill(dock, box.element);
  if (before) {
    const { text, facts } = before;
    before = undefined;
    flash(told, 'good', text, undoKey(told, facts));
  }
  show();
  listen(reader(told, found => {
    const at = stationFrom(found);
    if (at.why) { showWhy(told, at.why + ' Choose the station first, then scan.'); return; }
    if (at.device) carried = at.device.id;
    go('#/lay-out/' + encodeURIComponent(at.name));
  }));
  return { changed: show };
};

let carried;

const work = async ({ body, heading, dock, go }, name) => {
  const station = stationOf(phone.view, name);
  if (!station) { fill(body, h('p', {}, `There is no station ${name} in this campaign.`), h('a', { class: 'plain', href: '#/lay-out' }, 'All stations')); return undefined; }
  heading.textContent = `${name}: ${mountWords(phone.view, station)}`;
  const draft = await draftOf('lay-out:' + name, blank(name));
  const d = draft.value;
  const { limits = {} } = phone.view;
  const told = h('div', { role: 'status' });
  const [next, slots, place, pictures] = Array.from({ length: 4 }, () => h('div', {}));
  const box = scanBox();
  const placed = h('button', { type: 'button', class: 'act', onclick: () => finish() }, 'Placed');
  let isBusy = false;
  // A position that comes in while the fact is written must not bring the draft back.
  const keep = () => { if (!isBusy) { d.at = Date.now(); draft.keep(); } };
  const find = id => phone.view.byId.get(id);
  const local = () => phone.view;
  const open = () => {
    const missing = [];
    const have = d.devices.map(id => find(id)?.kind);
    for (const kind of kindsOf(phone.view, station)) { const at = have.indexOf(kind); if (at >= 0) have.splice(at, 1); else missing.push(kind); }
    return missing;
  };
  const plannedFor = kind => station.planned.map(find).find(p => p?.kind === kind && !d.devices.includes(p.id));
  const kindWords = kind => wordsOf(phone.view, 'kinds', kind).toLowerCase();
  const needs = () => station.mount === 'inverted-plate' ? numeric(d.gap) === undefined ? 'Measure the gap' : undefined : station.mount === 'flush-plate' && d.flush === undefined ? 'Is it flush?' : undefined;

  const show = () => {
    const missing = open();
    const planned = missing.length > 0 ? plannedFor(missing[0]) : undefined;
    const isDone = missing.length === 0 && !needs();
    placed.className = isDone ? 'act' : 'act later';
    fill(next, h('p', { class: 'next-act' }, missing.length > 0 ? `Scan the ${kindWords(missing[0])}` : needs() ?? 'Press Placed',
      h('small', {}, missing.length > 0 ? planned ? `Planned: ${title(planned)}` : `${missing.length} to go` : d.unknownLabels.length > 0 ? 'With an unknown label' : 'All parts are in.')),
      missing.length > 0 && planned && h('button', { type: 'button', class: 'plain', onclick: () => take({ device: planned }) }, `No label to scan: take ${planned.name}`));
    fill(slots, h('ul', { class: 'rows', 'aria-label': 'Parts of this chain' },
      d.devices.map(id => {
        const part = find(id);
        if (!part) return null;
        return h('li', {}, h('span', { class: 'grow' }, h('span', { class: 'what' }, badge(verdictOf(concernsOf(phone.view, local(), name, d.devices, id))), ' ' + part.kindLabel), h('strong', {}, title(part))),
          h('button', { type: 'button', class: 'plain', 'aria-label': `Take off ${part.name}`, onclick: () => { d.devices = d.devices.filter(o => o !== id); keep(); feel(); fill(told); show(); } }, 'Take off'));
      }),
      d.unknownLabels.map(code => h('li', {}, h('span', { class: 'grow' }, h('span', { class: 'what' }, badge('look'), ' Unknown label'), h('strong', {}, speak(code))),
        h('button', { type: 'button', class: 'plain', 'aria-label': `Take off label ${speak(code)}`, onclick: () => { d.unknownLabels = d.unknownLabels.filter(o => o !== code); keep(); show(); } }, 'Take off'))),
      missing.map(kind => h('li', {}, h('span', { class: 'grow' }, h('span', { class: 'what' }, 'to come'), kindWords(kind)), plannedFor(kind) && h('span', {}, plannedFor(kind).name)))));
  };

  const take = found => {
    if (found.station) {
      if (found.station.name === name) { fill(told, card({ kind: 'Station', name, verdict: 'good' })); feel('good'); } else go('#/lay-out/' + encodeURIComponent(found.station.name));
      return;
    }
    if (!found.device) {
      if (!d.unknownLabels.includes(found.code)) d.unknownLabels.push(found.code);
      keep();
      showUnknown(told, found.code, found.spoken, 'It is taken along as it is; the desk can tell later what it was.');
      show();
      return;
    }
    const part = found.device;
    if (d.devices.includes(part.id)) { showDevice(told, part, 'good', ['It is in this chain already.']); return; }
    const concerns = concernsOf(phone.view, local(), name, d.devices, part.id);
    showDevice(told, part, verdictOf(concerns), concerns.map(c => c.text));
    if (part.kind === 'sound-calibrator') return;
    if (isSingle(part.kind)) d.devices = d.devices.filter(id => find(id)?.kind !== part.kind);
    d.devices.push(part.id);
    keep();
    show();
  };

  const gapHint = limits.gapMm === undefined ? undefined : `Wanted: ${limits.gapMm}${limits.gapToleranceMm === undefined ? '' : ` ± ${limits.gapToleranceMm}`} mm`;
  const measured = () => {
    if (station.mount === 'inverted-plate') return field('Measured gap in mm', d.gap, v => { d.gap = v; keep(); show(); }, { inputmode: 'decimal', hint: gapHint });
    if (station.mount === 'flush-plate') return choice('Flush with the plate', [['yes', 'Yes'], ['no', 'No']], d.flush === undefined ? undefined : d.flush ? 'yes' : 'no', v => { d.flush = v === 'yes'; keep(); show(); });
    return null;
  };

  const fromPlan = () => d.position && station.latitudeDeg !== undefined ? metres(d.position, station) : undefined;
  const showPlace = problem => {
    const far = fromPlan();
    fill(place, d.position
      ? h('p', {}, far > Math.max(FAR_M, 2 * d.position.accuracyM) ? h('strong', {}, '▲ ') : '● ', far === undefined ? 'Position taken' : h('strong', {}, inMetres(far) + ' from the plan'), ` (phone: ± ${inMetres(d.position.accuracyM)})`)
      : problem ? h('p', {}, problem) : canLocate() && h('p', { class: 'quiet' }, stop ? 'Waiting for the position…' : ''),
    canLocate() && !stop && h('button', { type: 'button', class: 'plain', onclick: locate }, d.position ? 'Position again' : 'Take position'));
  };
  let stop;
  const locate = () => {
    stop?.();
    stop = follow(found => { const { at, ...rest } = found; d.position = rest; keep(); showPlace(); }, problem => { stop?.(); stop = undefined; showPlace(problem); });
    showPlace();
  };

  const showPictures = problem => fill(pictures, d.photos.map((photo, i) => h('p', {}, `Photo ${i + 1} is kept. `, h('button', { type: 'button', class: 'plain', 'aria-label': `Remove photo ${i + 1}`, onclick: () => { d.photos.splice(i, 1); keep(); showPictures(); } }, 'Remove'))),
    problem && h('p', {}, problem), photoKey(photo => { d.photos.push(photo); keep(); showPictures(); }, showPictures));

  const concernsOfAll = () => {
    const texts = concernsOf(phone.view, local(), name, d.devices).filter(c => c.gravity !== 'note').map(c => c.text);
    const gap = numeric(d.gap);
    const wrong = gapConcern(limits, station, gap);
    if (wrong) texts.push(wrong.text);
    if (station.mount === 'flush-plate' && d.flush === false) texts.push('The microphone is not flush with its plate.');
    const far = fromPlan();
    if (far !== undefined && far > Math.max(FAR_M, 2 * d.position.accuracyM)) texts.push(`The phone was ${inMetres(far)} from the planned place (± ${inMetres(d.position.accuracyM)}).`);
    return texts;
  };

  const finish = async () => {
    if (isBusy) return;
    if (d.devices.length + d.unknownLabels.length === 0) { showWhy(told, 'Scan at least one part first.'); return; }
    if (d.gap.trim() && numeric(d.gap) === undefined) { showWhy(told, `“${d.gap}” is no gap: a number of mm, such as 7.0.`); return; }
    isBusy = true;
    await draft.settled();
    const concerns = concernsOfAll();
    const channel = d.devices.map(find).find(p => p?.kind === 'recorder-channel');
    const photos = d.photos.map(p => ({ ...p }));
    const range = Number(channel?.details?.['range-v']);
    const facts = await say([
      { kind: 'chain-placed', version: 2, subjects: [campaignSubject(), ...d.devices.map(deviceSubject), ...d.unknownLabels.map(c => 'label:' + c)],
        body: { station: name, devices: d.devices, unknownLabels: d.unknownLabels, gapMm: numeric(d.gap), isFlush: d.flush, position: d.position, rangeV: range > 0 ? range : undefined, concerns, remark: d.remark.trim() || undefined } },
      ...photos.map(p => photoSaying(p, { station: name, devices: d.devices, place: phone.hasPhotoPlace ? d.position : undefined })),
    ], { draft: 'lay-out:' + name, photos });
    before = { text: `${name} is placed${concerns.length > 0 ? `, with ${concerns.length} to look at` : ''}.`, facts };
    navigator.vibrate?.(60);
    go('#/lay-out');
  };

  const already = station.placed && h('p', {}, h('strong', {}, '▲ '), `Placed at ${clock(station.placed.at)} by ${station.placed.by}. Placing it again replaces that; for one part use `, h('a', { href: '#/swap/' + encodeURIComponent(name) }, 'Swap'), '.');
  fill(body, told, already, next, slots, measured(), place, h('details', {}, h('summary', {}, 'Remark and photo'), field('Remark', d.remark, v => { d.remark = v; keep(); }, { rows: 2 }), pictures));
  fill(dock, box.element, placed);
  show();
  showPlace();
  showPictures();
  const awake = stayAwake();
  if (canLocate() && await isAllowed()) locate();
  listen(reader(told, take));
  if (carried) { const part = find(carried); carried = undefined; if (part) take({ device: part }); }
  return { close: () => { stop?.(); awake(); }, changed: show };
};

export const layOut = {
  title: 'Lay out',
  caution: 'Flight line, rotors, vehicles, lightning: all cautions',
  open: context => context.param ? work(context, context.param) : list(context),
};
