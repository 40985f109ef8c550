// What the service says of a member, put beside the field that it names. An error
// carries a JSON pointer into the request; the field has the pointer as its name.

import { el } from './dom.js';
import { say } from './language.js';
import { parent } from './pointer.js';

/**
 * The element that a pointer means: the entry of that name, or the list; else the
 * first entry inside it, for an object that is missing; else what is around it.
 */
export function placeOf(operation, pointer) {
  const name = `${operation}#${pointer}`;
  const quoted = CSS.escape(name);
  return document.getElementsByName(name)[0]
    ?? document.querySelector(`:not(.field)[data-at="${quoted}"]`)
    ?? document.querySelector(`[name^="${quoted}/"]`)
    ?? (pointer === '' ? null : placeOf(operation, parent(pointer)));
}

/** What is missing in an entry of a list, and is asked once above it, is missing there. */
function askedOnce(place) {
  if (!place?.name || place.value !== '') return place;
  const above = document.getElementsByName(`all ${place.name.replace(/\/\d+\//, '/')}`)[0];
  return above?.value === '' ? above : place;
}

/** Takes away all that was said of an operation's sheet. */
export function clearMessages(operation) {
  for (const message of document.querySelectorAll(`.messages [data-of="${operation}"]`)) message.remove();
  for (const entry of document.querySelectorAll(`[name^="${operation}#"][aria-invalid]`)) entry.removeAttribute('aria-invalid');
}

/**
 * Puts messages {pointer, detail} of one kind in their places, in the words
 * of the service and marked with its language. Returns the places.
 */
export function showMessages(operation, messages, kind, origin, language) {
  return messages.map(({ pointer, detail }) => {
    const place = askedOnce(placeOf(operation, origin(pointer)));
    const entry = place?.matches('input, select');
    // What is wrong with an empty entry, or with a list as a whole, is that something is missing.
    const sign = kind === 'error' && !(entry && place.value !== '') ? 'missing' : kind;
    const list = entry ? place.closest('.field').querySelector('.messages') : place?.querySelector(':scope > .messages');
    const said = [...(list?.children ?? [])].some((one) => one.dataset.detail === detail);
    if (!said) list?.append(el('li', { class: sign, lang: language, 'data-of': operation, 'data-detail': detail }, el('span', { class: 'sign' }, say(`sign.${sign}`)), ` ${detail}`));
    if (sign === 'error') place.setAttribute('aria-invalid', 'true');
    // Nobody looks for a mistake where it is folded away.
    const fold = kind === 'error' && place?.closest('details');
    if (fold) fold.open = true;
    return { place, detail, sign };
  });
}

/** Every warning anywhere in an answer. */
export function warningsIn(node) {
  if (Array.isArray(node)) return node.flatMap(warningsIn);
  if (node === null || typeof node !== 'object') return [];
  return Object.entries(node).flatMap(([name, value]) => (name === 'warnings' ? value : warningsIn(value)));
}
