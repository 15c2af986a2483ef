// Works a check out from what the phone holds of the register, and judges it among the station's others: the same terms,
// rounding and words as at the desk, so that one check never has two results.

import * as b from './budget.js';
import { dayOf } from './days.js';

export { localDay } from './days.js';
export { judge } from './verdict.js';

const decibelsPerNeper = 20 / Math.LN10;
const [barometerKPa, weatherKPa, thermometerK, oneInsertionDb] = [0.05, 1, 1, 0.03];
const [usualKPa, referenceC, referencePercent] = [101.325, 23, 50];
const atThePlace = 'microphone, to the air at the place';

const has = value => value !== undefined && value !== null;
const isBetween = (value, least, greatest) => typeof value === 'number' && value >= least && value <= greatest;
const isWrong = (value, least, greatest) => has(value) && !isBetween(value, least, greatest);
const sum = (items, of) => items.reduce((total, item) => total + of(item), 0);
const compact = object => Object.fromEntries(Object.entries(object).filter(([, value]) => has(value)));
const unitOf = method => ({ voltage: 'V', indicated: 'dB' })[method] ?? 'of full scale';

const wrongReading = entry => {
  const { readings, method, resolution, meterDb, rangeV, setToDb } = entry;
  if (!['voltage', 'indicated', 'recording'].includes(method)) return `Method '${method}': allowed are voltage, indicated, recording.`;
  if (!isBetween(readings?.length, 1, 20)) return `Readings: 1 to 20 are allowed, not ${readings?.length ?? 0}.`;
  const [least, greatest] = { voltage: [1e-6, 100], indicated: [40, 160], recording: [1e-6, 1] }[method];
  const wrong = readings.findIndex(r => !isBetween(r, least, greatest));
  if (wrong >= 0) return `Reading '${readings[wrong]}': allowed is a number from ${least} to ${greatest} ${unitOf(method)}.`;
  if (isWrong(resolution, 0, greatest)) return `Resolution '${resolution}': allowed is a number from 0 to ${greatest} ${unitOf(method)}.`;
  if (isWrong(meterDb, 0, 5)) return `Uncertainty of the reading instrument '${meterDb}': allowed is a number from 0 to 5 dB.`;
  if (isWrong(rangeV, 0.001, 1000)) return `Range '${rangeV}': allowed is a number from 0.001 to 1000 V peak.`;
  return isWrong(setToDb, -120, 20) ? `Sensitivity that the chain was set to '${setToDb}': allowed is a number from -120 to 20 dB re 1 V/Pa.` : undefined;
};

const wrongAir = ({ air, pressureUncertaintyKPa: u }) => {
  if (isWrong(air?.pressureKPa, 30, 120)) return `Static pressure '${air.pressureKPa}': allowed is a number from 30 to 120 kPa (1013 hPa are 101.3 kPa).`;
  if (isWrong(air?.temperatureC, -50, 70)) return `Temperature '${air.temperatureC}': allowed is a number from -50 to 70 °C.`;
  if (isWrong(air?.humidityPercent, 0, 100)) return `Humidity '${air.humidityPercent}': allowed is a number from 0 to 100 %.`;
  return isWrong(u, Number.MIN_VALUE, 10) ? `Uncertainty of the static pressure '${u}': allowed is a number above 0 up to 10 kPa.` : undefined;
};

/** Static pressure of the standard atmosphere in kPa (ISO 2533:1975). */
export const standardKPa = altitudeM => 101.325 * (1 - 0.0065 * altitudeM / 288.15) ** (9.80665 / (0.0065 * 287.05287));

const pressureOf = (entry, campaign) => has(entry.air?.pressureKPa) ? { kPa: entry.air.pressureKPa, u: entry.pressureUncertaintyKPa ?? barometerKPa, isEstimated: false }
  : entry.estimatePressure === true && campaign ? { kPa: standardKPa(campaign.altitudeM), u: weatherKPa, isEstimated: true }
  : undefined;

const doubtOf = ({ kPa }, altitudeM) => {
  const usual = standardKPa(altitudeM);
  const place = `${altitudeM.toFixed(0)} m, where about ${usual.toFixed(1)} kPa stand`;
  if (kPa > usual + 4) return `${kPa.toFixed(1)} kPa is too high for ${place}: it looks reduced to sea level, as weather reports are; read a barometer at the place`;
  return kPa < usual - 7 ? `${kPa.toFixed(1)} kPa is too low for ${place}` : undefined;
};

