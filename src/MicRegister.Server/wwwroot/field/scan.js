import { h, fill, newId } from './dom.js';
import { ask } from './sync.js';

const BURST = 35; // Milliseconds between the keys of a scanner that types; no person is that quick.
const AGAIN = 2500;
let handler = () => {};
let camera;
// Whoever scans station after station opens the camera once.
let isWanted = false;
let worker;
let number = 0;
const asked = new Map();

/** Who gets what is scanned next; a screen sets it when it opens. */
export const listen = next => { handler = next; };
export const hasCamera = () => Boolean(isSecureContext && navigator.mediaDevices?.getUserMedia);

const decoder = () => {
  if (worker) return worker;
  worker = new Worker('/field/scan-worker.js', { type: 'module' });
  worker.onmessage = ({ data }) => { asked.get(data.id)?.(data); asked.delete(data.id); };
  worker.onerror = () => {
    for (const done of asked.values()) done({ texts: [], problem: 'The decoder did not start.' });
    asked.clear();
    worker = undefined;
  };
  return worker;
};

const decodePixels = image => new Promise(done => {
  const id = ++number;
  asked.set(id, done);
  decoder().postMessage({ id, pixels: image.data.buffer, width: image.width, height: image.height }, [image.data.buffer]);
});

const canvas = document.createElement('canvas');
const pixelsOf = (source, width, height) => {
  Object.assign(canvas, { width, height });
  const context = canvas.getContext('2d', { willReadFrequently: true });
  context.drawImage(source, 0, 0, width, height);
  return context.getImageData(0, 0, width, height);
};

const native = async () => {
  if (!('BarcodeDetector' in window)) return undefined;
  try {
    const formats = await BarcodeDetector.getSupportedFormats();
    return formats.includes('qr_code') ? new BarcodeDetector({ formats: ['qr_code'] }) : undefined;
  } catch {
    return undefined;
  }
};

export const stopCamera = () => {
  if (!camera) return;
  camera.isOver = true;
  camera.stream?.getTracks().forEach(t => t.stop());
  camera.close();
  camera = undefined;
};

const watch = async (own, video) => {
  const quick = await native();
  let last = { text: '', at: 0 };
  while (!own.isOver) {
    await new Promise(done => setTimeout(done, 80));
    if (own.isOver || video.readyState < 2 || document.hidden) continue;
    let texts = [];
    try {
      if (quick) texts = (await quick.detect(video)).map(f => f.rawValue);
    } catch { /* the other decoder looks at it then */ }
    if (texts.length === 0) {
      const scale = Math.min(1, 1280 / Math.max(video.videoWidth, video.videoHeight));
      const answer = await decodePixels(pixelsOf(video, Math.round(video.videoWidth * scale), Math.round(video.videoHeight * scale)));
      if (answer.problem && !own.isOver) own.tell(`${answer.problem} Type the code instead.`);
      texts = answer.texts;
    }
    // A label that is still in view must not count again and again.
    for (const text of texts) {
      const isAgain = text === last.text && Date.now() - last.at < AGAIN;
      last = { text, at: Date.now() };
      if (!isAgain && !own.isOver) handler(text);
    }
  }
};

const openCamera = async (place, button, tell) => {
  const own = camera = { isOver: false, tell, close: () => { fill(place); button.textContent = 'Camera'; button.setAttribute('aria-pressed', 'false'); } };
  button.textContent = 'Close camera';
  button.setAttribute('aria-pressed', 'true');
  try {
    own.stream = await navigator.mediaDevices.getUserMedia({ audio: false, video: { facingMode: { ideal: 'environment' }, width: { ideal: 1280 }, height: { ideal: 720 } } });
    if (own.isOver) { own.stream.getTracks().forEach(t => t.stop()); return; }
    const video = h('video', { autoplay: true, playsinline: true, muted: true, 'aria-label': 'Camera picture: hold the label in it' });
    video.muted = true;
    video.srcObject = own.stream;
    const track = own.stream.getVideoTracks()[0];
    let isLit = false;
    const light = track.getCapabilities?.().torch && h('button', { type: 'button', class: 'plain', 'aria-pressed': 'false', onclick: async e => {
      isLit = !isLit;
      try { await track.applyConstraints({ advanced: [{ torch: isLit }] }); } catch { isLit = false; }
      e.target.setAttribute('aria-pressed', String(isLit));
    } }, 'Light');
    fill(place, h('div', { class: 'camera' }, video, light));
    await video.play().catch(() => {});
    watch(own, video);
  } catch (error) {
    stopCamera();
    tell(error.name === 'NotAllowedError' ? 'The camera is not allowed for this page. Allow it in the browser’s settings of this site, or type the code.' : 'No camera answered. Type the code, or take a photo of the label.');
  }
};

