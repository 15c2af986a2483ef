// Half a surrogate pair has no UTF-8 form, and the whole fact would be refused for it.
const whole = text => text.replace(/[\uD800-\uDFFF]/gu, '\uFFFD');

/** The one form of a JSON value (RFC 8785), so that the same statement has the same bytes on the phone and in the register. */
export const canonical = value => {
  if (typeof value === 'string') return JSON.stringify(whole(value));
  if (typeof value === 'boolean') return String(value);
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new Error('A number of a fact is not finite.');
    return JSON.stringify(value);
  }
  if (Array.isArray(value)) return '[' + value.map(canonical).join(',') + ']';
  if (value && typeof value === 'object') {
    // sort() orders by UTF-16 code units, as the standard asks.
    return '{' + Object.keys(value).sort().map(key => JSON.stringify(whole(key)) + ':' + canonical(value[key])).join(',') + '}';
  }
  throw new Error('A part of a fact is absent where it has to be left out.');
};

/** The same without anything that is absent, at any depth: absent details are left out, never null. */
export const compact = value => {
  if (Array.isArray(value)) return value.map(compact);
  if (value && typeof value === 'object') {
    return Object.fromEntries(Object.entries(value).filter(([, v]) => v !== undefined && v !== null).map(([k, v]) => [k, compact(v)]));
  }
  return value;
};
