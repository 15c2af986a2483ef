// An older kit has no words.
const plain = key => String(key).replaceAll('-', ' ');
export const wordsOf = (view, table, key) => view?.words?.[table]?.[key] ?? plain(key);

// Of these a chain has one each; of cables, windscreens and the like any number.
const SINGLE = ['microphone', 'preamplifier', 'ground-plate', 'recorder-channel', 'power-module'];
const ORDER = ['ground-plate', 'microphone', 'preamplifier', 'power-module', 'recorder-channel', 'cable', 'windscreen'];

export const capital = words => words[0].toUpperCase() + words.slice(1);

export const isSingle = kind => SINGLE.includes(kind);
export const rank = kind => { const at = ORDER.indexOf(kind); return at < 0 ? ORDER.length : at; };
export const isOnPlate = station => Boolean(station.mount?.endsWith('-plate'));
export const mountWords = (view, station) => station.mount ? wordsOf(view, 'mounts', station.mount) : 'not in the plan';

/** Kinds that a station waits for, in the order in which they are laid out. */
export const kindsOf = (view, station) => {
  const planned = station.planned.map(id => view.byId.get(id)?.kind).filter(Boolean);
  const usual = ['microphone', 'preamplifier', 'recorder-channel', ...(isOnPlate(station) ? ['ground-plate'] : [])];
  const kinds = planned.length > 0 ? planned : usual;
  return [...kinds].sort((a, b) => rank(a) - rank(b));
};

// `rule` is the key of the register's rule.
const stops = (text, rule) => ({ gravity: 'stops', text, rule });
const risks = (text, rule) => ({ gravity: 'risks', text, rule });
const note = text => ({ gravity: 'note', text });
const normal = text => String(text).trim().replace(/\s+/g, ' ').toUpperCase();
// Rounded to 1e-6; equality passes.
const exceeds = (value, limit) => Math.round(value * 1e6) / 1e6 > Math.round(limit * 1e6) / 1e6;
const differ = (a, b) => exceeds(Math.abs(a - b), 0.2);
const number = value => value === undefined || value === null || value === '' || !Number.isFinite(Number(value)) ? undefined : Number(value);
const figure = value => String(Math.round(value * 100) / 100);

/** Where a device is short of what the plan and its papers ask. */
const ofDevice = (view, local, station, device) => {
  const found = [];
  const name = device.name;
  const status = wordsOf(view, 'statuses', device.status);
  if (device.status === 'away') found.push(risks(`${name} is ${status}${device.place ? ` (${device.place})` : ''}.`, 'unfit'));
  else if (device.status && device.status !== 'in-service') found.push(stops(`${name} is ${status}.`, 'unfit'));
  const isHere = station?.planned.includes(device.id);
  const planned = device.station ?? view.stations.find(s => s.planned.includes(device.id))?.name;
  if (station && !isHere) {
    if (planned && planned !== station.name) found.push(risks(`${name} is planned for ${planned}, not for ${station.name}.`));
    else if (device.isSpare) found.push(note(`${name} is a spare.`));
    else found.push(risks(`${name} is not in the plan of this campaign.`));
  }
  const now = local?.where?.get(device.id);
  if (now && now.station !== station?.name) found.push(risks(`${name} stands at ${now.station} now, placed by ${now.by}.`));
  const elsewhere = view.elsewhere?.[device.id];
  if (elsewhere) found.push(risks(`${name} stands elsewhere: ${elsewhere}.`));
  if (device.due && device.due < view.today) found.push(stops(`${name} is out of date since ${device.due}.`));
  else if (device.due && device.due < view.campaign.lastDay) found.push(risks(`${name} falls due on ${device.due}, before the campaign ends.`));
  if (device.verdict === 'not-ready') found.push(stops(device.why || `${name} is not ready.`));
  else if (['at-risk', 'undecided'].includes(device.verdict)) {
    found.push(risks(device.why || `${name} is ${wordsOf(view, 'verdicts', device.verdict)}.`));
  }
  return found;
};

const ofMount = (view, station, microphone) => {
  const wanted = isOnPlate(station) ? 'pressure' : 'free-field';
  const has = microphone.details?.['response-type'];
  // On a stand sound comes in at grazing incidence, where a pressure type serves as well.
  if (has === wanted || (station.mount === 'ground-stand' && has === 'pressure')) return [];
  return has === undefined
    ? [risks(`The response type of ${microphone.name} is not known; ${mountWords(view, station)} it has to be a ${wanted} type.`,
      'response-type')]
    : [stops(`${microphone.name} is a ${has} type; ${mountWords(view, station)} it has to be a ${wanted} type.`, 'response-type')];
};

