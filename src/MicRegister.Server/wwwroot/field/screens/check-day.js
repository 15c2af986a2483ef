import { h, field, choice, select, numeric } from '../dom.js';
import { phone } from '../phone.js';
import { title } from '../kit.js';
import { capital, wordsOf } from '../judge.js';
import { number } from '../quantity.js';

/** Pressure in kPa, typed as kPa or as hPa: the two do not overlap. */
export const pressureOf = text => {
  const value = numeric(text);
  return value === undefined ? undefined : value >= 300 && value <= 1200 ? Number((value / 10).toPrecision(12)) : value;
};

/** What is wrong with the day's set-up, in words. */
export const wrongSetUp = (d, tryOut) => {
  if (!d.calibrator) return 'Scan or choose the calibrator.';
  if (d.pressure.trim() && numeric(d.pressure) === undefined) return `Pressure “${d.pressure}” is no number.`;
  if (d.temperature.trim() && numeric(d.temperature) === undefined) return `Temperature “${d.temperature}” is no number.`;
  if (d.humidity.trim() && numeric(d.humidity) === undefined) return `Humidity “${d.humidity}” is no number.`;
  if (d.method === 'recording') return undefined;
  // Told now rather than at every station; a part that nobody planned is told at its own.
  const isKnown = station => !station.placed?.devices.some(id => phone.view.byId.get(id)?.isStranger);
  const station = phone.view.stations.find(s => s.placed && isKnown(s))
    ?? phone.view.stations.find(s => s.planned.length > 0 && isKnown(s));
  return station && tryOut(station, d.method === 'voltage' ? 0.05 : 94);
};

export const setUpForm = (d, keep, again) => {
  const ofKind = kind => phone.view.devices.filter(o => o.kind === kind && !o.isStranger && o.status !== 'retired' && o.status !== 'lost')
    .sort((a, b) => b.isPlanned - a.isPlanned);
  const set = key => value => { d[key] = value; keep(); };
  const levels = phone.view.byId.get(d.calibrator)?.calibrator?.levels ?? [];
  const kPa = h('p', { class: 'hint' });
  const tellPressure = () => {
    const value = pressureOf(d.pressure);
    kPa.textContent = value === undefined ? 'Left empty: estimated from the altitude, and marked so.'
      : `= ${number(value, 2)} kPa at the place, never reduced to sea level`;
  };
  tellPressure();
  return [
    choice('When', ['before', 'after', 'other'].map(m => [m, capital(wordsOf(phone.view, 'moments', m))]), d.moment, value => {
      // The air of the morning is not that of the evening.
      Object.assign(d, { moment: value, pressure: '', temperature: '', humidity: '' });
      keep();
      again();
    }),
    select('Calibrator', [['', 'Scan or choose'], ...ofKind('sound-calibrator').map(o => [o.id, title(o)])], d.calibrator, value => { d.calibrator = value; d.level = ''; keep(); again(); }),
    ofKind('sound-calibrator').length === 0 && h('p', { class: 'hint' },
      'No calibrator is planned here: let the desk put one into the kit, then fetch the plan anew under Set-up.'),
    levels.length > 1 && select('Its level', [['', 'Choose'], ...levels.map(l =>
      [`${l.levelDb}|${l.frequencyHz ?? ''}`, `${number(l.levelDb, 1)} dB${l.frequencyHz ? ` at ${l.frequencyHz} Hz` : ''}`])],
      d.level, set('level')),
    select('Adapter', [['', 'None'], ...ofKind('calibration-adapter').map(o => [o.id, title(o)])], d.adapter, set('adapter')),
    choice('What is read', [['voltage', 'Voltage'], ['indicated', 'Level shown'], ['recording', 'Recorded tone']], d.method, set('method')),
    h('div', { class: 'pair' }, field('Pressure in kPa or hPa', d.pressure, v => { d.pressure = v; keep(); tellPressure(); }, { inputmode: 'decimal' }),
      field('Temperature in °C', d.temperature, set('temperature'), { inputmode: 'text' })),
    kPa,
    field('Humidity in %, if known', d.humidity, set('humidity'), { inputmode: 'decimal' }),
  ];
};
