// Lists that grow: drops, runs, readings, beds. What is the same for all entries is
// asked once, above them, and put into each; an entry can still differ.

import { el, goTo, put } from './dom.js';
import { field, sheetField, unitPicker } from './fields.js';
import { has, say } from './language.js';
import { quantity, unitFor } from './units.js';

/** A list of a sheet as elements. */
export function list(operation, sheet, block) {
  const at = block.list;
  const rows = el('div', { class: `rows ${block.entry}` });
  const entries = () => (Array.isArray(sheet.get(at)) ? sheet.get(at) : []); // an opened file may hold anything
  const show = () => put(rows, entries().map((_, i) => row(i)));

  const row = (i) => {
    const pointer = `${at}/${i}`;
    const own = (spec) => sheetField(operation, sheet, spec, `${pointer}/${spec.at}`);
    const legend = el('legend', {}, nameOf(block, entries(), i, sheet));
    const summary = el('summary', {}, summaryOf(block, entries()[i]));
    const element = el('fieldset', { class: block.main.length === 1 ? 'row single' : 'row', 'data-at': `${operation}#${pointer}` },
      legend, block.main.map(own), el('p', { class: 'found' }),
      block.folded && el('details', {}, summary, block.folded.map(own), remover(i)),
      !block.folded && remover(i),
      el('ul', { class: 'messages' }));
    element.addEventListener('input', () => {
      summary.textContent = summaryOf(block, entries()[i]);
      // What an entry is called may hang on the others.
      [...rows.children].forEach((one, n) => {
        one.querySelector('legend').textContent = nameOf(block, entries(), n, sheet);
        one.querySelector('.remove').textContent = removal(n);
      });
    });
    return element;
  };

  const remover = (i) => el('button', { type: 'button', class: 'quiet remove', onclick: () => {
    sheet.remove(at, i);
    show();
    goTo(rows.children[Math.min(i, rows.children.length - 1)]?.querySelector('input, select') ?? add);
  } }, removal(i));
  const removal = (i) => say(`remove.${block.entry}`, { name: nameOf(block, entries(), i, sheet) });

  const add = el('button', { type: 'button', class: 'add', onclick: () => {
    sheet.add(at, next(block, entries(), sheet));
    show();
    goTo(rows.lastElementChild.querySelector('input, select'));
  } }, say(`add.${block.entry}`));

  show();
  const said = `said-of-${at.slice(1).replaceAll('/', '-')}`;
  return el('div', { class: 'list', role: 'group', tabindex: '-1', 'aria-describedby': said, 'data-at': `${operation}#${at}` },
    has(`list.${block.entry}`) && el('p', {}, say(`list.${block.entry}`)),
    el('ul', { class: 'messages', id: said }), head(operation, sheet, block, entries, show), rows, add);
}

/** What is asked once for all entries, and the units of their columns. */
function head(operation, sheet, block, entries, show) {
  const toAll = (member, value) => {
    entries().forEach((_, i) => sheet.set(`${block.list}/${i}/${member}`, value));
    show();
  };
  const fromAll = (member) => {
    const values = entries().map((_, i) => sheet.get(`${block.list}/${i}/${member}`));
    return values.every((value) => value === values[0]) ? values[0] : undefined;
  };
  const shared = (block.shared ?? []).map((spec) => field(spec, {
    name: `all ${operation}#${block.list}/${spec.at}`, words: `${block.list}/*/${spec.at}`,
    get: (member) => fromAll(spec.at + member), set: (member, value) => toAll(spec.at + member, value),
  }));
  const columns = block.main.filter((spec) => spec.column).map((spec) => {
    const member = `${spec.at}/unit`;
    const label = say(`column${block.list}/*/${spec.at}`);
    return el('label', { class: 'field column' }, label,
      unitPicker({ name: `all ${operation}#${block.list}/${member}` }, spec.measure, fromAll(member) ?? unitFor(spec.measure), (symbol) => toAll(member, symbol)));
  });
  if (shared.length + columns.length === 0) return false;
  return el('fieldset', { class: 'shared' }, el('legend', {}, say(`all.${block.entry}`)), shared, columns);
}

function nameOf(block, all, i, sheet) {
  const entry = all[i];
  if (block.entry === 'followUp' && entry?.replaces && !entry.label) return nozzleOf(entry, all.slice(0, i), sheet);
  const place = entry?.position && say(`option.${entry.position}`);
  return (!['gear', 'nozzle'].includes(block.entry) && entry?.label) || (entry?.kind && say(`option.${entry.kind}`)) || entry?.name || (block.entry === 'reading' && place) || say(`entry.${block.entry}`, { n: i + 1 });
}

const nozzlesIn = (entry) => (typeof entry.nozzles === 'number' ? entry.nozzles : 1);
const together = (entries, drop) => entries.filter((one) => one?.replaces === drop).reduce((sum, one) => sum + nozzlesIn(one), 0);
const catchOf = (sheet, drop) => [sheet.get('/output/catches') ?? []].flat().find((one) => one?.label === drop);

/** A nozzle of a drop by its number, as the service calls it too. */
function nozzleOf(entry, before, sheet) {
  const caught = catchOf(sheet, entry.replaces);
  if (!caught || nozzlesIn(caught) === nozzlesIn(entry)) return entry.replaces;
  const first = together(before, entry.replaces) + 1;
  return say(nozzlesIn(entry) > 1 ? 'entry.nozzlesOf' : 'entry.nozzleOf', { drop: entry.replaces, n: first, m: first + nozzlesIn(entry) - 1 });
}

/** What a folded part holds, in a few words. */
function summaryOf({ folded = [] }, entry) {
  const worded = {
    nozzles: (n) => say('nozzles', { n }),
    time: (time) => typeof time.value === 'number' && quantity(time),
    courseLength: (length) => typeof length.value === 'number' && quantity(length),
    position: (place) => say(`option.${place}`),
  };
  const words = folded.map(({ at }) => entry?.[at] !== undefined && worded[at]?.(entry[at])).filter(Boolean);
  return words.join(' · ') || say('more');
}

/** A new entry is like the last one, but for what is measured in it. */
function next(block, all, sheet) {
  const last = all.at(-1) ?? {};
  const kept = {};
  for (const { at } of block.shared ?? []) if (last[at] !== undefined) kept[at] = structuredClone(last[at]);
  if (last.position) kept.position = last.position;
  if (block.entry === 'bed' || block.entry === 'drop') kept.label = say(`entry.${block.entry}`, { n: all.length + 1 });
  if (block.entry === 'followUp') {
    // Nozzle after nozzle of one drop, for as long as the drops were caught.
    const caught = catchOf(sheet, last.replaces);
    if (caught && together(all, last.replaces) < nozzlesIn(caught)) kept.replaces = last.replaces;
    const times = [sheet.get('/output/catches') ?? []].flat().map((one) => one?.time);
    const time = last.time ?? (times.every((one) => JSON.stringify(one) === JSON.stringify(times[0])) ? times[0] : undefined);
    if (time) kept.time = structuredClone(time);
  }
  if (block.entry === 'instrument') kept.id = freeName(all);
  return kept;
}

/** A name that no instrument of the list has: each must have its own. */
function freeName(all) {
  let n = all.length + 1;
  while (all.some(({ id }) => id === say('entry.instrument', { n }))) n++;
  return say('entry.instrument', { n });
}