const readPhoto = async (file, tell) => {
  tell('Reading the photo…');
  try {
    const image = await createImageBitmap(file);
    for (const side of [1600, 900]) {
      const scale = Math.min(1, side / Math.max(image.width, image.height));
      const { texts } = await decodePixels(pixelsOf(image, Math.round(image.width * scale), Math.round(image.height * scale)));
      if (texts.length > 0) { tell(''); return handler(texts[0]); }
    }
  } catch { /* the register may be able to read what this browser cannot */ }
  try {
    const answer = await (await ask('/api/labels/photo', { method: 'POST', headers: { 'Content-Type': file.type || 'application/octet-stream' }, body: file, timeout: 60_000 })).json();
    const text = answer.found[0]?.code ?? answer.others?.[0];
    tell(text ? '' : answer.why ?? 'No label was found in the photo. Go nearer, hold still, or type the code.');
    if (text) handler(text);
  } catch (error) {
    tell(error.answer ? error.message : 'No label was found in the photo on this phone, and the register was not reached. Type the code.');
  }
};

/** The box of every scanning screen. */
export const scanBox = () => {
  const id = newId();
  const preview = h('div', { class: 'preview' });
  const says = h('p', { class: 'scan-says', role: 'status' });
  const tell = text => { says.textContent = text; };
  const input = h('input', { id, type: 'text', autocomplete: 'off', autocapitalize: 'characters', spellcheck: 'false', enterkeyhint: 'go', class: 'scan-input' });
  const submit = event => {
    event.preventDefault();
    tell('');
    // A slip of one character must not cost the other eight.
    if (handler(input.value) === false) input.select();
    else input.value = '';
  };
  const photo = h('input', { type: 'file', accept: 'image/*', capture: 'environment', id: id + 'p', class: 'unseen-input', onchange: e => {
    const file = e.target.files[0];
    e.target.value = '';
    if (file) readPhoto(file, tell);
  } });
  const button = hasCamera()
    ? h('button', { type: 'button', class: 'plain', 'aria-pressed': 'false', onclick: () => {
      isWanted = !camera;
      if (camera) stopCamera(); else openCamera(preview, button, tell);
    } }, 'Camera')
    : h('label', { class: 'plain file', for: id + 'p' }, 'Photo of a label', photo);
  if (isWanted && hasCamera()) queueMicrotask(() => { if (!camera) openCamera(preview, button, tell); });
  const element = h('form', { class: 'scan', onsubmit: submit }, preview, says,
    h('label', { for: id }, 'Type or scan a code'),
    h('div', { class: 'scan-row' }, input, h('button', { type: 'submit', class: 'plain' }, 'Read'), button));
  return { element };
};

/** Scanners that type like a keyboard: wherever the focus is, a quick burst that Enter ends goes to the parser. */
export const watchKeys = () => {
  let burst = { text: '', at: 0, field: null, before: '' };
  addEventListener('keydown', event => {
    if (event.ctrlKey || event.altKey || event.metaKey || event.isComposing) return;
    const field = event.target.closest?.('input:not([type=checkbox]):not([type=radio]), textarea, select');
    if (field?.classList.contains('scan-input')) return;
    const isNext = event.timeStamp - burst.at < BURST;
    if (event.key === 'Enter') {
      if (isNext && burst.text.length >= 6) {
        event.preventDefault();
        event.stopImmediatePropagation();
        // What the scanner typed into a field of another meaning is taken out of it again.
        if (burst.field) {
          burst.field.value = burst.before;
          burst.field.dispatchEvent(new Event('input', { bubbles: true }));
        }
        handler(burst.text);
      }
      burst = { text: '', at: 0, field: null, before: '' };
      return;
    }
    if (event.key.length !== 1) return;
    burst = isNext ? { ...burst, text: burst.text + event.key, at: event.timeStamp } : { text: event.key, at: event.timeStamp, field: field ?? null, before: field?.value ?? '' };
  }, { capture: true });
};
