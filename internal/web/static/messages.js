// What the service says of a member, put beside the field that it names. An error
// carries a JSON pointer into the request; the field has the pointer as its name.

import { el } from './dom.js';
import { language, number, say } from './language.js';
import { unread } from './numbers.js';
import { parent } from './pointer.js';

/**
 * The element that a pointer means: the entry of that name, or the list; else the
 * first entry inside it, for an object that is missing; none for what the page has not.
 */
export function placeAt(operation, pointer) {
  const name = `${operation}#${pointer}`;
  const quoted = CSS.escape(name);
  return document.getElementsByName(name)[0]
    ?? document.querySelector(`:not(.field)[data-at="${quoted}"]`)
    ?? document.querySelector(`[name^="${quoted}/"]`);
}

/** The same; for what the page has not, what is around it. */
export function placeOf(operation, pointer) {
  return placeAt(operation, pointer) ?? (pointer === '' ? null : placeOf(operation, parent(pointer)));
}

/** What is missing in an entry of a list, and is asked once above it, is missing there. */
function askedOnce(place) {
  if (!place?.name || place.value !== '') return place;
  const above = document.getElementsByName(`all ${place.name.replace(/\/\d+\//, '/')}`)[0];
  return above?.value === '' ? above : place;
}

/** What a field is called, with its entry of a list where it stands in one; else that entry, or the fold or step around it. */
export function nameOf(place) {
  const label = place?.closest('.field')?.querySelector(':scope > :is(label, legend)');
  const row = place?.closest('.row')?.querySelector('legend');
  const around = label || row ? [row, label] : [place?.closest('.fold, .step')?.querySelector('summary, h2 [data-say]')];
  return around.filter(Boolean).map((one) => one.textContent).join(', ') || undefined;
}

/**
 * The words of the service with the labels of fields in the place of the names of
 * members, such as nozzle.ratedFlowRate, which nobody knows who fills in a sheet.
 */
function withLabels(operation, { pointer, detail }, origin) {
  const entryOf = (at) => [at, `${at}/value`].map((name) => document.getElementsByName(`${operation}#${name}`)[0]).find(Boolean)
    ?? document.querySelector(`[name^="${CSS.escape(`${operation}#${at}`)}/"]`);
  return detail.replace(/\b[a-z]\w*(?:\[\d+\]|\.[a-z]\w*)*[\w\]]/g, (name) => {
    if (!/[A-Z.[]/.test(name)) return name; // a plain word
    const member = `/${name.replaceAll(/\[(\d+)\]/g, '/$1').replaceAll('.', '/')}`;
    for (let at = pointer.replace(/^#/, ''); ; at = parent(at)) {
      const entry = entryOf(origin(at + member));
      if (entry) return say('quoted', { words: nameOf(entry) });
      if (at === '') return name;
    }
  });
}

/** Takes away all that was said of an operation's sheet. */
export function clearMessages(operation) {
  for (const message of document.querySelectorAll(`.messages [data-of="${operation}"]`)) message.remove();
  for (const entry of document.querySelectorAll(`[name^="${operation}#"][aria-invalid]`)) entry.removeAttribute('aria-invalid');
}

/**
 * What is wrong with a number, for who typed it: the service words it for who wrote
 * JSON, with the symbols of units and the least number that a double may have here.
 */
function inWordsOfThePage({ code, limit }, place) {
  if (code === 'not_positive') return say('must.not_positive');
  if (limit === undefined || !['too_small', 'too_large'].includes(code)) return undefined;
  const beside = place.closest('.entry').querySelector('.unit');
  const unit = beside?.selectedOptions?.[0].textContent ?? beside?.textContent ?? '';
  return say(`must.${code}`, { limit: `${number(limit)}\u00a0${unit}`.trim() });
}

/**
 * Puts messages {pointer, detail, button} of one kind in their places, in the words of the
 * service, marked with its language, or where there are some of the page's own for a
 * number in those. What was typed and cannot be read is said where it was while typing.
 * Returns the places.
 */
export function showMessages(operation, messages, kind, origin, spoken) {
  return messages.map((message) => {
    const found = placeOf(operation, origin(message.pointer));
    const place = kind === 'question' ? found : askedOnce(found);
    const entry = place?.matches('input, select');
    // What is wrong with an empty entry, or with a list as a whole, is that something is missing.
    const sign = kind === 'error' && !(entry && place.value !== '') ? 'missing' : kind;
    const list = entry ? place.closest('.field').querySelector('.messages') : place?.querySelector(':scope > .messages');
    const typedNumber = sign === 'error' && place.matches('[inputmode]');
    const notRead = typedNumber && unread(place.value);
    const own = typedNumber ? inWordsOfThePage(message, place) : undefined;
    const detail = notRead || (own ?? withLabels(operation, message, origin));
    const said = [...(list?.children ?? [])].some((one) => one.dataset.detail === detail);
    if (notRead) place.closest('.field').querySelector('.note').textContent = notRead;
    else if (!said) list?.append(el('li', { class: sign, lang: own ? language() : spoken, 'data-of': operation, 'data-detail': detail }, el('span', { class: 'sign' }, say(`sign.${sign}`)), ` ${detail}`, message.button && [' ', message.button]));
    if (sign === 'error') place.setAttribute('aria-invalid', 'true');
    // Nobody looks for a mistake where it is folded away.
    const fold = kind !== 'warning' && place?.closest('details');
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
