// Judges a check among those of its chain, with the desk's words.

import * as b from './budget.js';
import { localDay } from './days.js';

const has = value => value !== undefined && value !== null;
const compact = object => Object.fromEntries(Object.entries(object).filter(([, value]) => has(value)));

const isInstant = record => record.at.length > 10;
const rank = record => ['before', 'other', 'after'].indexOf(record.moment);
const isSameChain = (a, z) => (a.rangeV ?? null) === (z.rangeV ?? null) && [...a.devices].sort().join('\n') === [...z.devices].sort().join('\n');
const difference = (a, z) => has(a) && has(z) ? a - z : undefined;

// A day without a time stands for all of it: before comes before after.
const isEarlier = (a, z) => a.day !== z.day ? a.day < z.day
  : isInstant(a) && isInstant(z) && a.instant !== z.instant ? a.instant < z.instant
  : rank(a) !== rank(z) ? rank(a) < rank(z) : a.place < z.place;

/** How far the chain moved from another check to this one, in dB; undefined where both cannot be compared. */
const since = (record, other) => !isSameChain(record, other) ? undefined
  : has(record.sensitivityUnit) && record.sensitivityUnit === other.sensitivityUnit && record.method === other.method ? difference(record.sensitivityDb, other.sensitivityDb)
  : difference(record.indicatedDb, other.indicatedDb);

// Of one day, or of one test where each day's testing is asked for.
const isOne = (tests, a, z) => tests.areApart && isInstant(a) && isInstant(z) ? a.test === z.test : a.day === z.day;

// The last one before with none of their test in between.
const beforeOf = (tests, record, earlier) => {
  if (record.moment !== 'after') return undefined;
  const own = earlier.filter(o => !tests.areApart || isOne(tests, o, record));
  let last = own.findLast(o => o.moment !== 'other');
  // Who checks after twice corrects himself.
  if (last?.moment === 'after') last = own.findLast(o => o.moment === 'before' && isOne(tests, o, record));
  return last && (isOne(tests, last, record) || isInstant(last) && isInstant(record)
    && (last.test === record.test || record.instant - last.instant <= tests.mostMs)) ? last : undefined;
};

const spreadOf = ({ readings, method }) => readings.length < 2 ? undefined
  : method === 'indicated' ? Math.max(...readings) - Math.min(...readings) : 20 * Math.log10(Math.max(...readings) / Math.min(...readings));

/**
 * What a check is worth. `record` is {fact, at, instant?, others?}: its id (any text where it has none yet), its time, and checks that
 * the kit does not hold, as kits hold them. Those of any station count, because a chain may have moved.
 */
export const judge = (kit, check, record) => {
  const tests = kit.tests ?? { mostMs: 18 * 3_600_000, sessions: [] };
  const dated = (r, place) => {
    const instant = r.instant ?? Date.parse(r.at);
    const day = isInstant(r) ? localDay(instant, kit.campaign.offsets) : r.at;
    return { ...r, place, instant, day, test: tests.sessions.findLast(s => s.fromMs <= instant && instant <= s.toMs)?.fact ?? day };
  };
  const known = [...kit.stations.flatMap(s => s.checks ?? []), ...record.others ?? []].filter((r, i, all) => all.findIndex(o => o.fact === r.fact) === i).map(dated);
  const own = dated({ ...check, fact: record.fact, at: record.at, instant: record.instant }, known.find(r => r.fact === record.fact)?.place ?? Infinity);
  const earlier = known.filter(o => o.fact !== own.fact && isEarlier(o, own) && has(since(own, o))).sort((a, z) => a.instant - z.instant || a.place - z.place);
  const budgetOf = r => b.budgetOf(b.toldApart(r.fact, r.budget));
  const limits = kit.limits ?? {};
  const comparisons = [];
  const compare = (what, key, db, budget, limitDb) => comparisons.push(b.comparison(limits, what, key, db, budget, limitDb));
  if (has(check.deviationDb)) {
    const expected = check.expectedTerms.map(t => ({ name: t.name, source: t.source, standardUncertainty: t.standardDb, sensitivity: 1 }));
    compare('from its certificates', limits.deviationKey ?? 'check-deviation-db', check.deviationDb, b.sumOf([budgetOf(own), 1], [b.budgetOf(expected), -1]), limits.deviationDb);
  }
  const sinceOne = (what, other, key, limitDb) => compare(what, key, since(own, other), b.sumOf([budgetOf(own), 1], [budgetOf(other), -1]), limitDb);
  const before = beforeOf(tests, own, earlier);
  if (before) sinceOne('since the check before', before, 'check-difference-db', limits.differenceDb);
  const last = earlier.at(-1);
  if (last && last !== before) sinceOne(`since the last check, ${last.day}`, last);
  const spreadDb = spreadOf(check);
  if (has(spreadDb) && has(limits.spreadDb))
    comparisons.push({ what: 'spread of its insertions', key: 'check-spread-db', differenceDb: spreadDb, standardDb: 0, expandedDb: 0, limitDb: limits.spreadDb, verdict: b.atMost(spreadDb, limits.spreadDb) ? 'conforms' : 'does-not-conform' });
  const verdict = b.verdicts[Math.max(...comparisons.map(c => b.verdicts.indexOf(c.verdict)))];
  return compact({ comparisons, verdict, word: b.words[verdict] ?? 'not judged', spreadDb });
};
