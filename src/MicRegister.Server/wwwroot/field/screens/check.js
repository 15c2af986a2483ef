import { h, fill, field, numeric, clock } from '../dom.js';
import { phone, say, device as deviceSubject, campaignSubject } from '../phone.js';
import { stationOf } from '../kit.js';
import { workOut, judge, localDay } from '../check.js';
import { concernsOf, verdictOf, wordsOf, capital } from '../judge.js';
import { number, signed, expanded, difference } from '../quantity.js';
import { scanBox, listen } from '../scan.js';
import { feel, flash, SHAPES } from '../feel.js';
import { get, setMeta } from '../store.js';
import { undoKey, draftOf, stationKeys, reader, showDevice, showWhy, stationFrom, partName, placedWords, stateWords } from '../parts.js';
import { wrongSetUp, pressureOf, setUpForm } from './check-day.js';

const momentWords = moment => wordsOf(phone.view, 'moments', moment);
const UNITS = { voltage: 'mV', indicated: 'dB' };
const WORDS = { conforms: ['good', 'accept'], undecided: ['look', 'undecidable'], 'does-not-conform': ['stop', 'reject'] };
let before;

const today = () => localDay(Date.now(), phone.view.campaign.offsets);
const isDone = (station, moment) => station.checks.some(c => c.day === today() && c.moment === moment && (!station.placed || c.at >= station.placed.at)) || (station.tones ?? []).some(t => t.moment === moment);
const keptDay = async () => { const kept = await get('meta', 'check-day:' + phone.campaign); return kept?.day === today() ? kept : undefined; };
const inDb = value => signed(value, 2) + ' dB';
const airOf = day => { const air = { pressureKPa: pressureOf(day.pressure), temperatureC: numeric(day.temperature), humidityPercent: numeric(day.humidity) }; return Object.values(air).some(v => v !== undefined) ? air : undefined; };

/** The figures that a person typed, as the register takes them: volts, not millivolts. */
const valuesOf = (day, texts) => texts.map(numeric).filter(v => v !== undefined).map(v => day.method === 'voltage' ? Number((v / 1000).toPrecision(12)) : v);

const entryOf = (day, station, devices, readings, remark) => ({
  campaign: phone.view.campaign.id, station: station.name, at: new Date().toISOString(), moment: day.moment, devices, calibrator: day.calibrator, adapter: day.adapter || undefined,
  nominalDb: day.level ? Number(day.level.split('|')[0]) : undefined, frequencyHz: day.level ? Number(day.level.split('|')[1]) || undefined : undefined,
  air: airOf(day), estimatePressure: airOf(day)?.pressureKPa === undefined ? true : undefined, method: day.method, readings, remark: remark.trim() || undefined,
});

const dayLine = day => {
  const named = (id, gone) => phone.view.byId.get(id)?.name ?? gone;
  const pressure = pressureOf(day.pressure);
  const kit = named(day.calibrator, 'calibrator gone') + (day.adapter ? ' with ' + named(day.adapter, 'adapter') : '');
  const air = (pressure === undefined ? 'no pressure' : number(pressure, 2) + ' kPa') + (day.temperature ? ` · ${day.temperature} °C` : '');
  return h('p', { class: 'day-line' }, h('span', {}, h('strong', {}, capital(momentWords(day.moment))), ` · ${kit} · ${air}`),
    h('a', { class: 'plain', href: '#/check/day' }, 'Change'));
};

const setUp = async ({ body, heading, dock, go }) => {
  heading.textContent = 'Check: once for today';
  const last = await get('meta', 'check-day:' + phone.campaign);
  const fresh = { moment: 'before', calibrator: '', adapter: '', level: '', method: 'voltage', pressure: '', temperature: '', humidity: '' };
  // The calibrator and the way of reading stay from day to day; the air does not.
  const draft = await draftOf('check-day', last?.day === today() ? last : { ...fresh, ...last, pressure: '', temperature: '', humidity: '', moment: 'before' });
  const d = draft.value;
  const [told, form] = [h('div', { role: 'status' }), h('div', {})];
  const box = scanBox();
  const show = () => fill(form, setUpForm(d, () => draft.keep(), show));
  const begin = async () => {
    const why = wrongSetUp(d, (station, reading) => workOut(phone.view, entryOf(d, station, station.placed?.devices ?? station.planned, [reading], '')).why);
    if (why) { showWhy(told, why); told.scrollIntoView({ block: 'center' }); return; }
    await draft.settled();
    const air = airOf(d);
    const isNew = air && JSON.stringify(air) !== last?.said;
    await setMeta('check-day:' + phone.campaign, { ...d, day: today(), said: air ? JSON.stringify(air) : undefined });
    if (isNew) await say([{ kind: 'weather-noted', subjects: [campaignSubject()], body: air }], { draft: 'check-day' });
    else await draft.drop();
    go('#/check');
  };
  fill(body, told, form);
  fill(dock, box.element, h('button', { type: 'button', class: 'act', onclick: begin }, 'Start checking'));
  show();
  listen(reader(told, found => {
    const part = found.device;
    if (part?.kind === 'sound-calibrator') { d.calibrator = part.id; d.level = ''; } else if (part?.kind === 'calibration-adapter') d.adapter = part.id;
    else { showWhy(told, part ? `${part.name} is no calibrator and no adapter.` : 'This label is that of no calibrator and no adapter.'); return; }
    const concerns = concernsOf(phone.view, undefined, undefined, [part.id]);
    showDevice(told, part, verdictOf(concerns), concerns.map(c => c.text));
    draft.keep();
    show();
  }));
  return {};
};

