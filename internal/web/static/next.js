// What to do next: first the questions about entries that the service does not believe,
// then the steps, each with why and with what it rests on.

import { el, goTo } from './dom.js';
import { say } from './language.js';
import { nameOf, placeAt, placeOf, showMessages } from './messages.js';
import { calibrations, placeOfStep } from './steps.js';

/** Whether a step asks about an entry. */
export const asks = ({ code }) => code === 'check_entry';

/** The place that a next step speaks of. */
export function placeOfNext(step, origin) {
  return (step.pointer && placeOf(calibrations, origin(step.pointer))) || document.getElementById(placeOfStep[step.code] ?? 'result');
}

/** Puts the questions beside the entries that they are of. */
export function showQuestions(steps, { origin, language, confirm }) {
  const asked = steps.filter(asks).map(({ pointer, text }) => ({ pointer, detail: text, button: rightButton(pointer, confirm, 'quiet') }));
  showMessages(calibrations, asked, 'question', origin, language);
}

/** Questions and steps as elements; confirm takes the pointer of an entry that is right. */
export function nextSteps(steps, { origin, language, confirm }) {
  const toDo = steps.filter((step) => !asks(step));
  return [
    steps.filter(asks).map((step, i, all) => question(step, why(all, i, origin, language), { origin, language, confirm })),
    (toDo.length > 0 || steps.length === 0) && el('h3', {}, say('result.next')),
    steps.length === 0 && el('p', {}, say('result.nothingNext')),
    toDo.length > 0 && el('ol', { class: 'next' }, toDo.map((step, i) => toBeDone(step, why(toDo, i, origin, language), { origin, language }))),
  ];
}

function question(step, reason, { origin, language, confirm }) {
  const place = placeOfNext(step, origin);
  return el('div', { class: 'question' }, el('h3', {}, say('sign.question')),
    el('p', {}, el('strong', {}, `${nameOf(place)}: `), el('span', { lang: language }, step.text)),
    el('div', { class: 'buttons' }, goButton(place, 'first'), rightButton(step.pointer, confirm, 'second')), reason);
}

function toBeDone(step, reason, { origin, language }) {
  const place = placeOfNext(step, origin);
  return el('li', {}, el('span', { lang: language }, step.label && el('strong', {}, `${step.label}: `), step.text), ' ',
    place.id !== 'result' && goButton(place, 'quiet'), reason);
}

function goButton(place, look) {
  return el('button', { type: 'button', class: look, onclick: () => goTo(place) }, say('goThere'));
}

/** Says of an entry that was asked about that it is right. The button goes with the question, so the focus moves to what is near. */
function rightButton(pointer, confirm, look) {
  return el('button', { type: 'button', class: look, lang: document.documentElement.lang, onclick: ({ target }) => {
    const near = target.closest('.field, .list, .step');
    confirm(pointer);
    (near.querySelector(':scope > .entry > :is(input, select)') ?? near).focus({ preventScroll: true });
  } }, say('question.right'));
}

/** The rule of a step and what it rests on; of steps of one rule that follow each other, what the one before did not say. */
function why(steps, i, origin, language) {
  const step = steps[i];
  const before = steps[i - 1]?.rule === step.rule ? restsOn(steps[i - 1], origin) : undefined;
  const rests = restsOn(step, origin).filter((place) => !before?.includes(place));
  const links = rests.flatMap((place, n) => [n > 0 && ', ', el('a', { href: `#${place.closest('.step').id}`, onclick: (event) => {
    event.preventDefault();
    goTo(place);
  } }, nameOf(place))]);
  return (!before || links.length > 0) && el('small', { class: 'why' },
    !before && el('span', { lang: language }, step.why), links.length > 0 && [' ', say('restsOn'), ' ', links]);
}

/** The entries that a step rests on beside its own place; results are no places of the page. */
function restsOn({ because = [], ...step }, origin) {
  const own = placeOfNext(step, origin);
  const places = because.map((pointer) => placeAt(calibrations, origin(pointer)));
  return [...new Set(places)].filter((place) => place && !own.contains(place) && !place.contains(own));
}
