// What the desk does in the browser by itself: turn the look, open the search and work it by keys, leave dialogs by Escape,
// keep the focus in long lists, move in sheets, bring dropped files to their fields, keep what is not stored yet.
(() => {
  'use strict';
  const root = document.documentElement;
  const prefersDark = matchMedia('(prefers-color-scheme: dark)');
  const isDark = () => root.dataset.look ? root.dataset.look === 'dark' : prefersDark.matches;
  const turnLook = () => {
    root.dataset.look = isDark() ? 'light' : 'dark';
    const secure = location.protocol === 'https:' ? '; secure' : '';
    document.cookie = `look=${root.dataset.look}; path=/; max-age=31536000; samesite=lax${secure}`;
  };

  const search = () => document.getElementById('search');
  const words = () => document.getElementById('search-words');
  const hits = () => [...search().querySelectorAll('[role=option]')];
  const mark = i => {
    const all = hits();
    const at = all.length === 0 ? -1 : (i + all.length) % all.length;
    all.forEach((hit, n) => {
      hit.id = `search-hit-${n}`;
      hit.setAttribute('aria-selected', String(n === at));
      if (n === at) hit.scrollIntoView({ block: 'nearest' });
    });
    if (at < 0) words().removeAttribute('aria-activedescendant');
    else words().setAttribute('aria-activedescendant', `search-hit-${at}`);
  };
  const marked = () => hits().findIndex(hit => hit.getAttribute('aria-selected') === 'true');
  const openSearch = () => {
    const dialog = search();
    if (!dialog || dialog.open) return;
    dialog.showModal();
    words().select();
    mark(0);
    if (dialog.dataset.watched) return;
    dialog.dataset.watched = 'yes';
    new MutationObserver(() => mark(0)).observe(document.getElementById('search-hits'), { childList: true, characterData: true, subtree: true });
  };
  // Enter may come before the answer to the last key: what is opened belongs to what stands in the field.
  const answered = async () => {
    const until = Date.now() + 5000;
    while (document.getElementById('search-hits').dataset.for !== words().value && Date.now() < until)
      await new Promise(next => setTimeout(next, 15));
    return document.getElementById('search-hits').dataset.for === words().value;
  };
  const go = hit => {
    if (!hit) return;
    search().close();
    Blazor.navigateTo(new URL(hit.dataset.href, document.baseURI).href);
  };

  addEventListener('click', e => {
    if (e.target.closest('[data-turn-look]')) turnLook();
    if (e.target.closest('[data-open-search]')) openSearch();
    const hit = e.target.closest('#search [role=option]');
    if (hit) go(hit);
    if (e.target === search()) search().close(); // beside it
  });
  addEventListener('keydown', async e => {
    if (e.key.toLowerCase() === 'k' && (e.ctrlKey || e.metaKey) && !e.altKey && !e.shiftKey && search()) {
      e.preventDefault();
      openSearch();
      return;
    }
    if (search()?.open) {
      if (e.key === 'ArrowDown' || e.key === 'ArrowUp') {
        e.preventDefault();
        mark(marked() + (e.key === 'ArrowDown' ? 1 : -1));
      } else if (e.key === 'Enter' && !e.isComposing) {
        e.preventDefault();
        const at = marked(), before = document.getElementById('search-hits').dataset.for;
        if (await answered()) go(hits()[before === words().value ? at : 0]);
      }
      return;
    }
    // The library closes a dialog by Escape without asking: its own way out is pressed instead.
    if (e.key === 'Escape' && !document.querySelector('.mud-popover-open')) {
      const dialogs = document.querySelectorAll('.mud-dialog');
      dialogs[dialogs.length - 1]?.querySelector('[data-cancel]')?.click();
    }
  }, true);

  // Enter in a line of a dialog presses its key, as in any form. What was typed is told first.
  addEventListener('keydown', e => {
    const line = e.key === 'Enter' && !e.isComposing && e.target.closest?.('.asking input:not([type=file], [type=checkbox], [type=radio])');
    if (!line || line.closest('.mud-picker, [data-own-enter]') || document.querySelector('.mud-popover-open')) return;
    e.preventDefault();
    line.dispatchEvent(new Event('change', { bubbles: true }));
    line.closest('.mud-dialog').querySelector('[data-yes]').click();
  });
  // The key that opened a dialog gets the focus back; where it is gone, the head of the page does.
  let opener = null;
  addEventListener('click', e => {
    const key = e.target.closest?.('button, a[href]');
    if (key && !document.querySelector('.mud-dialog')) opener = key;
  }, true);
  const leaveDialog = async () => {
    const until = Date.now() + 2000;
    while (document.querySelector('.mud-dialog') && Date.now() < until) await new Promise(next => setTimeout(next, 15));
    const back = opener?.isConnected && opener.offsetParent ? opener : document.querySelector('main h1');
    back?.focus({ preventScroll: back !== opener });
  };
  // The first field that something is wrong with, once it is drawn.
  const toFault = () => requestAnimationFrame(() => document.querySelector('.mud-dialog [aria-invalid=true]')?.focus());
  // What was chosen below the fold comes into sight under the bar.
  const bring = id => document.getElementById(id)?.scrollIntoView({ block: 'start' });

  // A virtualised list takes away the row that has the focus; it gets it back when it is drawn again.
  let last = null;
  const seen = new WeakSet();
  const again = () => last && document.activeElement === document.body
    && document.querySelector(`.fleet tbody a[href="${CSS.escape(last)}"]`)?.focus({ preventScroll: true });
  addEventListener('focusin', e => {
    last = e.target.matches('.fleet tbody a') ? e.target.getAttribute('href') : null;
    const pane = last && e.target.closest('.mud-table-container');
    if (pane && !seen.has(pane)) {
      seen.add(pane);
      new MutationObserver(again).observe(pane, { childList: true, subtree: true });
    }
  });
  addEventListener('keydown', e => {
    const link = e.target.closest?.('.fleet tbody a');
    if (!link || (e.key !== 'ArrowDown' && e.key !== 'ArrowUp')) return;
    e.preventDefault();
    const links = [...link.closest('tbody').querySelectorAll('a')];
    links[links.indexOf(link) + (e.key === 'ArrowDown' ? 1 : -1)]?.focus();
  });
  // What is filtered begins at its top.
  addEventListener('input', e => {
    if (!e.target.closest('[data-filters]')) return;
    for (const pane of document.querySelectorAll('.fleet .mud-table-container')) pane.scrollTop = 0;
  });

  // In a sheet, rows say data-line and cells data-col. Enter goes from the serial number to the result and from there to the next line;
  // where that line has a serial number already, to the same column. Moved here, so that what is typed next cannot go astray on its way.
  const cellOf = (row, col) => row?.querySelector(`[data-col="${col}"]`);
  const goTo = cell => {
    cell.focus();
    cell.select?.();
    cell.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  };
  // The line that is wanted is on its way where the last one was only just begun: keys wait for it, and never go to the line before.
  let held = null;
  const whenDrawn = (sheet, find) => {
    const found = find();
    if (found) return goTo(found);
    held = [];
    const until = Date.now() + 5000;
    const watch = setInterval(() => {
      const cell = find();
      if (!cell && Date.now() < until) return;
      clearInterval(watch);
      const keys = held;
      held = null;
      if (cell) goTo(cell);
      keys.forEach(type);
    }, 15);
  };
  const type = key => {
    const cell = document.activeElement;
    if (held) held.push(key);
    else if (key === 'Enter') move(cell, key);
    else if (cell.setRangeText) {
      const isBack = key === 'Backspace', isNone = cell.selectionStart === cell.selectionEnd;
      const from = isBack && isNone ? Math.max(0, cell.selectionStart - 1) : cell.selectionStart;
      cell.setRangeText(isBack ? '' : key, from, cell.selectionEnd, 'end');
      cell.dispatchEvent(new InputEvent('input', { bubbles: true }));
    }
  };
  const isAtEdge = (cell, end) => cell.tagName === 'SELECT'
    || (cell.selectionStart === 0 && cell.selectionEnd === cell.value.length)
    || (cell.selectionStart === cell.selectionEnd && cell.selectionStart === (end ? cell.value.length : 0));
  const move = (cell, key) => {
    const sheet = cell.closest('[data-sheet]'), row = cell.closest('[data-line]'), col = cell.dataset.col;
    if (!row) return false;
    const rows = () => [...sheet.querySelectorAll('[data-line]')];
    const at = rows().indexOf(row);
    const isChoice = cell.tagName === 'SELECT';
    const along = [...row.querySelectorAll('[data-col]')];
    if (key === 'Enter') {
      whenDrawn(sheet, col === 'serial' && cell.value ? () => cellOf(row, 'value')
        : () => cellOf(rows()[at + 1], cellOf(rows()[at + 1], 'serial')?.value ? col : 'serial'));
      return true;
    }
    const to = key === 'ArrowDown' && !isChoice ? cellOf(rows()[at + 1], col)
      : key === 'ArrowUp' && !isChoice ? cellOf(rows()[at - 1], col)
      : key === 'ArrowRight' && isAtEdge(cell, true) ? along[along.indexOf(cell) + 1]
      : key === 'ArrowLeft' && isAtEdge(cell, false) ? along[along.indexOf(cell) - 1] : null;
    if (to) goTo(to);
    return Boolean(to);
  };
  addEventListener('keydown', e => {
    const cell = e.target.closest?.('[data-sheet] [data-col]');
    if (!cell || e.isComposing || e.ctrlKey || e.altKey || e.metaKey) return;
    if (held && (e.key.length === 1 || e.key === 'Enter' || e.key === 'Backspace')) {
      e.preventDefault();
      held.push(e.key);
    } else if (!e.shiftKey && move(cell, e.key)) e.preventDefault();
  });

  // Files dropped anywhere where some are taken go to the field that the nearest place names; without this the browser would open them
  // and leave the page with all that was typed.
  const holdsFiles = e => e.dataTransfer && [...e.dataTransfer.types].includes('Files');
  const placeOf = e => e.target.closest?.('[data-drops]') ?? document.querySelector('[data-drops]');
  const unmark = () => document.querySelectorAll('.dropping').forEach(p => p.classList.remove('dropping'));
  addEventListener('dragover', e => {
    const place = holdsFiles(e) && placeOf(e);
    if (!place) return;
    e.preventDefault();
    if (place.classList.contains('dropping')) return;
    unmark();
    place.classList.add('dropping');
  });
  addEventListener('dragleave', e => { if (!e.relatedTarget) unmark(); });
  addEventListener('drop', async e => {
    const place = holdsFiles(e) && placeOf(e);
    unmark();
    if (!place) return;
    e.preventDefault();
    const files = e.dataTransfer.files;
    // While others are being read the field is shut: these wait their turn.
    const until = Date.now() + 120000;
    while (place.querySelector(place.dataset.drops)?.disabled && Date.now() < until) await new Promise(next => setTimeout(next, 100));
    const field = place.querySelector(place.dataset.drops);
    if (!field || field.disabled) return;
    field.files = files;
    field.dispatchEvent(new Event('change', { bubbles: true }));
  });

  // What is not stored yet stays with this tab. Null forgets it; false is the answer where the browser keeps nothing.
  const keep = (name, text) => {
    try {
      if (text === null) sessionStorage.removeItem(name);
      else sessionStorage.setItem(name, text);
      return true;
    } catch {
      return false;
    }
  };
  const kept = name => {
    try {
      return sessionStorage.getItem(name);
    } catch {
      return null;
    }
  };
  const enter = (col, line) => document.querySelectorAll(`[data-sheet] [data-col="${col}"]`)[line]?.focus();

  window.desk = { isDark, turnLook, leaveDialog, toFault, bring, keep, kept, enter };
})();