const list = async ({ body, dock, go }, day) => {
  const box = scanBox();
  const [told, shown] = [h('div', { role: 'status' }), h('div', {})];
  const show = () => {
    const placed = phone.view.stations.filter(s => s.placed);
    const open = placed.filter(s => !isDone(s, day.moment));
    const done = placed.filter(s => isDone(s, day.moment));
    fill(shown, dayLine(day), h('p', { class: 'next-act' }, open.length > 0 ? 'Next to check' : placed.length > 0 ? 'All are checked' : 'Nothing is placed yet', h('small', {}, 'Or scan any part of a chain.')),
      stationKeys(open, s => '#/check/' + encodeURIComponent(s.name), placedWords, true),
      done.length > 0 && h('details', {}, h('summary', {}, `Checked, ${momentWords(day.moment)}: ${done.length}`),
        stationKeys(done, s => '#/check/' + encodeURIComponent(s.name), stateWords)));
  };
  fill(body, told, shown);
  fill(dock, box.element);
  if (before) {
    const { text, verdict, facts } = before;
    before = undefined;
    flash(told, verdict, text, undoKey(told, facts));
  }
  show();
  listen(reader(told, found => { const at = stationFrom(found); if (at.why) showWhy(told, at.why); else go('#/check/' + encodeURIComponent(at.name)); }));
  return { changed: show };
};

const outcome = (check, judged) => {
  const [verdict, word] = WORDS[judged.verdict] ?? [undefined, 'not judged: no limit is set'];
  const main = check.deviationDb ?? check.indicatedDb;
  return [
    h('p', { class: 'figure' },
      main === undefined ? 'No deviation: the certificates say too little' : `${difference(main, check.expandedDb)} dB`,
      main !== undefined && h('span', { class: 'kind' },
        `± ${expanded(check.expandedDb)} dB, ${check.deviationDb === undefined ? 'indicated minus true' : 'from its certificates'}`)),
    h('p', {}, verdict ? h('span', { class: 'badge ' + verdict }, h('span', { 'aria-hidden': 'true' }, SHAPES[verdict][0] + ' '), word) : word),
    h('ul', {},
      judged.comparisons.map(c => h('li', {},
        `${capital(c.what)}: ${c.key === 'check-spread-db' ? number(c.differenceDb, 2) + ' dB' : inDb(c.differenceDb)}`
          + (c.limitDb === undefined ? '' : `, limit ${c.limitDb} dB`) + (c.verdict ? `: ${WORDS[c.verdict][1]}` : ''))),
      check.calibratorTerms.filter(t => t.remark).map(t => h('li', {}, `${t.name[0].toUpperCase()}${t.name.slice(1)}: ${t.remark}`))),
  ];
};

