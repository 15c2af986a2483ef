import { h, fill, field, select, tick, dayAndClock } from '../dom.js';
import { phone, chooseCampaign, refresh } from '../phone.js';
import { setMeta } from '../store.js';
import { canTake } from '../photos.js';
import { canLocate } from '../position.js';
import { hasCamera } from '../scan.js';
import { version } from '../update.js';

const yes = (is, word, otherwise) => h('li', {}, is ? '● ' + word : '▲ ' + otherwise);

export const setUp = {
  title: 'Set-up',
  isFree: true,
  open: async ({ body, dock }) => {
    const shown = h('div', {});
    const [number, isKept, room] = await Promise.all([version(), navigator.storage?.persisted?.() ?? false, navigator.storage?.estimate?.().catch(() => undefined)]);
    const persist = async e => { e.target.disabled = true; e.target.textContent = await navigator.storage.persist() ? 'Kept for good' : 'The browser did not agree'; };
    const tellCampaign = () => phone.me?.campaign
      ? h('p', {}, h('strong', {}, 'Campaign: '), phone.view?.campaign.name ?? phone.me.campaign, ' (this phone is invited to it)')
      : phone.campaigns?.length > 0 ? select('Campaign', [['', 'Choose'], ...phone.campaigns.map(c => [c.id, c.name])], phone.campaign, id => id && chooseCampaign(id))
      : h('p', {}, phone.isSignedOut ? 'This phone is not signed in. Open the invitation from the desk on it.' : phone.kitProblem ?? 'No campaign is known yet.');
    const place = h('div', {});
    const show = () => fill(place, tellCampaign(), h('p', {}, h('strong', {}, 'Speaks as: '), phone.view?.speaker.person ?? phone.me?.person ?? 'nobody yet'), phone.kit && h('p', {}, `Plan of ${dayAndClock(phone.kit.kit.madeAt)}, asked last ${dayAndClock(phone.kit.at)}. ${phone.kitProblem ?? ''}`));
    fill(shown, place,
      field('Name of this crew', phone.crew, v => { phone.crew = v.trim(); setMeta('crew', phone.crew); }, { hint: 'Shown on this phone, and in the name of files handed over.' }),
      tick('Put the position into photos of stations', phone.hasPhotoPlace, v => { phone.hasPhotoPlace = v; setMeta('photo-place', v); }),
      h('h2', {}, 'This phone'),
      h('ul', {}, yes(isSecureContext, 'Safe connection', 'Plain HTTP: keep this page open, it does not open without the network'), yes(number !== undefined, `Works without a network, version ${number}`, 'Not kept for work without a network yet'), yes(hasCamera(), 'Camera can scan', 'No camera here: type, use a scanner, or photograph labels'), yes(canLocate(), 'Position can be taken', 'No position here'), yes(canTake(), 'Photos can be kept', 'No photos of places here'),
        yes(isKept, 'The browser keeps what is not sent', 'The browser may clear what is not sent when space runs out'), room && h('li', {}, `Space: ${Math.round(room.usage / 1e6)} MB used`)),
      !isKept && navigator.storage?.persist && h('button', { type: 'button', class: 'plain', onclick: persist }, 'Ask the browser to keep it'));
    fill(body, shown);
    fill(dock, h('button', { type: 'button', class: 'act later', onclick: async e => { e.target.disabled = true; await refresh(); e.target.disabled = false; show(); } }, 'Fetch the plan anew'));
    show();
    return { changed: show };
  },
};