const isSameHz = (a, z) => !has(a) || !has(z) || Math.abs(a - z) <= 0.05 * z;

const levelsOf = (calibrator, entry) => {
  let levels = calibrator.calibrator?.levels ?? [];
  const narrow = holds => {
    const some = levels.filter(holds);
    if (levels.length > 1 && some.length > 0) levels = some;
  };
  const hz = entry.tone?.frequencyHz ?? entry.frequencyHz;
  if (has(hz)) narrow(l => has(l.frequencyHz) && isSameHz(l.frequencyHz, hz));
  const about = entry.nominalDb ?? (entry.method === 'indicated' ? b.meanOf(entry.readings) : undefined);
  if (has(about)) narrow(l => Math.abs(l.levelDb - about) < 5);
  return levels;
};

// One for that very adapter before one for any.
const couplingOf = (calibrator, adapter, microphone) => {
  const model = microphone?.microphone?.modelKey;
  const all = (calibrator.calibrator.couplings ?? []).filter(c => model && c.modelKey === model);
  return all.findLast(c => has(c.adapter) && c.adapter === adapter) ?? all.findLast(c => !has(c.adapter));
};

const term = (name, valueDb, standardDb, source, remark) => compact({ name, valueDb: b.rounded(valueDb), standardDb, source, remark: remark || undefined });
const line = (name, source, standardUncertainty, unit, sensitivity, degreesOfFreedom, distribution = 'normal') => compact({ name, source, standardUncertainty, unit, sensitivity, degreesOfFreedom, distribution });

const calibratorTerms = (kit, calibrator, level, entry, pressure, microphone) => {
  const { law, lawIsStated, pressureDbPerKPa, temperatureDbPerK } = calibrator.calibrator;
  const [terms, lines] = [[], []];
  const add = (t, unit = 'dB', u = t.standardDb, sensitivity = 1) => {
    terms.push(t);
    lines.push(line(t.name, t.source, u, unit, -sensitivity));
  };
  add(term('certificate', level.levelDb, level.standardDb ?? 0, `certificate ${level.certificate}`, !has(level.standardDb) ? 'it states no uncertainty; none is taken' : level.factorWasAssumed ? 'k was not stated; 2 is taken' : ''));
  if (law === 'adiabatic' || law === 'coefficient') {
    const from = level.statedForKPa ?? usualKPa;
    const [change, slope] = law === 'adiabatic' ? [20 * Math.log10(pressure.kPa / from), decibelsPerNeper / pressure.kPa] : [(pressureDbPerKPa ?? 0) * (pressure.kPa - from), pressureDbPerKPa ?? 0];
    const remarks = [has(level.statedForKPa) ? '' : 'the certificate does not say for which pressure; 101.325 kPa is taken', pressure.isEstimated ? 'estimated from the altitude, no barometer was read' : ''];
    const source = pressure.isEstimated ? `weather at ${entry.campaign} on ${dayOf(entry.at, kit.campaign?.offsets)}` : `barometer of ${entry.campaign ?? 'the bench'}`;
    add(term('static pressure', change, Math.abs(slope) * pressure.u, source, remarks.filter(Boolean).join('; ')), 'kPa', pressure.u, slope);
  }
  const coupling = couplingOf(calibrator, entry.adapter, microphone);
  if (coupling) {
    const stated = (name, db, expanded) => add(term(name, db, (expanded ?? 0) / 2, `coupling of ${calibrator.id}, ${coupling.adapter ?? ''}, ${coupling.modelKey}: ${name}`, coupling.source));
    stated('load volume', coupling.loadVolumeDb, coupling.loadVolumeExpandedDb);
    // Only where the chain is held against a sensitivity of the free field.
    if (!microphone.microphone?.sensitivity?.isPressureField) stated('pressure to free field', coupling.fieldDb, coupling.fieldExpandedDb);
  }
  if (!lawIsStated && law !== 'adiabatic' && law !== 'coefficient') terms.push(term('static pressure', 0, 0, 'none', 'how its level follows static pressure is not stated; nothing is added'));
  if (!coupling && microphone) terms.push(term('load volume and field', 0, 0, 'none', `nothing is stated of this calibrator on ${microphone.model ?? 'these microphones'}; nothing is added`));
  if (has(temperatureDbPerK) && has(entry.air?.temperatureC)) {
    const change = temperatureDbPerK * (entry.air.temperatureC - (level.temperatureC ?? referenceC));
    add(term('temperature', change, Math.abs(temperatureDbPerK) * thermometerK, 'thermometer', has(level.temperatureC) ? '' : 'its certificate states no temperature; 23 °C are taken'), 'K', thermometerK, temperatureDbPerK);
  }
  return { terms, lines };
};

