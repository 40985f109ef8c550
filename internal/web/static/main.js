// The page: a sheet, a service that is asked about it while it is being filled in,
// and places where the answer is shown.

import { asCurl, reference, useKey, whenTypingStops } from './api.js';
import { showChart, showDrops } from './chart.js';
import { el, put } from './dom.js';
import { makeSteps, showForm } from './form.js';
import { language, locale, preferred, say, speak } from './language.js';
import { clearMessages, nameOf, placeOf, showMessages, warningsIn } from './messages.js';
import { asks, placeOfNext, showQuestions } from './next.js';
import { showPlans } from './plans.js';
import { caution, showProcedure } from './procedure.js';
import { makeRecord } from './record.js';
import { Sheet } from './sheet.js';
import { calibrations, emptySheet, inUnitsOf, oneTolerance, placeOfOperation, steps, wantedIn } from './steps.js';
import { forget, keep, kept } from './storage.js';
import { clearTank, showTank, warnOfMix } from './tank.js';
import { learnUnits, system, useSystem } from './units.js';
import { checking, showBar, showMarks, showResult, stateOf } from './verdict.js';

const at = (id) => document.getElementById(id);
const content = (id) => at(id).querySelector('.content');
const sheet = new Sheet(wantedIn(steps.flatMap((step) => step.blocks ?? [])));
let request = { body: {}, origin: (pointer) => pointer };
let answer, answered; // the last one that was one, and its request as text
let again; // the next try after a failure
let undo; // the sheet before it was changed as a whole

// Checking

const body = () => ({ ...request.body, resultUnits: system() });

const check = whenTypingStops(calibrations, 400, {
  asking: () => checking(true),
  replied(reply) {
    checking(false);
    clearMessages(calibrations);
    if (reply.problem) refused(reply);
    else show(reply);
  },
  failed() {
    checking(false);
    showBar({ state: 'offline' });
    later(15);
  },
});

function sheetChanged() {
  request = sheet.request();
  oneTolerance(request.body);
  // A sheet on which nothing was written yet is not kept.
  if (Object.keys(request.body).length > 0) keep('sheet', sheet.tree);
  else forget('sheet');
  at('curl').textContent = asCurl(calibrations, body(), locale());
  markStale();
  check(body(), locale());
}

/** What is shown of another sheet than the one that stands there is marked, and is not green. */
const markStale = () => document.body.classList.toggle('stale', answered !== undefined && answered !== JSON.stringify(body()));

function show(reply) {
  answer = reply.answer;
  answered = JSON.stringify(body());
  markStale();
  const { language: spoken } = reply;
  const asked = request;
  const { origin } = asked;
  const confirm = (pointer) => {
    const before = sheet.get('/confirmed');
    sheet.confirm(pointer, asked);
    tell('confirmed', () => sheet.set('/confirmed', before));
  };
  const warnings = [...warningsIn({ ...answer, correction: undefined }), ...(answer.correction.result?.warnings ?? [])]; // a plan shows its own
  showQuestions(answer.nextSteps, { origin, language: spoken, confirm });
  showMessages(calibrations, warnings, 'warning', origin, spoken);
  showMarks(answer);
  showResult(content('result').querySelector('.verdict-place'), { answer, origin, language: spoken, confirm });
  put(content('result').querySelector('.all-cautions'), caution(answer.cautions.map(({ text }) => text), spoken));
  showChart(content('result').querySelector('.chart-place'), answer.output.result);
  showDrops(answer.output.result, asked.body.output, (place) => placeOf(calibrations, `${origin(place)}/volume/value`)?.closest('.row'), spoken);
  const [next] = answer.nextSteps;
  const started = Object.keys(request.body).length > 0;
  const target = next && placeOfNext(next, origin);
  showBar({ state: started ? stateOf(answer) : 'empty', next: started && next ? [asks(next) ? nameOf(target) : next.label, next.text].filter(Boolean).join(': ') : undefined, target, language: spoken });
  warnOfMix(started && answer.verdict !== 'ready' ? answer.verdictDetail : undefined, spoken);
  showPlans(content('plans'), answer.correction, { language: spoken, chosen: kept('plan'), choose: (key) => keep('plan', key), empty: emptyAgain });
}

function refused({ problem, language: spoken, retryAfter }) {
  if (!problem.errors) return notServed(problem, spoken, retryAfter);
  const shown = showMessages(calibrations, problem.errors, 'error', request.origin, spoken);
  const first = shown.find(({ sign }) => sign === 'error') ?? shown[0];
  showBar({ state: first.sign === 'error' ? 'refused' : 'missing', next: [nameOf(first.place), first.detail].filter(Boolean).join(': '), target: first.place, language: spoken });
}

/** The sheet is not at fault: a key is wanted, or the service has too much to do. */
function notServed(problem, spoken, retryAfter = 15) {
  if (problem.status === 401) {
    at('key-frame').hidden = false;
    return showBar({ state: 'locked', target: at('key') });
  }
  showBar({ state: 'offline', next: problem.detail, target: at('result'), language: spoken });
  later(retryAfter);
}

