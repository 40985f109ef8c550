// The steps of the sheet as elements, built from steps.js.

import { el, put } from './dom.js';
import { sheetField } from './fields.js';
import { has, say } from './language.js';
import { list } from './lists.js';
import { calibrations, steps } from './steps.js';

/** Makes the frame of every step, and the list of steps that leads to them. */
export function makeSteps(main, nav) {
  put(nav, steps.map(({ id }, i) => el('li', {}, el('a', { href: `#${id}` },
    el('span', { class: 'n' }, String(i + 1)), ' ', el('span', { class: 'name', 'data-say': `step.${id}` }), ' ', el('span', { class: 'mark', 'data-mark': id })))));
  put(main, steps.map(({ id }, i) => el('section', { class: 'step', id, tabindex: '-1', 'aria-labelledby': `${id}-title` },
    el('h2', { id: `${id}-title` }, el('span', { class: 'n' }, String(i + 1)), ' ', el('span', { 'data-say': `step.${id}` })),
    has(`intro.${id}`) && el('p', { class: 'intro', 'data-say': `intro.${id}` }),
    el('div', { class: 'cautions' }), el('div', { class: 'how' }), el('div', { class: 'content' }),
    steps[i + 1] && el('a', { class: 'onward', href: `#${steps[i + 1].id}` }, el('span', { 'data-say': 'onward' }), ' ', el('span', { 'data-say': `step.${steps[i + 1].id}` })))));
}

/** Fills the steps that have fields. */
export function showForm(sheet) {
  for (const { id, blocks } of steps) {
    if (blocks) put(document.getElementById(id).querySelector('.content'), blocks.map((one) => block(calibrations, sheet, one)));
  }
}

/** One block of a step: fields or a list; under a heading, folded, or plain. */
export function block(operation, sheet, one) {
  const content = one.list ? list(operation, sheet, one) : one.fields.map((spec) => sheetField(operation, sheet, spec));
  if (one.fold) return el('details', { class: 'block fold', open: filled(sheet, one) }, el('summary', {}, say(`block.${one.fold}`)), has(`about.${one.fold}`) && el('p', { class: 'hint' }, say(`about.${one.fold}`)), one.list ? content : el('div', { class: 'fields' }, content));
  if (one.title) return el('fieldset', { class: 'block' }, el('legend', {}, say(`block.${one.title}`)), content);
  return el('div', { class: 'block' }, content);
}

/** Whether anything of a folded block is on the sheet already. */
function filled(sheet, one) {
  if (one.list) return sheet.get(one.list)?.length > 0;
  return one.fields.some(({ at }) => {
    const value = sheet.get(at);
    return value !== undefined && (typeof value !== 'object' || value.value !== undefined);
  });
}