/** Pairs of parts that do not suit each other, with the ids that each is about. */
const misfits = (station, parts) => {
  const first = kind => parts.find(d => d.kind === kind);
  const [microphone, preamplifier, channel, plate] = ['microphone', 'preamplifier', 'recorder-channel', 'ground-plate'].map(first);
  const detail = (device, key) => device?.details?.[key];
  const found = [];
  const add = (text, ...about) => found.push({ ...stops(text, 'parts-fit'), about: about.map(d => d.id) });
  const [size, thread, bore] = [number(detail(microphone, 'size-mm')), number(detail(preamplifier, 'size-mm')), number(detail(plate, 'fits-mm'))];
  if (!first('calibration-adapter') && size !== undefined && thread !== undefined && differ(size, thread)) {
    add(`${microphone.name} is a ${figure(size)} mm capsule; it does not fit the ${figure(thread)} mm preamplifier ${preamplifier.name} without an adapter.`, microphone, preamplifier);
  }
  if (size !== undefined && bore !== undefined && differ(size, bore)) add(`${plate.name} holds a ${figure(bore)} mm capsule; ${microphone.name} has ${figure(size)} mm.`, microphone, plate);
  const [needs, gives] = [number(detail(microphone, 'polarisation-v')), number(detail(preamplifier, 'polarisation-v'))];
  if (needs !== undefined && gives !== undefined && needs !== gives) add(`${microphone.name} wants ${figure(needs)} V of polarisation; ${preamplifier.name} gives ${figure(gives)} V.`, microphone, preamplifier);
  const powered = first('power-module') ?? channel;
  const [wants, supply] = [detail(preamplifier, 'powering'), detail(powered, 'powering')];
  if (wants && supply && normal(wants) !== normal(supply)) add(`${preamplifier.name} wants ${wants} powering; ${powered.name} gives ${supply}.`, preamplifier, powered);
  const [plug, socket] = [detail(preamplifier, 'connector'), detail(channel, 'connector')];
  if (!first('cable') && plug && socket && normal(plug) !== normal(socket)) add(`The connector ${plug} of ${preamplifier.name} does not fit ${socket} of ${channel.name}.`, preamplifier, channel);
  const style = detail(plate, 'plate-style');
  if (style && station && isOnPlate(station) && style !== (station.mount === 'flush-plate' ? 'flush' : 'inverted')) add(`${plate.name} is made for ${style} mounting.`, plate);
  return found;
};

/**
 * What speaks against a device at a station, or against the whole chain where no device comes next. `kit` is the kit with this
 * phone's own facts, `local.where` says where devices stand now.
 */
export const concernsOf = (kit, local, stationName, deviceIds, nextDeviceId) => {
  const station = kit.stations.find(s => s.name === stationName);
  const find = id => kit.byId?.get(id) ?? kit.devices.find(d => d.id === id);
  const present = deviceIds.map(find).filter(Boolean);
  const next = nextDeviceId ? find(nextDeviceId) : undefined;
  const about = next ? [next] : present;
  const found = about.flatMap(device => ofDevice(kit, local, station, device));
  if (next?.kind === 'sound-calibrator') found.push(stops(`${next.name} is a calibrator: no part of a chain.`));
  const same = next && isSingle(next.kind) ? present.find(d => d.kind === next.kind && d.id !== next.id) : undefined;
  if (same) found.push(risks(`${same.name} was the ${next.kindLabel.toLowerCase()} of this chain; ${next.name} takes its place.`));
  const parts = next ? [...present.filter(d => d.id !== next.id && d.id !== same?.id), next] : present;
  const microphone = parts.find(d => d.kind === 'microphone');
  if (station?.mount && microphone && about.includes(microphone)) found.push(...ofMount(kit, station, microphone));
  for (const { about: ids, ...misfit } of misfits(station, parts)) if (!next || ids.includes(next.id)) found.push(misfit);
  if (!next && station) {
    const absent = [...new Set(kindsOf(kit, station))].filter(kind => !present.some(d => d.kind === kind));
    for (const kind of absent) found.push(risks(`No ${wordsOf(kit, 'kinds', kind).toLowerCase()} was scanned.`, 'chain-incomplete'));
  }
  // The kit's own reason often says what was just worked out here.
  return found.filter((c, i) => found.findIndex(o => o.text === c.text) === i);
};

/** What speaks against a gap under an inverted microphone, in mm; undefined where the profile sets no limit or it is kept. */
export const gapConcern = (limits, station, gap) => {
  const { gapMm, gapToleranceMm } = limits;
  if (station.mount !== 'inverted-plate' || gap === undefined || gapMm === undefined || gapToleranceMm === undefined) return undefined;
  if (!exceeds(Math.abs(gap - gapMm), gapToleranceMm)) return undefined;
  return stops(`The gap is ${gap} mm; wanted are ${gapMm} ± ${gapToleranceMm} mm.`, 'plate-geometry');
};

/** The verdict of a list of concerns. */
export const verdictOf = concerns => concerns.some(c => c.gravity === 'stops') ? 'stop' : concerns.some(c => c.gravity === 'risks') ? 'look' : 'good';
