// The drops against the range that each may be in. Every mark is told apart by its
// shape and by words too, and the same numbers stand in a table below.

import { el, put, svg } from './dom.js';
import { number, say } from './language.js';
import { quantity, span, unitName } from './units.js';

const row = 30;
const longest = 20; // letters of a name
const right = 16;
const top = 34;
const width = 320;

/** Whether the catches tell of the nozzles; else something comes before them. */
export function judged(result) {
  return result.decision !== 'not_judged';
}

/** Draws the catches of an output result. */
export function showChart(element, result) {
  if (result && !judged(result)) return put(element, el('p', { class: 'hint' }, say('chart.notJudged')));
  const catches = (result?.catches ?? []).filter((drop) => drop.acceptableFlowRate);
  if (catches.length === 0) return put(element, el('p', { class: 'hint' }, say('chart.none')));
  const names = catches.map((drop, i) => shorten(drop.label ?? String(i + 1)));
  const axis = scale(catches, 24 + 7 * Math.max(8, ...names.map((name) => name.length)));
  const height = top + catches.length * row + 8;
  const drawing = svg('svg', { viewBox: `0 0 ${width} ${height}`, role: 'img', class: 'chart', 'aria-labelledby': 'chart-title chart-desc' },
    svg('title', { id: 'chart-title' }, say('chart.title')),
    svg('desc', { id: 'chart-desc' }, describe(result)),
    axis.ticks.map((value) => svg('g', {},
      svg('line', { class: 'tick', x1: axis.x(value), x2: axis.x(value), y1: top - 6, y2: height - 8 }),
      svg('text', { class: 'tick-label', x: axis.x(value), y: top - 12, 'text-anchor': 'middle' }, number(value)))),
    catches.map((drop, i) => line(drop, names[i], i, axis)));
  put(element, el('h3', {}, say('chart.title')),
    el('p', { class: 'key' }, say('chart.key', { unit: unitName(catches[0].nozzleFlowRate.unit) })),
    drawing, table(catches));
}

function line(drop, name, i, axis) {
  const y = top + i * row + row / 2;
  const range = drop.acceptableFlowRate;
  const [low, high] = [range.low ? axis.x(range.low.value) : axis.left, range.high ? axis.x(range.high.value) : width - right];
  const x = axis.x(drop.nozzleFlowRate.value);
  return svg('g', { class: `drop ${drop.status}` },
    svg('text', { class: 'name', x: axis.left - 10, y: y + 5, 'text-anchor': 'end' }, name),
    svg('rect', { class: 'range', x: low, y: y - 9, width: high - low, height: 18, rx: 2 }),
    range.low && range.high && svg('line', { class: 'stem', x1: (low + high) / 2, x2: x, y1: y, y2: y }),
    mark(drop.status, x, y));
}

/** A dot within, an arrow head out of the range on the side that it lies. */
function mark(status, x, y) {
  if (status === 'within') return svg('circle', { class: 'mark', cx: x, cy: y, r: 6 });
  const out = status === 'above' ? 9 : -9;
  return svg('path', { class: 'mark', d: `M${x + out} ${y} L${x - out / 2} ${y - 9} L${x - out / 2} ${y + 9} Z` });
}

/** Where values lie on the drawing: a little more than all that has to be shown. */
function scale(catches, left) {
  const values = catches.flatMap(({ nozzleFlowRate, acceptableFlowRate: { low, high } }) => [nozzleFlowRate, low, high].filter(Boolean).map(({ value }) => value));
  const low = Math.min(...values), high = Math.max(...values);
  const margin = (high - low || high) * 0.12;
  const x = (value) => left + ((value - low + margin) / (high - low + 2 * margin)) * (width - left - right);
  return { x, left, ticks: ticksBetween(low, high) };
}

/** Round numbers, two to five of them. */
function ticksBetween(low, high) {
  const rough = (high - low || high) / 4;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((n) => n * power).find((n) => n >= rough);
  const ticks = [];
  for (let n = Math.ceil(low / step); n * step <= high; n++) ticks.push(n * step);
  return ticks;
}

/** The end of a name stays: it tells the nozzles of a drop apart. */
function shorten(name) {
  return name.length > longest ? `${name.slice(0, longest - 12)}…${name.slice(-11)}` : name;
}

function describe(result) {
  return say('chart.description', { n: result.catchesTested, outside: result.catchesOutside });
}

function table(catches) {
  return el('details', {}, el('summary', {}, say('chart.table')),
    el('div', { class: 'wide', tabindex: '0', role: 'region', 'aria-label': say('chart.table') }, el('table', {},
      el('caption', {}, say('chart.title')),
      el('thead', {}, el('tr', {}, ['drop', 'flow', 'range', 'state'].map((key) => el('th', { scope: 'col' }, say(`chart.${key}`))))),
      el('tbody', {}, catches.map((drop, i) => el('tr', { class: drop.status },
        el('th', { scope: 'row' }, drop.label ?? String(i + 1)),
        el('td', {}, quantity(drop.nozzleFlowRate)), el('td', {}, `${span(drop.acceptableFlowRate)} ${unitName(drop.nozzleFlowRate.unit)}`),
        el('td', {}, stateOf(drop))))))));
}

function tooClose({ conformance }) {
  return conformance === 'too_close';
}

function stateOf(drop) {
  return tooClose(drop) ? say('drop.close', { state: say(`drop.${drop.status}`) }) : say(`drop.${drop.status}`);
}

/** Where each drop of the answer stands in the request: follow-ups are in the place of the catch that they replace. */
function placesOfDrops({ catches, followUps = [] }) {
  return catches.flatMap(({ label }, n) => {
    const again = followUps.flatMap(({ replaces }, k) => (replaces === label ? [`/output/followUps/${k}`] : []));
    return again.length > 0 ? again : [`/output/catches/${n}`];
  });
}

/** Beside each drop of the sheet: how it stands, and what its jug may show. */
export function showDrops(result, output, rowOf, spoken) {
  for (const found of document.querySelectorAll('.rows .found')) put(found);
  let said; // what several drops have in common is said beside the first of them
  if (!result || !judged(result)) return;
  const places = placesOfDrops(output);
  result.catches.forEach((drop, i) => {
    const found = rowOf(places[i])?.querySelector('.found');
    if (!found) return;
    const apart = (result.outliers ?? []).some(({ pointer }) => pointer === `#${places[i]}`);
    found.dataset.state = tooClose(drop) ? 'close' : drop.status;
    put(found, el('strong', {}, stateOf(drop)), drop.acceptableVolume && ' ', drop.acceptableVolume && el('span', { class: 'whole' }, say('drop.allowed', { range: span(drop.acceptableVolume, 3) })),
      apart && el('span', { class: 'apart' }, say('drop.apart')),
      tooClose(drop) && drop.conformanceDetail !== said && el('span', { class: 'advice', lang: spoken }, drop.conformanceDetail));
    if (tooClose(drop)) said = drop.conformanceDetail;
  });
}
