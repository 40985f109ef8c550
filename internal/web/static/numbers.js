// Numbers as people type them. A comma or a point before three digits is a decimal to
// some and thousands to others, whatever the language, so nothing is guessed there.

import { decimalSign, language, say } from './language.js';

const decimal = /^[+-]?(\d+[.,]?\d*|[.,]\d+)$/;
// With both signs, or one of them twice, there is one way to read them.
const grouped = [
  [/^[+-]?[1-9]\d{0,2}(,\d{3})+\.\d+$/, ','],
  [/^[+-]?[1-9]\d{0,2}(\.\d{3})+,\d+$/, '.'],
  [/^[+-]?[1-9]\d{0,2}(,\d{3}){2,}$/, ','],
  [/^[+-]?[1-9]\d{0,2}(\.\d{3}){2,}$/, '.'],
];

/** Whether thousands or a decimal may be meant. English has no thousands with a point. */
function doubtful(text) {
  return (language() === 'es' ? /^[+-]?[1-9]\d{0,2}[.,]\d{3}$/ : /^[+-]?[1-9]\d{0,2},\d{3}$/).test(text);
}

/** A number of the sheet as the page's language types it, all of it, and so that it can be read again. */
export function typed(value) {
  if (typeof value !== 'number') return String(value);
  const text = String(value).replace('.', decimalSign());
  return text.includes(decimalSign()) && doubtful(text) ? `${text}0` : text;
}

/**
 * Reads what was typed: 46.2 and 46,2 alike. What is not a number, or could be two, is
 * handed on as it is: the service then refuses it.
 */
export function readNumber(text) {
  const plain = text.trim();
  if (plain === '') return undefined;
  const found = grouped.find(([pattern]) => pattern.test(plain));
  if (found) return Number(plain.replaceAll(found[1], '').replace(',', '.'));
  return decimal.test(plain) && !doubtful(plain) ? Number(plain.replace(',', '.')) : plain;
}

/** What to do about a text that was not read, in words; none for one that was. */
export function unread(text) {
  const plain = text.trim();
  if (typeof readNumber(plain) !== 'string') return '';
  if (doubtful(plain)) return say('read.twoWays', { whole: plain.replace(/[.,]/, ''), decimal: typed(Number(plain.replace(',', '.'))) });
  const joined = plain.replace(/\s/g, '');
  return joined !== plain && typeof readNumber(joined) === 'number' ? say('read.spaces', { number: joined }) : say('read.none');
}
