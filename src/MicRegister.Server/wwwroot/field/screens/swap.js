import { h, fill, field, choice, tick, numeric } from '../dom.js';
import { phone, say, device as deviceSubject, campaignSubject } from '../phone.js';
import { concernsOf, verdictOf } from '../judge.js';
import { stationOf, title } from '../kit.js';
import { scanBox, listen } from '../scan.js';
import { draftOf, reader, showDevice, showUnknown, showWhy, partName, placedList } from '../parts.js';
import { spoken as speak } from '../labels.js';

let before;
let carried;

const list = context => placedList(context, {
  address: '#/swap/',
  words: count => count > 0 ? ['Scan the part that failed', 'Or choose its station.'] : ['Nothing is placed yet'],
  last: () => { const done = before; before = undefined; return done; },
  carry: id => { carried = id; },
  more: 'Lay the station out again with the part that is there.',
});

const work = async ({ body, heading, dock, go }, name) => {
  const station = stationOf(phone.view, name);
  if (!station?.placed) { fill(body, h('p', {}, station ? `Nothing is placed at ${name}.` : `There is no station ${name} in this campaign.`), h('a', { class: 'plain', href: station ? '#/lay-out/' + encodeURIComponent(name) : '#/swap' }, station ? 'Lay it out' : 'All stations')); return undefined; }
  heading.textContent = `Swap at ${name}`;
  const chain = station.placed.devices;
  const draft = await draftOf('swap:' + name, { out: undefined, in: undefined, label: undefined, reason: '', isFaulty: true, isOut: true, gap: '', flush: undefined });
  const d = draft.value;
  // Somebody else may have swapped it meanwhile.
  if (d.out && !chain.includes(d.out)) Object.assign(d, { out: undefined, in: undefined, label: undefined });
  if (carried && chain.includes(carried)) d.out = carried;
  carried = undefined;
  const [told, form] = [h('div', { role: 'status' }), h('div', {})];
  const box = scanBox();
  const find = id => phone.view.byId.get(id);
  let isBusy = false;
  const keep = () => { if (!isBusy) draft.keep(); };
  const rest = () => chain.filter(id => id !== d.out);
  const swapped = h('button', { type: 'button', class: 'act later', onclick: () => finish() }, 'Swapped');

  const show = () => {
    const isReady = d.out && (d.in || d.label);
    swapped.className = isReady ? 'act' : 'act later';
    swapped.setAttribute('aria-disabled', String(!isReady));
    if (!d.out) {
      fill(form, h('p', { class: 'next-act' }, 'Which part failed?', h('small', {}, 'Scan it, or press it.')), h('div', { class: 'list' }, chain.map(id => h('button', { type: 'button', class: 'key', onclick: () => { d.out = id; keep(); show(); } }, find(id) ? title(find(id)) : id, h('small', {}, find(id)?.kindLabel ?? 'not in this campaign')))));
      return;
    }
    const kind = find(d.out)?.kindLabel ?? 'part';
    const spares = phone.view.devices.filter(o => o.kind === find(d.out)?.kind && o.isSpare && o.status === 'in-service' && !phone.view.where.has(o.id));
    fill(form,
      h('p', { class: 'next-act' }, isReady ? 'Press Swapped' : `Scan the new ${kind.toLowerCase()}`, h('small', {}, isReady ? `In: ${d.in ? title(find(d.in)) : 'label ' + speak(d.label)}` : spares.length > 0 ? `Spares: ${spares.map(s => s.name).join(', ')}` : 'No spare of this kind is in the plan.')),
      h('p', { class: 'day-line' }, h('span', {}, `Out: ${partName(d.out)}`), h('button', { type: 'button', class: 'plain', onclick: () => { d.out = d.in = d.label = undefined; keep(); fill(told); show(); } }, 'Another part')),
      field('Reason', d.reason, v => { d.reason = v; keep(); }, { rows: 2, hint: 'Such as: no signal, humming, drifts' }),
      tick('It does not work: note a malfunction', d.isFaulty, v => { d.isFaulty = v; keep(); }),
      tick('Do not use it any more', d.isOut, v => { d.isOut = v; keep(); }),
      station.mount === 'inverted-plate' && field('Gap measured again, in mm', d.gap, v => { d.gap = v; keep(); }, { inputmode: 'decimal' }),
      station.mount === 'flush-plate' && choice('Flush with the plate', [['yes', 'Yes'], ['no', 'No']], d.flush === undefined ? undefined : d.flush ? 'yes' : 'no', v => { d.flush = v === 'yes'; keep(); }));
  };

  const take = found => {
    if (found.station) { if (found.station.name !== name) go('#/swap/' + encodeURIComponent(found.station.name)); return; }
    if (!d.out) {
      if (found.device && chain.includes(found.device.id)) { d.out = found.device.id; keep(); showDevice(told, found.device, 'look', ['This one goes out.']); show(); } else showWhy(told, `${found.device?.name ?? 'This label'} is no part of ${name}. First say which part failed.`);
      return;
    }
    if (!found.device) { Object.assign(d, { label: found.code, in: undefined }); keep(); showUnknown(told, found.code, found.spoken, 'It goes in as it is; the desk can tell later what it was.'); show(); return; }
    const part = found.device;
    if (chain.includes(part.id)) { showWhy(told, part.id === d.out ? `${part.name} is the one that goes out. Scan the new one.` : `${part.name} is in this chain already.`); return; }
    const concerns = concernsOf(phone.view, phone.view, name, rest(), part.id);
    if (find(d.out) && part.kind !== find(d.out).kind) concerns.unshift({ gravity: 'stops', text: `${part.name} is a ${part.kindLabel.toLowerCase()}; what goes out is a ${find(d.out).kindLabel.toLowerCase()}.` });
    showDevice(told, part, verdictOf(concerns), concerns.map(c => c.text));
    Object.assign(d, { in: part.id, label: undefined });
    keep();
    show();
  };

  const finish = async () => {
    if (isBusy) return;
    if (!d.out || !(d.in || d.label)) { showWhy(told, d.out ? 'Scan the new part first.' : 'First say which part failed.'); return; }
    if (!d.reason.trim()) { showWhy(told, 'Write the reason: the desk decides by it what happened to the data.'); return; }
    if (d.gap.trim() && numeric(d.gap) === undefined) { showWhy(told, `“${d.gap}” is no gap: a number of mm, such as 7.0.`); return; }
    isBusy = true;
    await draft.settled();
    const [devices, unknownLabels, reason] = [d.in ? [...rest(), d.in] : rest(), [...(station.placed.unknownLabels ?? []), ...(d.label ? [d.label] : [])], d.reason.trim()];
    const concerns = concernsOf(phone.view, phone.view, name, devices).filter(c => c.gravity !== 'note').map(c => c.text);
    const range = Number(devices.map(find).find(p => p?.kind === 'recorder-channel')?.details?.['range-v']);
    const facts = await say([
      { kind: 'chain-placed', version: 2, subjects: [campaignSubject(), ...devices.map(deviceSubject), deviceSubject(d.out), ...unknownLabels.map(c => 'label:' + c)],
        // Without the new one's id there is no swap to state between two devices; its label and the reason say it.
        body: { station: name, devices, unknownLabels, gapMm: numeric(d.gap), isFlush: d.flush, rangeV: range > 0 ? range : undefined, swap: d.in ? { out: d.out, in: d.in, reason } : undefined, concerns, remark: d.in ? undefined : `${partName(d.out)} was swapped for what bears label ${speak(d.label)}: ${reason}` } },
      ...(d.isFaulty ? [{ kind: 'device-serviced', subjects: [deviceSubject(d.out)], body: { what: 'malfunction', text: `${name}: ${reason}`, beginsAnew: false } }] : []),
      ...(d.isOut ? [{ kind: 'device-status-changed', subjects: [deviceSubject(d.out)], body: { status: 'out-of-service', reason: `${name}: ${reason}` } }] : []),
    ], { draft: 'swap:' + name });
    before = { text: `${name}: ${find(d.out)?.name ?? 'the part'} is out, ${d.in ? find(d.in).name : speak(d.label)} is in.`, facts };
    go('#/swap');
  };

  fill(body, told, form);
  fill(dock, box.element, swapped);
  show();
  listen(reader(told, take));
  return {};
};

export const swap = { title: 'Swap', caution: 'Switch polarisation off before a capsule is unscrewed. All cautions', open: context => context.param ? work(context, context.param) : list(context) };
