import { h, fill, dayAndClock, plural } from '../dom.js';
import { phone, reread, takeBack } from '../phone.js';
import { status, flush } from '../sync.js';
import { putOutbox, dropOutbox, dropPhoto, putPhoto } from '../store.js';
import { flash } from '../feel.js';
import { spoken } from '../labels.js';
import { wordsOf } from '../judge.js';
import { number, signed } from '../quantity.js';

const MOST = 100;
const name = id => phone.view?.byId.get(id)?.name ?? id;
const subject = fact => name(fact.subjects.find(s => s.startsWith('device:'))?.slice(7));

const SENTENCES = {
  'chain-placed': f => f.body.swap ? `${f.body.station}: ${name(f.body.swap.in)} in for ${name(f.body.swap.out)}` : `${f.body.station} placed: ${[...f.body.devices.map(name), ...f.body.unknownLabels.map(spoken)].join(', ')}`,
  'chain-taken-in': f => `${f.body.station} taken in${f.body.missing.length > 0 ? `, missing ${f.body.missing.map(name).join(', ')}` : ''}`,
  'chain-checked': f => `${f.body.station} checked ${wordsOf(phone.view, 'moments', f.body.moment)}`
    + (f.body.deviationDb === undefined ? '' : `: ${signed(f.body.deviationDb, 2)} dB`),
  'tone-noted': f => `${f.body.station}: tone on the recorder, ${wordsOf(phone.view, 'moments', f.body.moment)}`,
  'device-serviced': f => `${subject(f)}: ${wordsOf(phone.view, 'services', f.body.what)}, ${f.body.text}`,
  'device-status-changed': f => `${subject(f)} is ${wordsOf(phone.view, 'statuses', f.body.status)}: ${f.body.reason}`,
  'device-noted': f => `${subject(f)}: ${f.body.text}`,
  'label-bound': f => `Label ${spoken(f.body.code)} bound to ${f.body.station ?? subject(f)}`,
  'photo-taken': f => `Photo${f.body.station ? ' at ' + f.body.station : ''}${f.body.text ? ': ' + f.body.text : ''}`,
  'weather-noted': ({ body: { pressureKPa, temperatureC, humidityPercent } }) => 'Weather: ' + [
    pressureKPa && number(pressureKPa, 2) + ' kPa',
    temperatureC !== undefined && number(temperatureC, 1) + ' °C',
    humidityPercent !== undefined && humidityPercent + ' %',
  ].filter(Boolean).join(', '),
  'fact-annulled': (f, all) => { const target = all.find(o => o.id === f.body.target); return `Taken back: ${target ? sentence(target, all) : 'an earlier entry'}`; },
};
const sentence = (fact, all) => { try { return SENTENCES[fact.kind]?.(fact, all) ?? fact.kind; } catch { return fact.kind; } };

const PROBLEMS = {
  conflict: 'The register holds something else under the same number. Both are shown; a person at the desk has to decide.',
  unreadable: 'The register could not read it and put it aside.',
  refused: 'The register did not take it.',
};

const readable = value => typeof value === 'string' ? value : JSON.stringify(value, null, 1);

const download = (blob, file) => {
  const address = URL.createObjectURL(blob);
  const link = h('a', { href: address, download: file });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
};

/** Everything that is not sent, as one file: a fact a line, in the bytes that would have been sent. */
const handOver = async told => {
  const items = [...phone.outbox].sort((a, b) => a.at - b.at || a.fact.counter - b.fact.counter);
  const who = (phone.crew || phone.me?.person || phone.kit?.kit.speaker.client || 'phone').replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-+|-+$/g, '') || 'phone';
  download(new Blob(items.map(i => i.line + '\n'), { type: 'application/x-ndjson' }), `${who}-${new Date().toISOString().slice(0, 16).replace(/:/g, '')}.facts.ndjson`);
  for (const item of items) await putOutbox({ ...item, handedOverAt: Date.now() });
  await reread();
  flash(told, 'good', `${plural(items.length, 'entry', 'entries')} handed over as a file. They stay here until the register has them.`);
};

