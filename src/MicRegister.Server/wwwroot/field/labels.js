const LENGTH = 9;
const CROCKFORD = /^[0-9A-HJKMNP-TV-Z]{9}$/;
const DIGITS = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ';

/** Check character of ISO 7064, hybrid system MOD 37,36. */
export const checkCharacter = text => {
  let p = 36;
  for (const c of text) p = 2 * ((p + DIGITS.indexOf(c)) % 36 || 36) % 37;
  return DIGITS[(37 - p) % 36];
};

export const spoken = code => `${code.slice(0, 4)} ${code.slice(4, 8)} ${code.slice(8)}`;

const short = text => text.length > 60 ? text.slice(0, 60) + '…' : text;

/** What was scanned or typed: `{ code, spoken }`, or `{ why }` it is none. */
export const readLabel = text => {
  const all = (text ?? '').trim();
  if (!all) return { why: 'Nothing was scanned or typed.' };
  if (all.length > 300) return { why: 'This is no label of this register: it holds far more than a code.' };
  const isAddress = all.includes('://');
  // Of an address counts what stands behind its last slash or mark, without a query.
  const last = isAddress ? all.split('?')[0].replace(/\/+$/, '').split(/[/#]/).at(-1) : all;
  // What people confuse is put right, as the alphabet was made for.
  const code = last.toUpperCase().replace(/[ \-\u00A0]/g, '').replace(/O/g, '0').replace(/[IL]/g, '1');
  if (code.length !== LENGTH || !CROCKFORD.test(code)) {
    return { why: isAddress ? `“${short(all)}” is an address of something else, not a label of this register.` : `“${short(all)}” is no label code: it has ${LENGTH} letters and digits, none of them U.`, isAddress };
  }
  if (checkCharacter(code.slice(0, -1)) !== code.at(-1)) {
    return { why: `“${short(last)}” was misread or mistyped: its last character does not fit the others. Scan it again, or type it in groups of four.`, isMistyped: true };
  }
  return { code, spoken: spoken(code) };
};
