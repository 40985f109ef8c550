// The language of the page: its words, and numbers as that language writes them.

import { fieldWords } from './words-fields.js';
import { words as pageWords } from './words.js';

const words = { ...pageWords, ...fieldWords };

export const languages = ['en', 'es'];
let current = 'en';

export function language() {
  return current;
}

export function speak(wanted) {
  current = languages.includes(wanted) ? wanted : 'en';
  document.documentElement.lang = current;
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
  return new Intl.NumberFormat(current, { maximumSignificantDigits: digits, useGrouping: false }).format(value);
}
