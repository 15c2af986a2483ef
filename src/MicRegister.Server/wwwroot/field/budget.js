// Uncertainty budgets, and what a figure with its uncertainty says about a limit. Same formulas as at
// the desk: GUM (JCGM 100:2008) 5.1.2, 5.2.2 and G.4.1; JCGM 106:2012, 7.4, 8.2 and 8.3.

export const usualCoverage = 0.9545;
export const ownSource = 'this check: ';

// A far tail keeps its digits: 1 minus what is nearly 1 would lose them.
const erfcOf = x => {
  if (x < 0) return 2 - erfcOf(-x);
  if (x > 27.5) return 0;
  const bell = Math.exp(-x * x) / Math.sqrt(Math.PI);
  if (x < 2) {
    let term = 2 * x * bell;
    let sum = term;
    for (let n = 1; Math.abs(term) > 1e-18 * Math.abs(sum); n++) sum += term *= 2 * x * x / (2 * n + 1);
    return 1 - sum;
  }
  // Laplace's continued fraction, from its far end.
  let rest = x;
  for (let n = 100; n > 0; n--) rest = x + n / 2 / rest;
  return bell / rest;
};

export const normalCdf = z => 0.5 * erfcOf(-z / Math.SQRT2);

export const normalQuantile = p => {
  if (!(p > 0 && p < 1)) throw new RangeError(`A probability lies between 0 and 1, both exclusive, not at ${p}.`);
  if (p === 0.5) return 0;
  const tail = Math.min(p, 1 - p);
  const t = Math.sqrt(-2 * Math.log(tail));
  let z = t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308))); // Abramowitz and Stegun 26.2.23: a start, good to 4.5e-4
  for (let i = 0; i < 4; i++) {
    const step = (normalCdf(-z) - tail) * Math.sqrt(2 * Math.PI) * Math.exp(z * z / 2);
    z += step / (1 - z * step / 2);
  }
  return p > 0.5 ? z : -z;
};

// Share of Student's t between -t and t for a whole number of degrees of freedom, with tan(angle) = t / sqrt(freedom): Abramowitz and Stegun 26.7.3 and 26.7.4.
const shareWithin = (angle, freedom) => {
  const [sine, cosine] = [Math.sin(angle), Math.cos(angle)];
  const isOdd = freedom % 2 === 1;
  let term = isOdd ? cosine : 1;
  let sum = freedom === 1 ? 0 : term;
  for (let n = isOdd ? 3 : 2; n < freedom; n += 2) sum += term *= (n - 1) / n * cosine * cosine;
  return isOdd ? 2 / Math.PI * (angle + sine * sum) : sine * sum;
};

// Abramowitz and Stegun 26.7.5: from a thousand on what is left out is under 1e-13.
const farStudent = (z, n) => {
  const q = z * z;
  const g1 = z * (q + 1) / 4;
  const g2 = z * (3 + q * (16 + 5 * q)) / 96;
  const g3 = z * (-15 + q * (17 + q * (19 + 3 * q))) / 384;
  const g4 = z * (-945 + q * (-1920 + q * (1482 + q * (776 + 79 * q)))) / 92160;
  return z + (g1 + (g2 + (g3 + g4 / n) / n) / n) / n;
};

export const studentQuantile = (p, freedom) => {
  if (!(p > 0 && p < 1)) throw new RangeError(`A probability lies between 0 and 1, both exclusive, not at ${p}.`);
  if (!(Number.isInteger(freedom) && freedom >= 1)) throw new RangeError(`Degrees of freedom are a whole number from 1, not ${freedom}.`);
  if (p < 0.5) return -studentQuantile(1 - p, freedom);
  if (freedom >= 1000) return farStudent(normalQuantile(p), freedom);
  let [low, high] = [0, Math.PI / 2];
  for (;;) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) return Math.tan(middle) * Math.sqrt(freedom);
    if (shareWithin(middle, freedom) < 2 * p - 1) low = middle;
    else high = middle;
  }
};

const freedomOf = line => line.degreesOfFreedom ?? Infinity;

