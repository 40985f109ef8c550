// The verdict as it stands: the bar that is always in sight, the marks of the
// steps, and the result with what to do next.

import { el, goTo, put } from './dom.js';
import { money, say } from './language.js';
import { placeOf } from './messages.js';
import { calibrations, placeOfStep, steps } from './steps.js';
import { near, quantity, unitName } from './units.js';

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
    figures(answer).map((one) => partOf(one, language)),
    answer.rate.result?.uncertainty && el('p', { class: 'hint' }, say('result.near')));
}

function nextStep(step, origin) {
  const place = placeOfNext(step, origin);
  return el('li', {}, step.label && el('strong', {}, `${step.label}: `), step.text, ' ',
    place && place.id !== 'result' && el('button', { type: 'button', class: 'quiet', lang: document.documentElement.lang, onclick: () => goTo(place) }, say('goThere')));
}

function partOf({ part, status, rows, details }, language) {
  return el('section', { class: 'part', 'data-state': status },
    el('h4', {}, say(`part.${part}`), ' ', el('span', { class: 'state' }, say(`status.${status}`))),
    details.map((detail) => el('p', { lang: language }, detail)),
    rows.length > 0 && el('dl', {}, rows.map(([key, value]) => el('div', {}, el('dt', {}, say(`figure.${key}`)), el('dd', {}, value)))));
}

/** What is shown of each part: its figures and what the service says of them. */
function figures({ pressure, output, speed, rate, maintenance, areaCheck, nextDue, cost }) {
  const p = pressure.result, o = output.result, s = speed.result, r = rate.result, a = areaCheck.result;
  const all = [
    { part: 'maintenance', status: maintenance.status },
    { part: 'pressure', status: pressure.status, of: p, rows: (u) => [['mean', p.mean], ['spread', say('of', { value: near(p.spread, u.spread), limit: quantity(p.maxDifference) })], ['flowSpread', p.flowSpread], ['cabOffset', p.cabOffset]] },
    { part: 'output', status: output.status, of: o, rows: (u) => [['meanFlow', near(o.meanNozzleFlowRate, u.meanNozzleFlowRate)], ['outside', say('outOf', { n: o.catchesOutside, all: o.catchesTested })], ['variation', o.coefficientOfVariation]], details: () => saidOfCatches(o) },
    { part: 'speed', status: speed.status, of: s, rows: (u) => [['speed', near(s.groundSpeed, u.groundSpeed)], ['runSpread', s.spread]] },
    { part: 'rate', status: rate.status, of: r, rows: (u) => [['treatedRate', near(r.applicationRate, u.applicationRate)], ['fieldRate', near(r.fieldApplicationRate, u.fieldApplicationRate)], ['target', r.targetApplicationRate], ['deviation', r.deviation], ['labelMaximum', r.labelMaximum]], details: () => [saidOfLabel(r)] },
    { part: 'areaCheck', status: areaCheck.status, of: a, rows: () => [['tankRate', a.applicationRate], ['deviation', a.deviation]] },
  ];
  if (nextDue) all.push({ part: 'nextDue', status: 'due', of: nextDue, rows: () => [['date', nextDue.date]] });
  if (cost) all.push({ part: 'cost', status: 'due', of: cost, rows: () => [[cost.deviation.amount < 0 ? 'saves' : 'costs', say('perArea', { money: money(cost.deviation), area: cost.perArea.value === 1 ? unitName(cost.perArea.unit) : quantity(cost.perArea) })], ['costOfAll', cost.total && money(cost.total)]] });
  return all.map(({ part, status, of, rows, details }) => ({
    part, status,
    rows: of ? rows(of.uncertainty ?? {}).filter(([, value]) => value).map(([key, value]) => [key, typeof value === 'string' ? value : quantity(value)]) : [],
    details: of ? [of.decisionDetail, of.conformanceDetail, ...(details?.() ?? [])].filter(Boolean) : [],
  }));
}

/** What cannot be called of the label's maximum, under its name: the rate itself may be surely off. */
function saidOfLabel({ labelConformance }) {
  const detail = labelConformance?.conformanceDetail;
  return detail && `${say('figure.labelMaximum')}: ${detail}`;
}

/** What cannot be called and what stands apart, once for all catches of which it is said; and what the catches tell of the whole boom. */
function saidOfCatches({ catches, outliers = [], sampling }) {
  const names = new Map();
  const say = (name, words) => words && names.set(words, [...(names.get(words) ?? []), name]);
  catches.forEach(({ label, conformanceDetail }, i) => say(label ?? String(i + 1), conformanceDetail));
  outliers.forEach(({ label, pointer, text }) => say(label ?? String(Number(pointer.split('/').at(-1)) + 1), text));
  return [...[...names].map(([words, of]) => `${of.join(', ')}: ${words}`), sampling.detail, sampling.moreCatches?.detail];
}
