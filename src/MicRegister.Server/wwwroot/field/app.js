import { h, fill, plural } from './dom.js';
import { phone, onChange, begin } from './phone.js';
import { status } from './sync.js';
import { listen, stopCamera, watchKeys } from './scan.js';
import { feel, cautions } from './feel.js';
import { installed } from './update.js';
import { start } from './screens/start.js';
import { layOut } from './screens/lay-out.js';
import { check } from './screens/check.js';
import { swap } from './screens/swap.js';
import { takeIn } from './screens/take-in.js';
import { report } from './screens/report.js';
import { find } from './screens/find.js';
import { said } from './screens/said.js';
import { setUp } from './screens/set-up.js';

const SCREENS = { '': start, 'lay-out': layOut, check, swap, 'take-in': takeIn, report, find, said, 'set-up': setUp };
const LOUD_AFTER = 2 * 3_600_000;
const [page, dock, news, where, unsent, home] = ['page', 'dock', 'news', 'where', 'unsent', 'home'].map(id => document.getElementById(id));
let now;

export const go = (hash, replace) => {
  if (replace) { history.replaceState(null, '', hash); route(); } else if (location.hash === hash) route(); else location.hash = hash;
};

const parse = () => {
  let hash = '';
  try { hash = decodeURIComponent(location.hash.slice(1)); } catch { /* an address that was cut in the middle of a character */ }
  // A label that a phone's own camera opened: the address ends with the code alone.
  if (hash && !hash.startsWith('/')) return /^[0-9A-Za-z]{9}$/.test(hash) ? { name: 'find', param: hash } : { name: '', param: '' };
  const [name = '', ...rest] = hash.slice(1).split('/');
  return Object.hasOwn(SCREENS, name) ? { name, param: rest.join('/') } : { name: '', param: '' };
};

const empty = () => [
  h('h1', { tabindex: '-1' }, phone.unsent === undefined ? 'Reading what this phone keeps…' : 'No campaign here yet'),
  phone.isSignedOut
    ? h('p', {}, 'This phone is not signed in. Open the invitation from the desk on it once, with a network; then come back to this page.')
    : h('p', {}, phone.kitProblem ?? (phone.campaigns?.length > 1 && !phone.campaign ? 'Choose the campaign in Set-up.' : 'The campaign is on its way.')),
  h('div', { class: 'buttons' }, h('a', { class: 'act', href: '#/set-up' }, 'Set-up'), h('a', { class: 'plain', href: '#/said' }, 'Said')),
];

const draw = async isSame => {
  const { name, param } = parse();
  const screen = SCREENS[name];
  now?.close?.();
  stopCamera();
  listen(() => {});
  feel();
  fill(dock);
  const needsKit = !screen.isFree && !phone.view;
  const own = now = { name, param, isEmpty: needsKit };
  home.toggleAttribute('hidden', name === '');
  where.textContent = name === '' ? '' : screen.title;
  document.title = `${screen.title} · MicRegister field`;
  if (needsKit) {
    fill(page, empty());
    return;
  }
  const body = h('div', {});
  const heading = h('h1', { tabindex: '-1' }, screen.title);
  // Where the work is, what is scanned next comes first.
  const warning = screen.caution && cautions(screen.caution);
  fill(page, heading, param ? null : warning, body, param ? warning : null);
  Object.assign(own, await screen.open({ body, heading, dock, param, go }));
  if (!isSame) { page.parentElement.scrollTop = 0; heading.focus({ preventScroll: true }); }
};

// One after the other: a screen that still reads its draft must not put its keys under the next one.
let turn = Promise.resolve();
const route = (isSame = false) => { turn = turn.then(() => draw(isSame)).catch(error => console.error(error)); };

const count = () => {
  if (phone.unsent === undefined) return;
  const problems = phone.outbox.filter(i => i.state !== 'waiting').length;
  const photos = phone.photos.length;
  unsent.dataset.unsent = phone.unsent;
  const isLoud = phone.unsent > 0 && (problems > 0 || Date.now() - phone.oldest > LOUD_AFTER);
  unsent.className = isLoud ? 'loud' : phone.unsent + photos > 0 ? 'some' : '';
  fill(unsent, phone.unsent > 0 ? `${phone.unsent} not sent` : photos > 0 ? '' : 'All sent',
    photos > 0 && h('span', { class: 'also' }, (phone.unsent > 0 ? ' · ' : '') + plural(photos, 'photo') + ' to send'), problems > 0 && h('span', { class: 'also' }, ' · look here'));
};

const lacks = () => {
  if (isSecureContext || sessionStorage.getItem('lacks-seen')) return null;
  return h('div', { class: 'flash look' }, h('p', {}, 'This page came over plain HTTP: no camera, no position, no photos of places, and it does not open again without the network. Keep it open. Typing, scanners and sending work.'),
    h('button', { type: 'button', class: 'plain', onclick: e => { sessionStorage.setItem('lacks-seen', '1'); e.target.parentElement.remove(); } }, 'Understood'));
};

const tell = () => {
  const updates = installed();
  fill(news,
    phone.problem && h('div', { class: 'flash stop' }, h('p', {}, phone.problem)),
    (phone.isSignedOut || status.isSignedOut) && phone.view && h('div', { class: 'flash stop' }, h('p', {}, 'Nothing can be sent: not signed in. All is kept here.'), h('a', { class: 'plain', href: '#/said' }, 'Hand over')),
    updates && h('div', { class: 'flash look' }, h('p', {}, 'A newer version is ready: reload. Nothing typed is lost.'), h('button', { type: 'button', class: 'plain', onclick: updates }, 'Reload')),
    lacks());
};

// A list that is drawn anew between press and release would swallow the press.
let isPressed = false;
let isLate = false;
const released = () => {
  isPressed = false;
  if (isLate) setTimeout(changed, 50);
};
addEventListener('pointerdown', () => { isPressed = true; }, { capture: true });
for (const name of ['pointerup', 'pointercancel']) addEventListener(name, released, { capture: true });

const changed = () => {
  count();
  isLate = isPressed;
  if (isPressed) return;
  tell();
  if (now?.isEmpty) { route(true); return; }
  now?.changed?.();
};

// A full disk must not leave a key that does nothing: what was typed is in the draft, and the screen begins anew with it.
addEventListener('unhandledrejection', event => {
  phone.problem = `Nothing was kept: ${event.reason?.message ?? event.reason}. Make room on this phone, then press again.`;
  tell();
  route(true);
});

document.querySelector('.skip').addEventListener('click', e => { e.preventDefault(); document.getElementById('main').focus(); });
addEventListener('hashchange', () => route());
onChange(changed);
watchKeys();
route();
begin().then(() => { if (!phone.view || now?.isEmpty) route(true); });
setInterval(count, 60_000);
installed(tell);
