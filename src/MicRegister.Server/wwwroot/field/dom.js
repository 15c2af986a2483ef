/** An element: `h('button', { class: 'act', onclick }, 'Placed')`. Texts go in as texts, so nothing that was scanned can become markup. */
export const h = (name, attributes = {}, ...children) => {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes ?? {})) {
    if (value === undefined || value === null || value === false) continue;
    if (key.startsWith('on')) element.addEventListener(key.slice(2), value);
    else if (key === 'value' || key === 'checked') element[key] = value;
    else element.setAttribute(key, value === true ? '' : value);
  }
  element.append(...children.flat(3).filter(c => c !== undefined && c !== null && c !== false));
  return element;
};

const keyOf = e => e.getAttribute('href') ?? e.getAttribute('aria-label') ?? e.labels?.[0]?.textContent ?? e.textContent;

/** Draws an element anew; the focus stays on what means the same as before. */
export const fill = (element, ...children) => {
  const active = document.activeElement;
  const key = active && active !== element && element.contains(active) ? keyOf(active) : undefined;
  element.replaceChildren(...children.flat(3).filter(c => c !== undefined && c !== null && c !== false));
  if (key !== undefined) [...element.querySelectorAll('a, button, input, select, textarea, summary')].find(e => e.tagName === active.tagName && keyOf(e) === key)?.focus({ preventScroll: true });
};

let last = 0;
export const newId = () => 'f' + ++last;

/** A labelled field whose typing is told at once, so that it can be kept. */
export const field = (label, value, onInput, options = {}) => {
  const id = newId();
  const { hint, wide, ...rest } = options;
  const input = h(options.rows ? 'textarea' : 'input', { id, type: options.rows ? undefined : 'text', autocomplete: 'off', 'aria-describedby': hint ? id + 'h' : undefined, ...rest, value: value ?? '', oninput: e => onInput(e.target.value) });
  const element = h('div', { class: 'field' }, h('label', { for: id }, label), input, hint && h('p', { id: id + 'h', class: 'hint' }, hint));
  return Object.assign(element, { input });
};

/** Numbers as people type them: with a comma or a point. */
export const numeric = text => {
  const plain = String(text ?? '').trim().replace(',', '.').replace('−', '-');
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : undefined;
};

export const tick = (label, checked, onChange) => h('label', { class: 'tick' }, h('input', { type: 'checkbox', checked, onchange: e => onChange(e.target.checked) }), h('span', {}, label));

/** A choice of few, as large keys rather than a list that has to be opened. */
export const choice = (legend, options, value, onChange, isHidden) => {
  const name = newId();
  return h('fieldset', { class: 'choice' }, h('legend', { class: isHidden ? 'unseen' : undefined }, legend),
    h('div', { class: 'keys' }, options.map(([key, words]) => h('label', {}, h('input', { type: 'radio', name, value: key, checked: key === value, onchange: () => onChange(key) }), h('span', {}, words)))));
};

export const select = (label, options, value, onChange) => {
  const id = newId();
  return h('div', { class: 'field' }, h('label', { for: id }, label),
    h('select', { id, onchange: e => onChange(e.target.value) }, options.map(([key, words]) => h('option', { value: key, selected: key === (value ?? '') }, words))));
};

const time = at => new Date(at);
export const clock = at => time(at).toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });
export const dayAndClock = at => `${time(at).toLocaleDateString('en-GB', { day: 'numeric', month: 'short' })} ${clock(at)}`;
export const plural = (count, one, many = one + 's') => `${count} ${count === 1 ? one : many}`;