/** The budget of lines {name, source, standardUncertainty, sensitivity, degreesOfFreedom?}: lines of one source add up with their signs before they are squared. */
export const budgetOf = lines => {
  if (lines.length === 0) throw new RangeError('A budget needs at least one line.');
  const sources = new Map();
  for (const line of lines) {
    const { name, source, standardUncertainty, sensitivity } = line;
    if (!(standardUncertainty >= 0) || !Number.isFinite(standardUncertainty) || !Number.isFinite(sensitivity) || !(freedomOf(line) > 0))
      throw new RangeError(`${name}: a line needs a standard uncertainty that is not negative (${standardUncertainty}), a finite coefficient (${sensitivity}) and degrees of freedom above 0 (${freedomOf(line)}).`);
    const sum = sources.get(source) ?? { sum: 0, freedom: Infinity };
    sources.set(source, { sum: sum.sum + sensitivity * standardUncertainty, freedom: Math.min(sum.freedom, freedomOf(line)) });
  }
  const all = [...sources.values()];
  const standard = Math.sqrt(all.reduce((total, s) => total + s.sum * s.sum, 0));
  const spread = all.reduce((total, s) => Number.isFinite(s.freedom) ? total + s.sum ** 4 / s.freedom : total, 0);
  const effectiveDegreesOfFreedom = spread > 0 ? standard ** 4 / spread : Infinity;
  const coverageFactor = (coverage = usualCoverage) => {
    if (!(coverage > 0 && coverage < 1)) throw new RangeError(`A coverage lies between 0 and 1, both exclusive, not at ${coverage}.`);
    const upper = (1 + coverage) / 2;
    return effectiveDegreesOfFreedom > 1e6 ? normalQuantile(upper) : studentQuantile(upper, Math.max(1, Math.floor(effectiveDegreesOfFreedom * (1 + 1e-12) + 1e-9)));
  };
  return { lines, standard, effectiveDegreesOfFreedom, coverageFactor, expanded: coverage => coverageFactor(coverage) * standard };
};

/** The budget of a weighted sum of budgets, such as after minus before: sumOf([after, 1], [before, -1]). */
export const sumOf = (...terms) => budgetOf(terms.flatMap(([budget, weight]) => budget.lines.map(l => ({ ...l, sensitivity: weight * l.sensitivity }))));

/** The lines of a check's budget, with what it shares with no other check told apart by its id. */
export const toldApart = (fact, lines) => lines.map(l => l.source.startsWith(ownSource) ? { ...l, source: `${fact}: ${l.source}` } : l);

/** Standard deviation of the mean of at least two readings. GUM 4.2.3. */
export const repeatability = readings => {
  const mean = meanOf(readings);
  const squares = readings.reduce((total, r) => total + (r - mean) * (r - mean), 0);
  return Math.sqrt(squares / (readings.length - 1) / readings.length);
};

export const meanOf = values => values.reduce((total, v) => total + v, 0) / values.length;

/** Six decimals, halves away from zero: what decides is the same on every machine, whatever the last bits of a logarithm are. */
export const rounded = value => Number.isFinite(value) && Math.abs(value) < 1e9
  ? Math.trunc(value * 1e6 + Math.sign(value) * 0.49999999999999994) / 1e6
  : value;

export const atMost = (value, limit) => rounded(value) <= rounded(limit);
export const atLeast = (value, limit) => rounded(value) >= rounded(limit);

/** Verdicts from the best to the worst. */
export const verdicts = ['conforms', 'undecided', 'does-not-conform'];

/** What is said of a whole check with that verdict. */
export const words = { conforms: 'accept', undecided: 'undecidable', 'does-not-conform': 'reject' };

export const toleranceAround = (reference, halfWidth) => ({ lower: reference - halfWidth, upper: reference + halfWidth });

/** Accepted inside the limits by U, rejected outside them by U, undecided between; U of 0 is simple acceptance. */
export const guarded = ({ lower, upper }, measured, expanded) => {
  if (Number.isNaN(measured)) return 'undecided';
  if (atLeast(measured, lower + expanded) && atMost(measured, upper - expanded)) return 'conforms';
  return !atLeast(measured, lower - expanded) || !atMost(measured, upper + expanded) ? 'does-not-conform' : 'undecided';
};

/** Probability that the true value lies within the limits. */
export const probabilityWithin = (tolerance, measured, standard) => {
  if (standard === 0) return guarded(tolerance, measured, 0) === 'conforms' ? 1 : 0;
  const [above, below] = [normalCdf((measured - tolerance.upper) / standard), normalCdf((tolerance.lower - measured) / standard)];
  return Math.min(1, Math.max(0, 1 - above - below));
};

/** Verdict by a rule: simple, guarded, or probability; whatever else is named is simple. */
export const decide = (rule, leastProbability, tolerance, measured, standard, expanded) => {
  if (Number.isNaN(measured)) return 'undecided';
  if (rule === 'guarded') return guarded(tolerance, measured, expanded);
  if (rule !== 'probability') return guarded(tolerance, measured, 0);
  const within = probabilityWithin(tolerance, measured, standard);
  const least = leastProbability ?? 0.95;
  return atLeast(within, least) ? 'conforms' : atLeast(1 - within, least) ? 'does-not-conform' : 'undecided';
};

/** A difference with its budget, held against a limit where there is one. */
export const comparison = ({ rule, probability }, what, key, differenceDb, budget, limitDb) => {
  const [standardDb, expandedDb] = [budget.standard, budget.expanded()];
  const plain = { what, differenceDb, standardDb, expandedDb };
  if (limitDb === undefined || limitDb === null) return plain;
  const tolerance = toleranceAround(0, limitDb);
  return { ...plain, key, limitDb, probability: probabilityWithin(tolerance, differenceDb, standardDb), verdict: decide(rule, probability, tolerance, differenceDb, standardDb, expandedDb) };
};
