// The tank mix: a second, small sheet, asked of /v1/tank-loads. What the first one
// knows is offered: the tank, and the rate that was really measured.

import { asCurl, whenTypingStops } from './api.js';
import { el, put } from './dom.js';
import { block } from './form.js';
import { locale, say } from './language.js';
import { clearMessages, showMessages, warningsIn } from './messages.js';
import { caution } from './procedure.js';
import { Sheet } from './sheet.js';
import { tankBlocks, wantedIn } from './steps.js';
import { forget, keep, kept } from './storage.js';
import { quantity, system } from './units.js';

const operation = 'tank-loads';
const sheet = new Sheet(wantedIn(tankBlocks), kept('tank', {}));
const fields = el('div');
const answerPlace = el('div', { class: 'tank-answer', 'aria-live': 'polite' });
const notYet = el('p', { class: 'message error', hidden: true });
let request;

/** Shows the form; offered takes what the field sheet knows. */
export function showTank(element, offered) {
  const take = el('button', { type: 'button', class: 'second', onclick: () => {
    const known = Object.fromEntries(Object.entries(offered()).filter(([, value]) => value !== undefined));
    sheet.replace({ ...sheet.tree, ...known });
    showFields();
  } }, say('mix.take'));
  put(element, el('p', {}, say('mix.intro')), notYet, take, fields, answerPlace, el('ul', { class: 'messages' }));
  element.setAttribute('data-at', `${operation}#`);
  showFields();
  check();
}

/** Says beside the mix that the sprayer is not ready for one; detail is why, by the service. */
export function warnOfMix(detail, spoken) {
  notYet.hidden = !detail;
  put(notYet, el('span', { class: 'sign' }, say('mix.notReady')), ' ', detail && el('span', { lang: spoken }, detail));
}

export function clearTank() {
  sheet.replace({});
}

export function showFields() {
  put(fields, tankBlocks.map((one) => block(operation, sheet, one)));
}

sheet.changed = () => {
  if (Object.keys(sheet.tree).length > 0) keep('tank', sheet.tree);
  else forget('tank');
  check();
};

function check() {
  request = sheet.request();
  if (Object.keys(request.body).length === 0) {
    clearMessages(operation);
    return put(answerPlace);
  }
  ask({ ...request.body, resultUnits: system() }, locale());
}

const ask = whenTypingStops(operation, 500, {
  asking() {},
  replied({ answer, problem, language: spoken }) {
    clearMessages(operation);
    if (problem) {
      showMessages(operation, problem.errors ?? [], 'error', request.origin, spoken);
      return put(answerPlace, problem.errors ? el('p', { class: 'hint' }, say('mix.notYet')) : el('p', { lang: spoken }, problem.detail));
    }
    showMessages(operation, warningsIn(answer), 'warning', request.origin, spoken);
    put(answerPlace, loads(answer, spoken));
  },
  failed() {
    put(answerPlace, el('p', {}, say('verdict.offline')));
  },
});

function loads(answer, spoken) {
  const columns = [['full', answer.fullLoads > 0 && 'perFullLoad'], ['part', answer.partLoad && 'perPartLoad'], ['total', 'total']].filter(([, has]) => has);
  const rows = [...answer.products.map((product) => [product.name ?? say('mix.product'), product]), [say('mix.water'), answer.carrierWater]];
  return [
    el('h3', {}, say('mix.title')),
    el('p', {}, say('mix.loads', { loads: answer.loads, volume: quantity(answer.sprayVolume), area: quantity(answer.treatedArea) })),
    el('div', { class: 'wide', tabindex: '0', role: 'region', 'aria-label': say('mix.title') }, el('table', {},
      el('thead', {}, el('tr', {}, el('th', { scope: 'col' }, say('mix.what')), columns.map(([key]) => el('th', { scope: 'col' }, say(`mix.${key}`))))),
      el('tbody', {}, rows.map(([name, amounts]) => el('tr', {}, el('th', { scope: 'row' }, name),
        columns.map(([, member]) => el('td', {}, amount(amounts, member)))))))),
    caution(answer.cautions.map(({ text }) => text).filter((text) => !alreadySaid(text)), spoken),
    answer.mixingOrder && el('details', { open: true }, el('summary', {}, say('mix.order')), el('ol', { lang: spoken }, answer.mixingOrder.map(({ text }) => el('li', {}, text)))),
    (answer.nextSteps ?? []).map(({ text }) => el('p', { class: 'mix-next', lang: spoken }, text)),
  ];
}

/** Whether the box at the top of the step has a caution: nobody reads the same one twice. */
function alreadySaid(text) {
  return [...document.querySelectorAll('#mix > .cautions li')].some((one) => one.textContent === text);
}

function amount(amounts, member) {
  const found = amounts.measure?.[member] ?? amounts[member];
  return found ? quantity(found) : '–';
}

/** The request as it was last asked, for developers. */
export function tankAsCurl() {
  return request && asCurl(operation, { ...request.body, resultUnits: system() }, locale());
}
