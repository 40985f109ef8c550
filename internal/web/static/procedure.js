// The service's own procedure (GET /v1/procedure) on the sheet: a checklist before
// the start, how each step is done, and the cautions where they matter.

import { el, put } from './dom.js';
import { say } from './language.js';
import { keep, kept } from './storage.js';
import { steps } from './steps.js';

/** Puts the words of the procedure in the places that the steps have for them. */
export function showProcedure({ answer: procedure, language }) {
  const cautions = new Map(procedure.cautions.map(({ code, text }) => [code, text]));
  for (const { id, stage } of steps) {
    const step = document.getElementById(id);
    const found = procedure.stages.find((one) => one.id === stage);
    if (!found) continue;
    if (id === 'prepare') {
      put(step.querySelector('.content'), checklists(procedure, found, language));
    } else {
      put(step.querySelector('.how'), how(found, language));
    }
    put(step.querySelector('.cautions'), caution(codesOf(found).map((code) => cautions.get(code)), language));
  }
}

function codesOf(stage) {
  return [...new Set(stage.steps.flatMap((step) => step.cautions ?? []))];
}

/** Cautions of the service in one box; one box a step, so that it is still read. */
export function caution(texts, language) {
  if (texts.length === 0) return false;
  return el('div', { class: 'caution' }, el('p', { class: 'sign' }, say('sign.cautions')), el('ul', { lang: language }, texts.map((text) => el('li', {}, text))));
}

function how(stage, language) {
  return el('details', { class: 'how' }, el('summary', {}, say('how')),
    el('ol', { lang: language }, stage.steps.map((step) => el('li', {}, el('span', { class: 'who', lang: document.documentElement.lang }, say(`who.${step.who}`)), ' ', step.text, atStep(step)))));
}

/** The cautions of one step, where it is done. */
function atStep({ cautionTexts = [] }) {
  return cautionTexts.length > 0 && el('span', { class: 'at-step' }, el('span', { class: 'sign', lang: document.documentElement.lang }, say('sign.cautions')), cautionTexts.map((text) => el('span', { class: 'said' }, text)));
}

/** Steps, protective equipment and tools to tick off; the ticks are kept here. */
function checklists(procedure, stage, language) {
  const groups = [
    ['check.steps', stage.steps.map((step) => [`step.${step.id}`, [step.text, atStep(step)]]), true],
    ['check.equipment', procedure.protectiveEquipment.map(({ code, text }) => [`equipment.${code}`, text])],
    ['check.tools', procedure.tools.map(({ code, text }) => [`tool.${code}`, text])],
  ];
  return groups.map(([words, items, open]) => el('details', { class: 'checklist', open }, el('summary', {}, say(words), ' ', el('span', { class: 'tally' })), ticks(items, language)));
}

function ticks(items, language) {
  const list = el('ul', { class: 'ticks' }, items.map(([key, text]) => el('li', {}, el('label', { lang: language },
    el('input', { type: 'checkbox', checked: kept('ticks', {})[key], onchange: (event) => {
      keep('ticks', { ...kept('ticks', {}), [key]: event.target.checked || undefined });
      count();
    } }), ' ', el('span', {}, text)))));
  const count = () => {
    const done = list.querySelectorAll(':checked').length;
    list.closest('details').querySelector('.tally').textContent = say('check.count', { done, all: items.length });
  };
  queueMicrotask(count);
  return list;
}