function later(seconds) {
  clearTimeout(again);
  again = setTimeout(sheetChanged, seconds * 1000);
}

// Changing the sheet as a whole

function replaceSheet(tree, words) {
  undo = structuredClone(sheet.tree);
  forget('plan');
  sheet.replace(tree);
  showForm(sheet);
  tell(words, () => {
    sheet.replace(undo);
    showForm(sheet);
  });
}

/** Empties what a plan asks to be measured again. */
function emptyAgain(operations) {
  const tree = structuredClone(sheet.tree);
  const drop = (list, member) => (list ?? []).forEach((entry) => delete entry[member]?.value);
  for (const operation of operations) {
    const step = placeOfOperation[operation];
    if (step === 'pressure') drop(tree.pressure?.readings, 'pressure');
    if (step === 'output') {
      drop(tree.output?.catches, 'volume');
      delete tree.output?.followUps;
    }
    if (step === 'speed') drop(tree.speed?.runs, 'time');
  }
  const chosen = kept('plan');
  replaceSheet(tree, 'emptied');
  keep('plan', chosen);
}

/** Says what has just happened, with a way back. */
function tell(words, back) {
  at('told').hidden = false;
  at('told-words').textContent = say(words);
  at('told-undo').hidden = !back;
  at('told-undo').onclick = () => {
    back();
    tell('undone');
  };
}

// Language and units

function setLanguage(wanted) {
  keep('language', wanted);
  speak(wanted);
  at('language').value = language();
  if (Object.keys(sheet.request().body).length === 0) sheet.tree = emptySheet(say); // its drops have names in the new language
  showAll();
}

/** Changes the units; where numbers stand beside them, only when that is really meant. Nothing is converted: what was read off a jug or a gauge stays what was read. */
function askForSystem(name) {
  const filled = request.body;
  if (JSON.stringify(inUnitsOf(name, filled)) === JSON.stringify(filled)) return setSystem(name);
  const dialog = at('ask-units');
  dialog.returnValue = '';
  dialog.onclose = () => {
    if (dialog.returnValue === 'yes') setSystem(name);
    else at('system').value = system();
  };
  dialog.showModal();
}

function setSystem(name) {
  const before = structuredClone(sheet.tree);
  const beforeSystem = system();
  useSystem(name);
  sheet.replace(inUnitsOf(name, before));
  showAll();
  tell(name === 'us' ? 'unitsUs' : 'unitsMetric', () => {
    useSystem(beforeSystem);
    at('system').value = beforeSystem;
    sheet.replace(before);
    showAll();
  });
}

/** What the sheet knows of a tank mix: the rates are those of treated land, as the mix wants them. */
function knownForMix() {
  const { applicationRate, rateTolerance, rateBasis } = sheet.get('/target') ?? {};
  const treated = rateBasis === 'treated' || !sheet.get('/machine/rowSpacing/value');
  return {
    tankVolume: sheet.get('/machine/tankVolume'),
    applicationRate: answer?.rate.result?.applicationRate,
    ...(treated && applicationRate?.value !== undefined && { labelRate: applicationRate, rateTolerance }),
  };
}

function showAll() {
  showForm(sheet);
  showTank(content('mix'), knownForMix);
  reference('procedure', locale()).then(showProcedure).catch(() => {});
  sheetChanged();
}

// Start

makeSteps(at('steps'), at('step-list'));
content('result').append(el('p', { class: 'message missing stale-note', 'data-say': 'result.stale' }), ...['verdict-place', 'chart-place', 'all-cautions'].map((name) => el('div', { class: name })),
  el('p', { class: 'signature' }, ['date', 'place', 'who'].map((key) => el('span', { 'data-say': `signature.${key}` }))));
makeRecord(content('record'), {
  request: () => body(),
  load: (tree, words) => replaceSheet(tree, words),
  clear() {
    clearTank();
    forget('ticks');
    forget('key');
    useKey('');
    replaceSheet(emptySheet(say), 'cleared');
    showAll();
  },
});
at('language').onchange = (event) => setLanguage(event.target.value);
at('system').onchange = (event) => askForSystem(event.target.value);
at('told-close').onclick = () => (at('told').hidden = true);
at('steps').addEventListener('input', () => (at('told').hidden = true));
at('steps').onsubmit = (event) => event.preventDefault();
for (const link of document.querySelectorAll('#step-list a, .onward, .skip')) {
  link.addEventListener('click', () => setTimeout(() => document.querySelector(link.hash)?.focus({ preventScroll: true })));
}

addEventListener('online', sheetChanged);

sheet.changed = sheetChanged;
speak(kept('language', preferred()));
at('language').value = language();
at('system').value = system();
useKey(kept('key', ''));
at('key-frame').onsubmit = (event) => {
  event.preventDefault();
  keep('key', at('key').value.trim());
  location.reload();
};
// Without the units of the service a sheet can still be filled in, in those of the page.
await reference('units', locale()).then(({ answer: { units } }) => learnUnits(units), () => {});
sheet.tree = kept('sheet', emptySheet(say));
showAll();
