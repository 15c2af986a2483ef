import { h } from './dom.js';

const SIDE = 1600;

/** Without a digest a photo cannot be named, and plain HTTP has none. */
export const canTake = () => Boolean(crypto.subtle);

const hex = bytes => [...new Uint8Array(bytes)].map(b => b.toString(16).padStart(2, '0')).join('');

/** A photo made small. Drawing it anew drops everything that the camera wrote beside the picture, its place among it. */
export const shrink = async file => {
  const image = await createImageBitmap(file, { imageOrientation: 'from-image' });
  const scale = Math.min(1, SIDE / Math.max(image.width, image.height));
  const canvas = h('canvas', { width: Math.max(1, Math.round(image.width * scale)), height: Math.max(1, Math.round(image.height * scale)) });
  canvas.getContext('2d').drawImage(image, 0, 0, canvas.width, canvas.height);
  image.close();
  const blob = await new Promise((done, failed) => canvas.toBlob(b => b ? done(b) : failed(new Error('The photo could not be made.')), 'image/jpeg', 0.82));
  return { sha256: hex(await crypto.subtle.digest('SHA-256', await blob.arrayBuffer())), blob };
};

/** A key that takes a photo; `onPhoto({ sha256, blob })`. */
export const photoKey = (onPhoto, onProblem) => {
  if (!canTake()) return null;
  const input = h('input', { type: 'file', accept: 'image/*', capture: 'environment', class: 'unseen-input', onchange: async e => {
    const file = e.target.files[0];
    e.target.value = '';
    if (!file) return;
    try { onPhoto(await shrink(file)); } catch { onProblem('This picture cannot be read. Take it as JPEG.'); }
  } });
  return h('label', { class: 'plain file' }, 'Add a photo', input);
};
