// Numbers as the register's QuantityText writes them, counted on fifteen digits.

const scaled = (value, power) => {
  const [digits, own] = value.toExponential(14).split('e');
  return Number(`${digits}e${Number(own) + power}`);
};

const roundedSize = (value, decimals) => scaled(Math.round(scaled(Math.abs(value), decimals)), -decimals);

export const number = (value, decimals) => {
  if (!Number.isFinite(value)) return '–';
  const size = roundedSize(value, decimals).toFixed(decimals);
  return (value < 0 && Number(size) !== 0 ? '−' : '') + size;
};

/** A difference: with its sign, unless it is rounded to 0. */
export const signed = (difference, decimals) => {
  const text = number(difference, decimals);
  return difference > 0 && Number(text) !== 0 ? '+' + text : text;
};

/** As the register's ShownUncertainty. */
const rounded = (value, usual) => {
  const exact = Number(value.toPrecision(15));
  let decimals = 1 - Math.floor(Math.log10(exact));
  const digits = scaled(exact, decimals);
  let whole = Math.floor(digits);
  if (Math.round((digits - whole) * 1e9) / 1e9 > 0.1) whole += 1;
  if (whole === 100) { whole = 10; decimals -= 1; }
  const shown = scaled(whole, -decimals);
  return { shown, decimals: whole % 10 === 0 && decimals > usual ? decimals - 1 : decimals };
};

/** The number of an expanded uncertainty; `usual` digits behind the point are those of the unit, 2 for dB. */
export const expanded = (value, usual = 2) => {
  if (!(value > 0)) return number(value, usual);
  const { shown, decimals } = rounded(value, usual);
  return number(shown, Math.max(0, decimals));
};

/** The number of a difference, as far as its expanded uncertainty. */
export const difference = (value, uncertainty, usual = 2) => {
  if (!(uncertainty > 0)) return signed(value, usual);
  const { decimals } = rounded(uncertainty, usual);
  return decimals >= 0 ? signed(value, decimals) : signed(Math.sign(value) * roundedSize(value, decimals), 0);
};