// What the certificates of the parts let expect; empty where a part says too little.
const expectedTerms = (chain, microphone, entry, pressure, rangeV) => {
  const { sensitivity: own, coefficients: c } = microphone?.microphone ?? {};
  if (!own) return [];
  const terms = [term("microphone's certificate", own.atReferenceDb, own.standardDb ?? 0, `certificate ${own.certificate}`, has(own.standardDb) ? '' : 'it states no uncertainty')];
  const { temperatureC, humidityPercent } = entry.air ?? {};
  const change = (c?.pressureDbPerKPa ?? 0) * ((pressure?.kPa ?? usualKPa) - usualKPa) + (c?.temperatureDbPerK ?? 0) * ((temperatureC ?? referenceC) - referenceC) + (c?.humidityDbPerPercent ?? 0) * ((humidityPercent ?? referencePercent) - referencePercent);
  if (change !== 0) terms.push(term(atThePlace, change, 0, 'thermometer'));
  const addGain = (name, device) => {
    if (device) terms.push(compact({ ...(device.gain ?? term(name, 0, 0, 'none', 'no certificate of its gain; 0 dB is taken')), name }));
  };
  if (!own.isLoaded) addGain("preamplifier's gain", chain.find(d => d.kind === 'preamplifier'));
  if (entry.method !== 'recording') return terms;
  addGain("channel's gain", chain.find(d => d.kind === 'recorder-channel'));
  return has(rangeV) ? [...terms, term("channel's range", -20 * Math.log10(rangeV), 0, 'none', `full scale is ${rangeV} V peak`)] : [];
};

const isTime = text => /^\d{4}-\d\d-\d\d(T\d\d:\d\d:\d\d\.\d{3}Z)?$/.test(text ?? '') && !Number.isNaN(Date.parse(text)) && new Date(text).toISOString().startsWith(text.slice(0, 10));