const work = async ({ body, heading, dock, go }, name, day) => {
  const station = stationOf(phone.view, name);
  if (!station) { fill(body, h('p', {}, `There is no station ${name} in this campaign.`), h('a', { class: 'plain', href: '#/check' }, 'All stations')); return undefined; }
  heading.textContent = `Check ${name}`;
  const devices = station.placed?.devices?.length > 0 ? station.placed.devices : station.planned;
  const draft = await draftOf('check:' + name, { readings: [''], remark: '' });
  const d = draft.value;
  const [told, inputs, result] = [h('div', { role: 'status' }), h('div', {}), h('div', { role: 'status' })];
  const box = scanBox();
  const isTone = day.method === 'recording';
  let check;
  let judged;
  let isBusy = false;
  const keep = () => { if (!isBusy) draft.keep(); };

  let pause;
  // An old verdict must not stand under a new reading, not even while it is typed.
  const later = () => { clearTimeout(pause); feel(); fill(result, h('p', { class: 'figure' }, '…')); pause = setTimeout(work, 300); };
  const work = () => {
    clearTimeout(pause);
    pause = undefined;
    check = judged = undefined;
    const typed = d.readings.filter(r => r.trim());
    const bad = typed.find(r => numeric(r) === undefined);
    feel();
    store.setAttribute('aria-disabled', String(!isTone));
    if (typed.length === 0 || isTone) { fill(result); return; }
    if (bad !== undefined) { fill(result, h('p', {}, `■ “${bad}” is no number.`)); return; }
    const answer = workOut(phone.view, entryOf(day, station, devices, valuesOf(day, d.readings), d.remark));
    if (answer.why) { fill(result, h('p', {}, h('strong', {}, '■ '), answer.why)); return; }
    ({ check } = answer);
    judged = judge(phone.view, check, { fact: 'this one', at: new Date().toISOString() });
    store.setAttribute('aria-disabled', 'false');
    fill(result, outcome(check, judged));
    feel(WORDS[judged.verdict]?.[0], true);
  };

  const show = () => fill(inputs, d.readings.map((r, i) => field(d.readings.length === 1 ? `Reading in ${UNITS[day.method]}` : `Reading ${i + 1} in ${UNITS[day.method]}`, r, v => { d.readings[i] = v; keep(); later(); }, { inputmode: 'decimal', enterkeyhint: 'done' })),
    d.readings.length < 20 && h('button', { type: 'button', class: 'plain', onclick: () => { d.readings.push(''); keep(); show(); inputs.querySelectorAll('input')[d.readings.length - 1].focus(); } }, 'One more insertion'));

  const finish = async () => {
    if (pause) work();
    if (isBusy || (!isTone && !check)) { if (!isBusy && !result.textContent) fill(result, h('p', {}, 'Type a reading first.')); return; }
    isBusy = true;
    await draft.settled();
    navigator.vibrate?.(judged?.verdict === 'does-not-conform' ? [500, 150, 500] : 60);
    const subjects = [campaignSubject(), ...devices.map(deviceSubject), deviceSubject(day.calibrator), ...(day.adapter ? [deviceSubject(day.adapter)] : [])];
    const saying = isTone
      ? { kind: 'tone-noted', subjects, body: { station: name, moment: day.moment, devices, calibrator: day.calibrator, adapter: day.adapter || undefined, air: airOf(day), remark: d.remark.trim() || undefined } }
      : { kind: 'chain-checked', version: 2, subjects, body: { ...check, remark: d.remark.trim() || undefined } };
    const [verdict, word] = WORDS[judged?.verdict] ?? ['good', ''];
    const facts = await say([saying], { draft: 'check:' + name });
    before = { verdict, facts, text: isTone ? `${name}: tone noted at ${clock(Date.now())}.`
      : `${name}: ${check.deviationDb === undefined ? 'stored' : inDb(check.deviationDb)}${word ? ', ' + word : ''}.` };
    go('#/check');
  };

  const store = h('button', { type: 'button', class: 'act', onclick: finish, 'aria-disabled': 'true' }, 'Store');
  fill(body, told,
    isTone ? h('p', { class: 'next-act' }, 'Let the tone run on the recorder', h('small', {}, `Then press Store. It is read from the recording at the desk.`)) : [h('p', { class: 'next-act' }, 'Type the reading'), inputs, result],
    dayLine(day),
    h('details', {}, h('summary', {}, station.placed ? 'The chain' : 'The chain as planned: nothing is placed here'), h('ul', {}, devices.map(id => h('li', {}, partName(id))))),
    h('details', {}, h('summary', {}, 'Remark'), field('Remark', d.remark, v => { d.remark = v; keep(); }, { rows: 2 })));
  fill(dock, box.element, store);
  if (!isTone) show();
  work();
  listen(reader(told, found => {
    const at = stationFrom(found);
    if (at.why) showWhy(told, at.why);
    else if (at.name === name) showDevice(told, found.device ?? { kindLabel: 'Station', name }, 'good', [`Belongs to ${name}.`]);
    else go('#/check/' + encodeURIComponent(at.name));
  }));
  return { close: () => clearTimeout(pause) };
};

export const check = {
  title: 'Check',
  caution: 'Calibrators are loud: never at the ear. All cautions',
  open: async context => {
    const day = await keptDay();
    if (!day || context.param === 'day') return setUp(context);
    return context.param ? work(context, context.param, day) : list(context, day);
  },
};
