// Fields: a label, one big entry, a unit where there is one, and a place for what
// the service says of it. The name of an entry is operation#pointer, as in
// calibrations#/machine/tankVolume/value, so that an error finds it by its name.

import { el } from './dom.js';
import { has, say } from './language.js';
import { readNumber, typed, unread } from './numbers.js';
import { pattern } from './pointer.js';
import { rememberUnit, symbols, unitFor, unitName } from './units.js';

let count = 0;

/** A field that is bound to a member of a sheet. */
export function sheetField(operation, sheet, spec, pointer = spec.at) {
  return field(spec, {
    name: `${operation}#${pointer}`,
    words: pattern(pointer),
    get: (member) => sheet.get(pointer + member),
    set: (member, value) => sheet.set(pointer + member, value),
  });
}

/** A field; binding says where its value is from and goes to. */
export function field(spec, binding) {
  const id = `f${++count}`;
  const hint = has(`hint${binding.words}`) && el('p', { class: 'hint', id: `${id}-hint` }, say(`hint${binding.words}`));
  const described = [hint && `${id}-hint`, `${id}-note`, `${id}-messages`].filter(Boolean).join(' ');
  const title = say(`field${binding.words}`);
  const note = el('p', { class: 'note', id: `${id}-note` });
  const several = spec.kind === 'several';
  const entry = entries[spec.kind](spec, binding, { id, name: binding.name, 'aria-describedby': described }, title, note);
  return el(several ? 'fieldset' : 'div', { class: `field ${spec.kind}`, 'data-at': binding.name, 'aria-describedby': several && described },
    several ? el('legend', {}, title) : el('label', { for: id }, title), hint, el('div', { class: 'entry' }, entry), note,
    el('ul', { class: 'messages', id: `${id}-messages` }));
}

const entries = {
  quantity(spec, binding, attributes, title, note) {
    const unit = binding.get('/unit') ?? spec.unit ?? unitFor(spec.measure);
    const column = spec.column && el('span', { class: 'unit' }, unitName(unit));
    const picker = !spec.column && unitPicker({ name: `${attributes.name}/unit`, 'aria-label': say('unitOf', { what: title }) }, spec.measure, unit, (symbol) => {
      if (binding.get('/value') !== undefined) note.textContent = say('unitKept');
      binding.set('/unit', symbol);
    });
    const input = numberInput({ ...attributes, name: `${attributes.name}/value` }, binding.get('/value'), note, (value) => {
      if (value !== undefined) binding.set('/unit', picker ? picker.value : unit);
      binding.set('/value', value);
    });
    return [input, column || picker];
  },

  count(spec, binding, attributes, title, note) {
    return numberInput({ ...attributes, inputmode: 'numeric' }, binding.get(''), note, (value) => binding.set('', value));
  },

  number(spec, binding, attributes, title, note) {
    return numberInput(attributes, binding.get(''), note, (value) => binding.set('', value));
  },

  text(spec, binding, attributes) {
    return el('input', { ...attributes, type: 'text', maxlength: 80, autocomplete: 'off', value: binding.get('') ?? '', oninput: (event) => binding.set('', event.target.value.trim() || undefined) });
  },

  date(spec, binding, attributes) {
    return el('input', { ...attributes, type: 'date', value: binding.get('') ?? '', oninput: (event) => binding.set('', event.target.value || undefined) });
  },

  choice(spec, binding, attributes) {
    const chosen = binding.get('');
    return el('select', { ...attributes, onchange: (event) => binding.set('', event.target.value || undefined) },
      el('option', { value: '' }, say('notSaid')),
      spec.options.map((option) => el('option', { value: option, selected: option === chosen }, has(`option.${option}`) ? say(`option.${option}`) : option)));
  },

  /** Some of the options; all of them are the same as none. */
  several(spec, binding, { name }) {
    const chosen = [binding.get('') ?? []].flat();
    const boxes = spec.options.map((option) => el('input', { type: 'checkbox', name, value: option, checked: chosen.includes(option), onchange: () => {
      const now = boxes.filter(({ checked }) => checked).map(({ value }) => value);
      binding.set('', now.length > 0 && now.length < boxes.length ? now : undefined);
    } }));
    return boxes.map((box) => el('label', {}, box, ' ', say(`option.${box.value}`)));
  },

  yesno(spec, binding, attributes) {
    const chosen = binding.get('');
    return el('select', { ...attributes, onchange: (event) => binding.set('', event.target.value === '' ? undefined : event.target.value === 'yes') },
      el('option', { value: '' }, say('notSaid')),
      el('option', { value: 'yes', selected: chosen === true }, say('yes')),
      el('option', { value: 'no', selected: chosen === false }, say('no')));
  },
};

function numberInput(attributes, value, note, changed) {
  return el('input', {
    inputmode: 'decimal', type: 'text', autocomplete: 'off', enterkeyhint: 'next', ...attributes,
    value: value === undefined ? '' : typed(value),
    oninput: (event) => {
      note.textContent = unread(event.target.value);
      changed(readNumber(event.target.value));
    },
  });
}

/** The units that may stand beside a measure; what is picked is remembered. */
export function unitPicker(attributes, measure, chosen, changed) {
  const offered = symbols(measure);
  const all = offered.includes(chosen) ? offered : [chosen, ...offered];
  return el('select', { class: 'unit', 'data-measure': measure, ...attributes, onchange: (event) => {
    rememberUnit(measure, event.target.value);
    changed(event.target.value);
    offerToEmpty(measure, event.target.value);
  } }, all.map((symbol) => el('option', { value: symbol, selected: symbol === chosen }, unitName(symbol))));
}

/** Fields of the same measure that are still empty take the new unit too. */
function offerToEmpty(measure, symbol) {
  for (const picker of document.querySelectorAll(`select[data-measure="${measure}"]`)) {
    const input = picker.parentElement.querySelector('input');
    if (input?.value === '') picker.value = symbol;
  }
}