/** The body of the check's fact, {check}, or which value is wrong and what is allowed, {why}. */
export const workOut = (kit, entry) => {
  const campaign = has(entry.campaign) ? kit.campaign : undefined;
  const station = campaign && kit.stations.find(s => s.name === entry.station);
  const device = id => kit.devices.find(d => d.id === id);
  if (campaign && campaign.id !== entry.campaign) return { why: `There is no campaign ${entry.campaign}.` };
  if (campaign && !station) return { why: `Station '${entry.station ?? ''}': ${campaign.name} has no such station.` };
  if (!isTime(entry.at)) return { why: `Time '${entry.at ?? ''}': allowed is a day such as 2026-05-04 or an instant such as 2026-05-04T10:11:12.000Z.` };
  const ids = entry.devices ?? station?.planned ?? [];
  if (ids.length === 0) return { why: campaign ? `No devices are planned for station ${entry.station}; name them.` : 'Devices are missing: a check is of at least a microphone.' };
  if (!has(entry.calibrator)) return { why: 'The calibrator is missing.' };
  const unknown = [...ids, entry.calibrator].find(id => !device(id));
  if (unknown !== undefined) return { why: `There is no device ${unknown}.` };
  const calibrator = device(entry.calibrator);
  if (calibrator.kind !== 'sound-calibrator') return { why: `${calibrator.name} is no sound calibrator.` };
  if (has(entry.adapter) && device(entry.adapter)?.kind !== 'calibration-adapter') return { why: `Adapter '${entry.adapter}' is no calibration adapter of this register.` };
  // The kit holds no certificates of what nobody planned, until it was placed and fetched anew.
  const stranger = [...ids, entry.calibrator, entry.adapter].map(device).find(d => d?.isStranger);
  if (stranger) {
    return { why: `${stranger.name} is not of this campaign, so its certificates are not on this phone. A chain that was placed and sent: `
      + 'fetch the plan anew under Set-up. Anything else: let the desk put it into the campaign’s kit.' };
  }
  const wrong = wrongReading(entry) ?? wrongAir(entry);
  if (wrong) return { why: wrong };

  const levels = levelsOf(calibrator, entry);
  if (levels.length === 0) return { why: `${calibrator.name} has no certificate of its level from ${entry.at.slice(0, 10)} or before.` };
  if (levels.length > 1) return { why: `${calibrator.name} has certificates of ${levels.map(l => `${Math.round(l.levelDb * 10) / 10} dB${has(l.frequencyHz) ? ` at ${l.frequencyHz} Hz` : ''}`).join(' and ')}: state which (nominal level).` };
  const pressure = pressureOf(entry, campaign);
  if (['adiabatic', 'coefficient'].includes(calibrator.calibrator.law) && !pressure) return { why: `Static pressure is missing: the level of ${calibrator.name} follows it. Read it at the place, or ask for an estimate from the altitude.` };
  const doubt = campaign && pressure && !pressure.isEstimated ? doubtOf(pressure, campaign.altitudeM) : undefined;
  if (doubt) return { why: `Static pressure: ${doubt}.` };

  const chain = ids.map(device);
  const microphone = chain.find(d => d.kind === 'microphone');
  const { readings, method, resolution, meterDb } = entry;
  const rangeV = entry.rangeV ?? chain.find(d => d.kind === 'recorder-channel')?.details?.['range-v'];
  const { terms, lines } = calibratorTerms(kit, calibrator, levels[0], entry, pressure, microphone);
  const calibratorDb = sum(terms, t => t.valueDb);
  const expected = expectedTerms(chain, microphone, entry, pressure, rangeV);
  const each = readings.map(r => method === 'indicated' ? r - calibratorDb : 20 * Math.log10(r / (20e-6 * 10 ** (calibratorDb / 20))));
  const level = b.meanOf(each);
  const own = name => b.ownSource + name;
  lines.push(each.length > 1 ? line('insertions', own('insertions'), b.repeatability(each), 'dB', 1, each.length - 1) : line('one insertion, assumed', own('insertions'), oneInsertionDb, 'dB', 1));
  if (resolution > 0) lines.push(line('resolution of the reading', own('resolution'), resolution / 2 / Math.sqrt(3), unitOf(method), method === 'indicated' ? 1 : decibelsPerNeper / b.meanOf(readings), undefined, 'rectangular'));
  if (meterDb > 0) lines.push(line('reading instrument', 'reading instrument', meterDb, 'dB', 1));

  const budget = b.budgetOf(lines);
  const expectedDb = expected.length === 0 ? undefined : sum(expected, t => t.valueDb);
  // An instrument is set to its certificate, whatever the air.
  const setTo = entry.setToDb ?? (has(expectedDb) ? expectedDb - sum(expected.filter(t => t.name === atThePlace), t => t.valueDb) : undefined);
  const sensitivity = method !== 'indicated' ? level : has(setTo) ? setTo + level : undefined;
  return { check: compact({
    station: entry.station, moment: entry.moment ?? 'other', devices: chain.map(d => d.id), calibrator: calibrator.id, calibratorCertificate: levels[0].certificate, adapter: entry.adapter,
    air: entry.air ? compact({ pressureKPa: entry.air.pressureKPa, temperatureC: entry.air.temperatureC, humidityPercent: entry.air.humidityPercent }) : undefined, pressureIsEstimated: pressure?.isEstimated === true,
    method, readings: [...readings], resolution, rangeV, calibratorDb: b.rounded(calibratorDb), calibratorTerms: terms,
    sensitivityDb: has(sensitivity) ? b.rounded(sensitivity) : undefined, sensitivityUnit: !has(sensitivity) ? undefined : method === 'recording' ? 'FS/Pa' : 'V/Pa', indicatedDb: method === 'indicated' ? b.rounded(level) : undefined,
    expectedTerms: expected, deviationDb: has(sensitivity) && has(expectedDb) ? b.rounded(sensitivity - expectedDb) : undefined,
    budget: lines, standardDb: budget.standard, coverageFactor: budget.coverageFactor(), expandedDb: budget.expanded(), tone: entry.tone, remark: (entry.remark ?? '').trim() || undefined,
  }) };
};
