// The language of the page: its words, and numbers as that language writes them.

import { fieldWords } from './words-fields.js';
import { words as pageWords } from './words.js';

const words = { ...pageWords, ...fieldWords };

export const languages = ['en', 'es'];
let current = 'en';
let tag = 'en';

export function language() {
  return current;
}

/**
 * The language with a region, as in es-MX: half of the regions of Spanish write a decimal
 * point, so the service is asked for it and numbers go by it.
 */
export function locale() {
  return tag;
}

/** The sign between a number and its decimals. */
export function decimalSign() {
  return new Intl.NumberFormat(tag).formatToParts(1.1).find(({ type }) => type === 'decimal').value;
}

/**
 * The Spanish of a person: as the browser names it with a region, else of the region that
 * its own language is of. A crew in the US whose browser is in English reads 42.3, not 42,3.
 */
function spanish() {
  const own = navigator.languages.find((one) => /^es-/i.test(one));
  const { region } = new Intl.Locale(navigator.languages[0] ?? 'es');
  return own ?? (region ? `es-${region}` : 'es');
}

/** Sets the language; the region of Spanish decides the decimal sign. */
export function speak(wanted) {
  current = languages.includes(wanted) ? wanted : 'en';
  tag = current === 'es' ? spanish() : current;
  document.documentElement.lang = tag;
  document.title = say('title');
  for (const element of document.querySelectorAll('[data-say]')) element.textContent = say(element.dataset.say);
  for (const element of document.querySelectorAll('[data-say-label]')) element.setAttribute('aria-label', say(element.dataset.sayLabel));
}

/** The first language of the browser that the page has words in. */
export function preferred() {
  return navigator.languages.map((tag) => tag.slice(0, 2)).find((tag) => languages.includes(tag)) ?? 'en';
}

/** The words for a key; {name} in them is replaced. */
export function say(key, values = {}) {
  const pair = words[key];
  if (!pair) throw new Error(`no words for ${key}`);
  return pair[languages.indexOf(current)].replace(/\{(\w+)\}/g, (_, name) => values[name] ?? '');
}

export function has(key) {
  return key in words;
}

/** A number as people read it off a gauge. */
export function number(value, digits = 4) {
  return new Intl.NumberFormat(tag, { maximumSignificantDigits: digits, useGrouping: false }).format(value);
}

/** A day of the calendar, as March 1, 2027. */
export function date(day) {
  return new Intl.DateTimeFormat(tag, { dateStyle: 'long', timeZone: 'UTC' }).format(new Date(day));
}

/** An amount of money, without its sign, as on the record: cents where the currency has them, two digits of what is less than the smallest coin. */
export function money({ amount, currency }) {
  const written = (more) => new Intl.NumberFormat(tag, { style: 'currency', currency, currencyDisplay: 'code', useGrouping: false, ...more });
  const coin = 10 ** -written().resolvedOptions().maximumFractionDigits;
  const size = Math.abs(amount);
  return written(size > 0 && size < coin ? { maximumSignificantDigits: 2 } : {}).format(size);
}
