// The plans that would bring the rate to its target, as cards to choose one from.
// The service ranks them; choosing only shows what to set and to measure again.

import { el, goTo, put } from './dom.js';
import { has, say } from './language.js';
import { caution } from './procedure.js';
import { placeOfOperation } from './steps.js';
import { quantity } from './units.js';

/** Shows the plans of a correction; chosen is the plan of that key, if any. */
export function showPlans(element, correction, { language, chosen, choose, empty }) {
  const result = correction?.result;
  if (!result) return put(element, el('p', {}, say(correction?.status === 'none_needed' ? 'plans.noneNeeded' : 'plans.notYet')));
  const keys = keysOf(result.plans);
  const plan = result.plans[keys.indexOf(chosen)];
  const detail = el('div', { class: 'chosen', 'aria-live': 'polite' }, plan && toDo(plan, language, empty));
  put(element,
    el('p', { lang: language }, result.decisionDetail),
    tag('warnings', detailsOf(result.warnings), language, 'message warning'),
    result.plans.length > 0 && el('fieldset', { class: 'plans' },
      el('legend', {}, say('plans.choose')),
      result.plans.map((one, i) => card(one, i, keys[i] === chosen, language, () => {
        choose(keys[i]);
        put(detail, toDo(one, language, empty));
      }))),
    detail,
    leftOut(result.plansLeftOut),
    result.rejected.length > 0 && el('details', {}, el('summary', {}, say('plans.rejected', { n: result.rejected.length + (result.rejectedLeftOut ?? 0) })),
      el('ul', { class: 'rejected' }, result.rejected.map((one) => rejected(one, language))), leftOut(result.rejectedLeftOut)));
}

/** How many more there are than are shown. */
function leftOut(n) {
  return n && el('p', { class: 'hint' }, say('plans.leftOut', { n }));
}

/** What plans are known by when the sheet is calculated again; of those that change the same, by their order. */
function keysOf(plans) {
  const kinds = plans.map((plan) => [...plan.changes, plan.gear ?? '', plan.nozzle?.label ?? ''].join(' '));
  return kinds.map((kind, i) => `${kind} ${kinds.slice(0, i).filter((earlier) => earlier === kind).length}`);
}

function nameOf(plan) {
  return plan.changes.map((change) => say(`change.${change}`)).join(' + ');
}

function card(plan, i, checked, language, choose) {
  const id = `plan-${i}`;
  return el('div', { class: 'plan' },
    el('input', { type: 'radio', name: 'plan', id, checked, onchange: choose }),
    el('label', { for: id },
      el('strong', {}, nameOf(plan)),
      settings(plan).map(([key, value]) => el('span', { class: 'setting' }, el('span', {}, say(`set.${key}`)), ' ', el('b', {}, value))),
      el('span', { class: 'setting' }, el('span', {}, say('plans.rate')), ' ', el('b', {}, `${quantity(plan.predictedApplicationRate)} (${signed(plan.deviation)})`)),
      plan.dropletClass !== 'unknown' && el('span', { class: 'setting' }, el('span', {}, say('plans.droplets')), ' ', el('b', {}, has(`droplets.${plan.dropletClass}`) ? say(`droplets.${plan.dropletClass}`) : plan.dropletClass)),
      plan.aim && el('span', { class: 'setting' }, el('span', {}, say('plans.aim')), ' ', el('b', {}, quantity(plan.aim))),
      plan.atLimit && el('span', { class: 'tag' }, say('plans.atLimit')),
      tag('cautions', plan.cautionTexts, language),
      tag('warnings', detailsOf(plan.warnings), language)));
}

const detailsOf = (warnings = []) => warnings.map(({ detail }) => detail);

/** Cautions or warnings of the service under their heading. */
function tag(kind, texts = [], language, look = 'tag') {
  return texts.length > 0 && el('span', { class: look }, el('span', { class: 'sign' }, say(`sign.${kind}`)), texts.map((words) => el('span', { class: 'said', lang: language }, words)));
}

/** What a plan sets: [what, in words]. */
function settings(plan) {
  return [
    ['nozzle', plan.nozzle && (plan.nozzle.label ?? plan.nozzle.size ?? quantity(plan.nozzle.ratedFlowRate))],
    ['gear', plan.gear],
    ['engineSpeed', plan.engineSpeed && quantity(plan.engineSpeed)],
    ['sprayPressure', plan.sprayPressure && quantity(plan.sprayPressure)],
    ['dutyCycle', plan.dutyCycle && quantity(plan.dutyCycle)],
    ['groundSpeed', plan.groundSpeed && quantity(plan.groundSpeed)],
  ].filter(([, value]) => value);
}

function signed(deviation) {
  return `${deviation.value > 0 ? '+' : ''}${quantity(deviation)}`;
}

function toDo(plan, language, empty) {
  const places = plan.remeasure.filter((operation) => placeOfOperation[operation]);
  return [
    el('h3', {}, say('plans.toDo', { plan: nameOf(plan) })),
    caution(plan.cautionTexts ?? [], language),
    tag('warnings', detailsOf(plan.warnings), language),
    el('ol', {},
      settings(plan).map(([key, value]) => el('li', {}, key === 'nozzle' ? say('plans.fit', { value }) : say('plans.set', { what: say(`set.${key}`), value }))),
      places.map((operation) => el('li', {}, say(`remeasure.${operation}`), ' ', el('button', { type: 'button', class: 'quiet', onclick: () => goTo(document.getElementById(placeOfOperation[operation])) }, say('goThere'))))),
    el('button', { type: 'button', class: 'second', onclick: () => empty(places) }, say('plans.empty')),
    el('p', { class: 'hint' }, say('plans.emptyHint')),
  ];
}

function rejected(plan, language) {
  const numbers = Object.entries(plan).filter(([key, value]) => value?.unit && has(`rejected.${key}`));
  return el('li', {}, el('strong', {}, nameOf(plan)), ' ', el('span', { lang: language }, plan.detail),
    numbers.length > 0 && el('dl', {}, numbers.map(([key, value]) => el('div', {}, el('dt', {}, say(`rejected.${key}`)), el('dd', {}, quantity(value))))));
}
