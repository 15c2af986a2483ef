import { h, fill } from './dom.js';

export const SHAPES = { good: ['●', 'good'], look: ['▲', 'look'], stop: ['■', 'stop'] };
const frame = document.getElementById('edge');

/** Shape and word, never a colour alone. */
export const badge = verdict => h('span', { class: 'badge ' + verdict }, h('span', { 'aria-hidden': 'true' }, SHAPES[verdict][0] + ' '), SHAPES[verdict][1]);

/** Shows a verdict around the whole screen and in the hand; short for good, long-long for bad. */
export const feel = (verdict, isQuiet) => {
  frame.className = verdict ?? '';
  if (verdict && !isQuiet) navigator.vibrate?.(verdict === 'good' ? 60 : verdict === 'look' ? [200, 100, 200] : [500, 150, 500]);
};

/** What was scanned, large, with its kind in words, the verdict and its reasons. */
export const card = ({ kind, name, more, verdict, reasons = [] }) =>
  h('section', { class: 'card ' + (verdict ?? ''), 'aria-label': 'Last scan' },
    h('div', { class: 'card-top' }, verdict && badge(verdict), kind && h('span', { class: 'kind' }, kind)),
    h('p', { class: 'name' }, name), more && h('p', {}, more),
    reasons.length > 0 && h('ul', {}, reasons.map(r => h('li', {}, r))));

const CAUTIONS = [
  'Local site rules come first.',
  'Keep out of the flight line and of rotor areas while anything can fly or turn.',
  'Mind vehicles: wear what is seen, face the traffic, never walk behind one that reverses.',
  'Heat and sun: drink, cover up, rest in the shade; nobody works alone for long.',
  'Lightning or thunder: stop, leave open ground and tall poles, wait for the all-clear.',
  'Keep water away from powered gear; do not touch mains parts with wet gloves.',
  'Polarisation voltage: switch off and wait before a capsule is unscrewed.',
  'Calibrators are loud: never hold one at the ear.',
];

/** A short line that opens to the whole list. */
export const cautions = lead => h('details', { class: 'cautions' }, h('summary', {}, h('span', { 'aria-hidden': 'true' }, '▲'), h('span', {}, lead)), h('ul', {}, CAUTIONS.map(c => h('li', {}, c))));

export const flash = (place, verdict, text, ...acts) =>
  fill(place, h('div', { class: 'flash ' + verdict }, h('p', {}, h('span', { 'aria-hidden': 'true' }, SHAPES[verdict][0] + ' '), text), acts));
