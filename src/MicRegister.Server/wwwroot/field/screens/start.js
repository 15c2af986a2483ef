import { h, fill, plural, dayAndClock } from '../dom.js';
import { phone } from '../phone.js';
import { allDrafts } from '../store.js';
import { cautions } from '../feel.js';
import { listen } from '../scan.js';
import { reader, showWhy } from '../parts.js';

const ACTS = [['lay-out', 'Lay out'], ['check', 'Check'], ['swap', 'Swap'], ['take-in', 'Take in'], ['report', 'Report'], ['find', 'Find']];
const OLD_KIT = 12 * 3_600_000;

const isPlaced = s => Boolean(s.placed);
const isChecked = s => isPlaced(s) && s.checks.some(c => c.at >= s.placed.at);

/** What a crew does next, by how far the campaign is. */
const next = (stations, begun) => {
  if (begun) return { key: 'lay-out', address: '#/lay-out/' + begun, words: `Go on at ${begun}`, more: 'begun, not placed yet' };
  const open = stations.filter(s => s.state === 'planned').length;
  const unchecked = stations.filter(s => isPlaced(s) && !isChecked(s)).length;
  if (open > 0) return { key: 'lay-out', more: plural(open, 'station') + ' to go' };
  if (unchecked > 0) return { key: 'check', more: plural(unchecked, 'station') + ' not checked' };
  return { key: stations.some(isPlaced) ? 'check' : 'find' };
};

export const start = {
  title: 'Start',
  open: async ({ body, heading, go }) => {
    let stations;
    const drafts = (await allDrafts()).filter(([key]) => key.startsWith('lay-out:')).sort((a, b) => b[1].at - a[1].at);
    const scanned = h('div', { role: 'status' });
    const parts = h('div', {});
    const show = () => {
      const { campaign } = phone.view;
      ({ stations } = phone.view);
      heading.textContent = campaign.name;
      const begun = drafts.map(([, d]) => d).find(d => d.devices?.length + d.unknownLabels?.length > 0 && stations.some(s => s.name === d.station))?.station;
      const first = next(stations, begun);
      const count = key => key === 'placed' ? stations.filter(isPlaced).length : stations.filter(isChecked).length;
      const age = Date.now() - phone.kit.at;
      fill(parts,
        h('p', { class: 'quiet' }, [phone.crew || phone.view.speaker.person, campaign.site].filter(Boolean).join(' · ')),
        h('dl', { class: 'progress' }, [['Planned', stations.length], ['Placed', count('placed')], ['Checked', count('checked')]].map(([word, n]) => h('div', {}, h('dt', {}, word), h('dd', {}, n)))),
        h('div', { class: 'acts' }, [...ACTS].sort(([a], [b]) => (b === first.key) - (a === first.key)).map(([key, words]) => h('a', { href: key === first.key ? first.address ?? '#/' + key : '#/' + key, class: key === first.key ? 'next' : undefined }, key === first.key ? first.words ?? words : words, key === first.key && first.more && h('small', {}, first.more)))),
        h('p', { class: age > OLD_KIT ? undefined : 'quiet' }, age > OLD_KIT && h('strong', {}, '▲ '), `Plan as of ${dayAndClock(phone.kit.kit.madeAt)}. ${phone.kitProblem ?? ''}`),
        cautions('Local site rules come first. All cautions'),
        h('div', { class: 'buttons' }, h('a', { class: 'plain', href: '#/said' }, 'Said'), h('a', { class: 'plain', href: '#/set-up' }, 'Set-up')));
    };
    fill(body, scanned, parts);
    show();
    listen(reader(scanned, found => {
      if (found.code && !found.device && !found.station) go('#/find/' + found.code);
      else if (found.station) go((found.station.placed ? '#/find/' : '#/lay-out/') + encodeURIComponent(found.station.name));
      else if (found.device) go('#/find/' + (found.device.label ?? found.device.id));
      else showWhy(scanned, 'Nothing was found.');
    }));
    return { changed: show };
  },
};