export const said = {
  title: 'Said',
  isFree: true,
  open: ({ body, dock }) => {
    const [told, shown] = [h('div', { role: 'status' }), h('div', {})];
    const send = h('button', { type: 'button', class: 'act', onclick: async () => { send.disabled = true; await flush(); await reread(); send.disabled = false; } }, 'Send now');
    const hand = h('button', { type: 'button', class: 'plain', onclick: () => handOver(told) }, 'Hand over');
    const show = () => {
      if (phone.unsent === undefined) { fill(shown, h('p', {}, '…')); return; }
      const facts = [...phone.outbox, ...phone.sent].map(i => i.fact);
      const annulled = new Set(facts.filter(f => f.kind === 'fact-annulled').map(f => f.body.target));
      const newest = (a, b) => a.fact.at < b.fact.at ? 1 : a.fact.at > b.fact.at ? -1 : b.fact.counter - a.fact.counter;
      const problems = phone.outbox.filter(i => i.state !== 'waiting').sort(newest);
      const waiting = phone.outbox.filter(i => i.state === 'waiting').sort(newest);
      const sent = [...phone.sent].sort(newest);
      const undo = fact => fact.kind !== 'fact-annulled' && !annulled.has(fact.id) && phone.kit && h('button', { type: 'button', class: 'plain', 'aria-label': `Undo: ${sentence(fact, facts)}`, onclick: () => takeBack([fact], 'Undone on the phone') }, 'Undo');
      const line = ({ fact }) => h('li', {}, h('span', { class: 'grow' }, h('span', { class: 'what' }, dayAndClock(fact.at) + (annulled.has(fact.id) ? ' · taken back' : '')), sentence(fact, facts)), undo(fact));
      const problem = item => h('li', {}, h('div', { class: 'grow' }, h('span', { class: 'what' }, dayAndClock(item.fact.at)), h('strong', {}, '■ ' + sentence(item.fact, facts)), h('p', {}, `${PROBLEMS[item.state]} ${item.why ?? ''}`),
        item.state === 'conflict' && [h('p', {}, 'This phone: ', h('strong', {}, sentence(item.fact, facts))), h('p', {}, 'The register: ', h('strong', {}, item.now?.kind ? sentence(item.now, facts) : 'it did not say')),
          h('details', {}, h('summary', {}, 'Both, word for word'), h('div', { class: 'said-text' }, readable(item.fact)), h('div', { class: 'said-text' }, readable(item.now ?? '')))],
        h('div', { class: 'buttons' }, h('button', { type: 'button', class: 'plain', 'aria-label': `Try again: ${sentence(item.fact, facts)}`, onclick: async () => { await putOutbox({ ...item, state: 'waiting', why: undefined, now: undefined }); await reread(); flush(); } }, 'Try again'),
          item.handedOverAt ? h('button', { type: 'button', class: 'plain', 'aria-label': `Drop from this phone: ${sentence(item.fact, facts)}`, onclick: async () => { await dropOutbox(item.id); await reread(); } }, 'Drop from this phone') : h('span', { class: 'hint' }, 'Hand over first; then it can be dropped.'))));
      const photo = p => h('li', {}, h('span', { class: 'grow' }, `${dayAndClock(p.at)}, ${Math.round(p.blob.size / 1024)} kB`, p.why && h('p', {}, '■ ' + p.why)), h('button', { type: 'button', class: 'plain', 'aria-label': `Save photo of ${dayAndClock(p.at)}`, onclick: () => { download(p.blob, p.sha256.slice(0, 12) + '.jpg'); if (p.why) putPhoto({ ...p, isSaved: true }).then(reread); } }, 'Save'),
        p.why && p.isSaved && h('button', { type: 'button', class: 'plain', 'aria-label': `Drop photo of ${dayAndClock(p.at)}`, onclick: async () => { await dropPhoto(p.sha256); await reread(); } }, 'Drop'));
      fill(shown,
        h('p', { class: 'next-act' }, phone.unsent === 0 && phone.photos.length === 0 ? 'All is sent' : phone.unsent === 0 ? plural(phone.photos.length, 'photo') + ' to send' : `${phone.unsent} not sent`, h('small', {}, status.isRunning ? 'Sending…' : status.problem ?? (status.at ? `Last contact ${dayAndClock(status.at)}` : 'Not tried yet'))),
        phone.outbox.length > 0 && h('p', {}, hand, ' as a file, without any network'),
        problems.length > 0 && [h('h2', {}, 'Needs a person'), h('ul', { class: 'rows' }, problems.map(problem))],
        waiting.length > 0 && [h('h2', {}, `Waiting: ${waiting.length}`), h('ul', { class: 'rows' }, waiting.map(line))],
        phone.photos.length > 0 && [h('h2', {}, `Photos waiting: ${phone.photos.length}`), h('ul', { class: 'rows' }, phone.photos.map(photo))],
        sent.length > 0 && [h('h2', {}, `Sent: ${sent.length}`), h('ul', { class: 'rows' }, sent.slice(0, MOST).map(line)), sent.length > MOST && h('p', {}, `${sent.length - MOST} earlier ones are not shown.`)]);
    };
    fill(body, told, shown);
    fill(dock, send);
    show();
    return { changed: show };
  },
};
