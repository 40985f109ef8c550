// Keeping the sheet: print it, save it to a file and read it back, clear it, or
// begin with an invented one. The record is the service's own page about the sheet.

import { record } from './api.js';
import { el, put } from './dom.js';
import { language, locale, say } from './language.js';
import { readFile, saveFile } from './storage.js';

const examples = ['ready', 'rate-to-correct', 'boom-to-repair'];

/** Makes the buttons; request gives the request, load and clear change the sheet. */
export function makeRecord(element, { request, load, clear }) {
  const complain = (words) => {
    trouble.textContent = words;
    trouble.hidden = false;
  };
  const trouble = el('p', { class: 'message error', role: 'alert', hidden: true });
  const file = el('input', { type: 'file', id: 'file', accept: 'application/json,.json', onchange: async () => {
    trouble.hidden = true;
    try {
      const { resultUnits, ...tree } = await readFile(file.files[0]);
      load(tree, 'imported');
    } catch {
      complain(say('record.notASheet'));
    }
    file.value = '';
  } });
  put(element,
    el('p', { 'data-say': 'record.kept' }),
    el('div', { class: 'buttons' },
      button('record.open', () => openRecord(request(), complain), 'first'),
      button('record.print', () => print()),
      button('record.save', () => saveFile('wetrun-sheet.json', request())),
      el('label', { for: 'file', class: 'file second' }, el('span', { 'data-say': 'record.read' }), file),
      button('record.clear', () => clear(), 'danger')),
    trouble,
    el('details', { class: 'developers' }, el('summary', { 'data-say': 'developers' }),
      el('p', { 'data-say': 'developers.about' }),
      el('pre', { tabindex: '0', id: 'curl-frame' }, el('code', { id: 'curl' })),
      el('p', {}, el('a', { href: '/openapi.yaml' }, 'openapi.yaml'))));

  const select = document.getElementById('example');
  put(select, el('option', { value: '', 'data-say': 'example' }), examples.map((name) => el('option', { value: name, 'data-say': `example.${name}` })));
  select.onchange = async () => {
    const name = select.value;
    select.value = '';
    if (!name) return;
    const response = await fetch(`/web/examples/${name}${language() === 'es' ? '.es' : ''}.json`);
    load(await response.json(), 'exampleLoaded');
  };
}

/** Opens the record beside the sheet; the tab is opened at once, or browsers block it. */
async function openRecord(body, complain) {
  const tab = window.open('', '_blank');
  try {
    const { page, problem } = await record(body, locale());
    if (page && tab) tab.location = URL.createObjectURL(page);
    else complain(problem?.detail ?? say('record.blocked'));
    if (!page) tab?.close();
  } catch {
    tab?.close();
    complain(say('verdict.offline.next'));
  }
}

function button(words, onclick, look = 'second') {
  return el('button', { type: 'button', class: look, onclick, 'data-say': words });
}
