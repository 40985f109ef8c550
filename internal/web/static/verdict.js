// The verdict as it stands: the bar that is always in sight, the marks of the
// steps, and the result with what to do next.

import { judged } from './chart.js';
import { el, goTo, put } from './dom.js';
import { date, money, say } from './language.js';
import { asks, nextSteps } from './next.js';
import { steps } from './steps.js';
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

/** How a sheet stands: nothing is out of order where something is only asked about. */
export function stateOf({ verdict, nextSteps: steps }) {
  return verdict === 'incomplete' && steps.some(asks) ? 'asked' : verdict;
}

/** How a part came out: what was measured and could not be judged is not called not done. */
function statusOf({ status, result }) {
  return status === 'not_done' && result ? 'not_judged' : status;
}

/** The mark of each step in the list of steps: done, failed, not judged or not done. */
export function showMarks(answer) {
  for (const { id, part } of steps) {
    const mark = document.querySelector(`[data-mark="${id}"]`);
    if (!part) continue;
    const state = { choose_plan: 'failed', repair_first: 'failed', out_of_reach: 'failed', calibrate_controller: 'failed', none_needed: 'passed' }[answer[part].status] ?? statusOf(answer[part]);
    mark.dataset.state = state;
    put(mark, el('span', {}, say(`mark.${state}`)));
  }
}

/** The result: verdict, questions and next steps, figures of every part. */
export function showResult(element, { answer, origin, language, confirm }) {
  const state = stateOf(answer);
  put(element,
    el('p', { class: 'verdict', 'data-state': state }, el('strong', {}, say(`verdict.${state}`)), ' ', el('span', { lang: language }, answer.verdictDetail)),
    nextSteps(answer.nextSteps, { origin, language, confirm }),
    el('h3', {}, say('result.figures')),
    figures(answer).map((one) => partOf(one, language)),
    answer.rate.result?.uncertainty && el('p', { class: 'hint' }, say('result.near')));
}

function partOf({ part, status, rows, details }, language) {
  return el('section', { class: 'part', 'data-state': status },
    el('h4', {}, say(`part.${part}`), ' ', el('span', { class: 'state' }, say(`status.${status}`))),
    details.map((detail) => el('p', { lang: language }, detail)),
    rows.length > 0 && el('dl', {}, rows.map(([key, value]) => el('div', {}, el('dt', {}, say(`figure.${key}`)), el('dd', {}, value)))));
}

/** What is shown of each part: its figures and what the service says of them. */
function figures(answer) {
  const { pressure: { result: p }, output: { result: o }, speed: { result: s }, rate: { result: r }, areaCheck: { result: a }, nextDue, cost } = answer;
  const all = [
    { part: 'maintenance' },
    { part: 'pressure', of: p, rows: (u) => [['mean', p.mean], ['spread', say('of', { value: near(p.spread, u.spread), limit: quantity(p.maxDifference) })], ['flowSpread', p.flowSpread], ['cabOffset', p.cabOffset]] },
    { part: 'output', of: o, rows: (u) => [['meanFlow', near(o.meanNozzleFlowRate, u.meanNozzleFlowRate)], ['outside', judged(o) && say('outOf', { n: o.catchesOutside, all: o.catchesTested })], ['variation', o.coefficientOfVariation]], details: () => saidOfCatches(o) },
    { part: 'speed', of: s, rows: (u) => [['speed', near(s.groundSpeed, u.groundSpeed)], ['runSpread', s.spread]] },
    { part: 'rate', of: r, rows: (u) => [['treatedRate', near(r.applicationRate, u.applicationRate)], ['fieldRate', near(r.fieldApplicationRate, u.fieldApplicationRate)], ['target', r.targetApplicationRate], ['deviation', r.deviation], ['labelMaximum', r.overLabelMaximum ? say('over', { limit: quantity(r.labelMaximum) }) : r.labelMaximum], ['labelMinimum', r.underLabelMinimum ? say('under', { limit: quantity(r.labelMinimum) }) : r.labelMinimum]], details: () => [saidOfLabel(r)] },
    { part: 'areaCheck', of: a, rows: () => [['tankRate', a.applicationRate], ['deviation', a.deviation]] },
  ];
  if (nextDue) all.push({ part: 'nextDue', of: nextDue, rows: () => [['date', date(nextDue.date)]] });
  if (cost) all.push({ part: 'cost', of: cost, rows: () => [[cost.deviation.amount < 0 ? 'saves' : 'costs', say('perArea', { money: money(cost.deviation), area: cost.perArea.value === 1 ? unitName(cost.perArea.unit) : quantity(cost.perArea) })], ['costOfAll', cost.total && money(cost.total)]] });
  return all.map(({ part, of, rows, details }) => ({
    part,
    status: answer[part].status ? statusOf(answer[part]) : 'due',
    rows: of ? rows(of.uncertainty ?? {}).filter(([, value]) => value).map(([key, value]) => [key, typeof value === 'string' ? value : quantity(value)]) : [],
    details: of ? [of.decisionDetail, of.conformanceDetail, ...(details?.() ?? [])].filter(Boolean) : [],
  }));
}

/** What cannot be called of the label's limits, under their name: the rate itself may be surely off. Beyond one, measuring better is no way out. */
function saidOfLabel({ labelConformance, overLabelMaximum, underLabelMinimum }) {
  const detail = !overLabelMaximum && !underLabelMinimum && labelConformance?.conformanceDetail;
  return detail && `${say('figure.labelLimit')}: ${detail}`;
}

/** What cannot be called and what stands apart, once for all catches of which it is said; and what the catches tell of the whole boom. */
function saidOfCatches(result) {
  if (!judged(result)) return [];
  const { catches, outliers = [], sampling } = result;
  const names = new Map();
  const say = (name, words) => words && names.set(words, [...(names.get(words) ?? []), name]);
  catches.forEach(({ label, conformanceDetail }, i) => say(label ?? String(i + 1), conformanceDetail));
  outliers.forEach(({ label, pointer, text }) => say(label ?? String(Number(pointer.split('/').at(-1)) + 1), text));
  return [...[...names].map(([words, of]) => `${of.join(', ')}: ${words}`), sampling.detail];
}
