const ALPHABET = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';

// getRandomValues exists on plain HTTP too; randomUUID does not.
export const randomCharacters = count => [...crypto.getRandomValues(new Uint8Array(count))].map(b => ALPHABET[b & 31]).join('');

/** Ten characters of milliseconds and sixteen of chance: no server has to give the number out. */
export const ulid = (ms = Date.now()) => {
  let time = '';
  for (let i = 0, rest = ms; i < 10; i++) {
    time = ALPHABET[rest % 32] + time;
    rest = Math.floor(rest / 32);
  }
  return time + randomCharacters(16);
};
