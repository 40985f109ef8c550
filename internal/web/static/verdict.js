// The verdict as it stands: the bar that is always in sight, the marks of the
// steps, and the result with what to do next.

import { el, goTo, put } from './dom.js';
import { say } from './language.js';
import { placeOf } from './messages.js';
import { calibrations, placeOfStep, steps } from './steps.js';
import { quantity } from './units.js';

const bar = document.getElementById('bar');
const barVerdict = document.getElementById('bar-verdict');
const barNext = document.getElementById('bar-next');

/** Says in the bar how things stand. What did not change is not said again. */
export function showBar({ state, next, target, language }) {
  bar.dataset.state = state;
  const words = say(`verdict.${state}`);
  if (barVerdict.textContent !== words) barVerdict.textContent = words;
  const text = next ?? say(`verdict.${state}.next`);
  if (barNext.textContent !== text) barNext.textContent = text;
  barNext.lang = next ? language : document.documentElement.lang;
  barNext.onclick = (event) => {
    event.preventDefault();
    goTo(target);
  };
  barNext.href = target?.id ? `#${target.id}` : '#result';
}

export function checking(now) {
  bar.setAttribute('aria-busy', String(now));
}

/** The place that a next step speaks of. */
export function placeOfNext(step, origin) {
  return (step.pointer && placeOf(calibrations, origin(step.pointer))) || document.getElementById(placeOfStep[step.code] ?? 'result');
}

/** The mark of each step in the list of steps: done, failed, or not done. */
export function showMarks(answer) {
  for (const { id, part } of steps) {
    const mark = document.querySelector(`[data-mark="${id}"]`);
    if (!part) continue;
    const state = { choose_plan: 'failed', repair_first: 'failed', out_of_reach: 'failed', calibrate_controller: 'failed', none_needed: 'passed' }[answer[part].status] ?? answer[part].status;
    mark.dataset.state = state;
    put(mark, el('span', {}, say(`mark.${state}`)));
  }
}

/** The result: verdict, next steps, figures of every part, cautions. */
export function showResult(element, { answer, origin, language }) {
  put(element,
    el('p', { class: 'verdict', 'data-state': answer.verdict }, el('strong', {}, say(`verdict.${answer.verdict}`)), ' ', el('span', { lang: language }, answer.verdictDetail)),
    el('h3', {}, say('result.next')),
    answer.nextSteps.length === 0 && el('p', {}, say('result.nothingNext')),
    el('ol', { class: 'next', lang: language }, answer.nextSteps.map((step) => nextStep(step, origin))),
    el('h3', {}, say('result.figures')),
    figures(answer).map(([part, status, rows, detail]) => partOf(part, status, rows, detail, language)));
}

function nextStep(step, origin) {
  const place = placeOfNext(step, origin);
  return el('li', {}, step.label && el('strong', {}, `${step.label}: `), step.text, ' ',
    place && place.id !== 'result' && el('button', { type: 'button', class: 'quiet', lang: document.documentElement.lang, onclick: () => goTo(place) }, say('goThere')));
}

function partOf(part, status, rows, detail, language) {
  return el('section', { class: 'part', 'data-state': status },
    el('h4', {}, say(`part.${part}`), ' ', el('span', { class: 'state' }, say(`status.${status}`))),
    detail && el('p', { lang: language }, detail),
    rows.length > 0 && el('dl', {}, rows.map(([key, value]) => el('div', {}, el('dt', {}, say(`figure.${key}`)), el('dd', {}, value)))));
}

/** What is shown of each part: [part, status, rows, detail]. */
function figures({ pressure, output, speed, rate, maintenance, areaCheck, nextDue, cost }) {
  const p = pressure.result, o = output.result, s = speed.result, r = rate.result, a = areaCheck.result;
  const all = [
    ['maintenance', maintenance.status, []],
    ['pressure', pressure.status, p ? [['mean', quantity(p.mean)], ['spread', say('of', { value: quantity(p.spread), limit: quantity(p.maxDifference) })], ['flowSpread', p.flowSpread], ['cabOffset', p.cabOffset]] : []],
    ['output', output.status, o ? [['meanFlow', o.meanNozzleFlowRate], ['outside', say('outOf', { n: o.catchesOutside, all: o.catchesTested })], ['variation', o.coefficientOfVariation]] : [], o?.decisionDetail],
    ['speed', speed.status, s ? [['speed', s.groundSpeed], ['runSpread', s.spread]] : []],
    ['rate', rate.status, r ? [['treatedRate', r.applicationRate], ['fieldRate', r.fieldApplicationRate], ['target', r.targetApplicationRate], ['deviation', r.deviation], ['labelMaximum', r.labelMaximum]] : []],
    ['areaCheck', areaCheck.status, a ? [['tankRate', a.applicationRate], ['deviation', a.deviation]] : []],
  ];
  if (nextDue) all.push(['nextDue', 'due', [['date', nextDue.date]]]);
  if (cost) all.push(['cost', 'due', [['costOfDeviation', `${quantity({ value: cost.deviation.amount, unit: cost.deviation.currency })} / ${quantity(cost.perArea)}`]]]);
  return all.map(([part, status, rows, detail]) => [part, status, rows.filter(([, value]) => value).map(([key, value]) => [key, typeof value === 'string' ? value : quantity(value)]), detail]);
}
