// What a sheet of lines does in the browser by itself: arrows and Enter walk, a block is pasted as a whole, a scanner fills a chain.
(() => {
  'use strict';
  const watched = new Map();
  const place = cell => ({ key: cell.dataset.key, column: Number(cell.dataset.column) });
  const walk = (pane, cell, lines, columns) => {
    const rows = [...pane.querySelectorAll('tbody tr')];
    const row = rows[rows.indexOf(cell.closest('tr')) + lines];
    const next = row?.querySelectorAll('input.cell')[place(cell).column + columns];
    if (!next) return false;
    next.focus();
    next.select();
    return true;
  };
  const tell = cell => cell.dispatchEvent(new Event('change', { bubbles: true }));

  const onKey = (pane, to, e) => {
    const cell = e.target.closest('input.cell');
    if (!cell || e.isComposing || e.altKey) return;
    const isTyped = cell.dataset.typed === 'yes';
    if ((e.ctrlKey || e.metaKey) && !e.shiftKey && e.key.toLowerCase() === 'z' && !isTyped) {
      e.preventDefault();
      to.invokeMethodAsync('Undone');
      return;
    }
    if (e.ctrlKey || e.metaKey || e.shiftKey) return;
    if (e.key === 'Enter') {
      e.preventDefault();
      const between = cell.dataset.between;
      const text = cell.value.trimEnd();
      // A scanner ends with Enter: what it read stands, and the next one has room. Enter once more goes on, or whatever leaves the
      // cell, and only then is it told: an answer that came meanwhile would take the place of what is being scanned.
      if (between && isTyped && text && !text.endsWith(between.trim())) {
        cell.value = text + between;
        return;
      }
      if (between && text.endsWith(between.trim())) {
        cell.value = text.slice(0, -between.trim().length).trimEnd();
        tell(cell);
      }
      if (!walk(pane, cell, 1, 0)) cell.blur();
    } else if (e.key === 'ArrowDown' || e.key === 'ArrowUp') {
      if (cell.list && isTyped) return; // a list of words stands open
      if (walk(pane, cell, e.key === 'ArrowDown' ? 1 : -1, 0)) e.preventDefault();
    } else if (e.key === 'ArrowRight' && cell.selectionEnd === cell.value.length
      && (cell.selectionStart === cell.selectionEnd || !isTyped)) {
      if (walk(pane, cell, 0, 1)) e.preventDefault();
    } else if (e.key === 'ArrowLeft' && cell.selectionStart === 0) {
      if (walk(pane, cell, 0, -1)) e.preventDefault();
    } else if (e.key === 'Escape' && isTyped) {
      cell.value = cell.dataset.was;
      delete cell.dataset.typed;
      e.stopPropagation();
    }
  };
  const onPaste = (to, e) => {
    const cell = e.target.closest('input.cell');
    const text = e.clipboardData?.getData('text/plain') ?? '';
    if (!cell || !/[\t\n]/.test(text.trim())) return;
    e.preventDefault();
    const { key, column } = place(cell);
    to.invokeMethodAsync('Pasted', key, column, text);
  };
  // What is being typed is not what the register's side put there.
  const onInput = e => {
    const cell = e.target.closest('input.cell');
    if (!cell || cell.dataset.typed === 'yes') return;
    if (e.type === 'beforeinput') cell.dataset.was = cell.value;
    else cell.dataset.typed = 'yes';
  };
  const onSaid = e => delete e.target.dataset.typed;
  // What was put there by a key of its own is no change to the browser.
  const onLeft = e => {
    if (e.target.dataset?.typed === 'yes') tell(e.target);
  };

  window.sheet = {
    watch: (pane, to) => {
      if (!pane || watched.has(pane)) return;
      const all = [['keydown', e => onKey(pane, to, e)], ['paste', e => onPaste(to, e)],
        ['beforeinput', onInput], ['input', onInput], ['change', onSaid], ['focusin', onSaid],
        ['focusout', onLeft]];
      for (const [name, act] of all) pane.addEventListener(name, act);
      watched.set(pane, all);
    },
    leave: pane => {
      for (const [name, act] of watched.get(pane) ?? []) pane.removeEventListener(name, act);
      watched.delete(pane);
    },
  };
})();
