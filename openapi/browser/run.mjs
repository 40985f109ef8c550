// The field sheet in a real browser:  node browser/run.mjs [URL]
// Without a URL it builds and starts the service itself. Pictures of the page go to
// $PICTURES when that is set.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after, before, describe, test } from 'node:test';

import { accessibilityTests } from './accessibility.mjs';
import { fillSheet } from './fill.mjs';
import { demo, entry, loadExample, messageAt, openSheet, startBrowser, verdict, withSheet } from './page.mjs';
import { questionTests } from './questions.mjs';
import { recordTests } from './record.mjs';
import { startService } from './service.mjs';
import { shownTests } from './shown.mjs';
import { staleTests } from './stale.mjs';
import { typingTests } from './typing.mjs';

let service;
let browser;
const sheetTest = (name, options, body) => test(name, () => withSheet(browser, service.url, options, body));

before(async () => {
  service = await startService(process.argv[2]);
  browser = await startBrowser();
});
after(async () => {
  await browser?.close();
  service?.stop();
});

/** What the service itself says of a request. */
async function said(request, language = 'en') {
  const response = await fetch(`${service.url}/v1/calibrations`, { method: 'POST', headers: { 'Content-Type': 'application/json', 'Accept-Language': language }, body: JSON.stringify(request) });
  return { language: response.headers.get('Content-Language'), ...(await response.json()) };
}

// Two at a time: most of a test is waiting for the other side.
describe('the field sheet', { concurrency: 2 }, () => {
  sheetTest('a sheet filled in by typing gets the verdict of the service', {}, async (page) => {
    const { maintenance, ...sheet } = demo('ready');
    await fillSheet(page, sheet);
    await verdict(page, 'ready');
    const answer = await said(sheet);
    assert.match(await page.locator('#result .verdict').innerText(), new RegExp(answer.verdictDetail.slice(0, 40)));
    assert.equal(await page.locator('.chart .drop.within').count(), 12);
    assert.equal(await page.locator('.found[data-state="within"]').count(), 12);
    assert.match(await page.locator('#result').innerText(), /110\.8/); // gal/acre, as the sheet's own example
  });

  sheetTest('what is typed is what is sent, and empty fields are not', {}, async (page) => {
    await entry(page, '/output/catches/2/volume/value').fill('46,5');
    await page.locator('[name="all calibrations#/output/catches/time/value"]').fill('30');
    const asked = page.waitForRequest((request) => request.method() === 'POST' && request.postData().includes('"ratedFlowRate"'));
    await entry(page, '/nozzle/ratedFlowRate/value').fill('0.2');
    assert.deepEqual((await asked).postDataJSON(), {
      output: { catches: [{ label: 'left 3', position: 'left', time: { value: 30, unit: 's' }, volume: { value: 46.5, unit: 'fl_oz_us' } }] },
      nozzle: { ratedFlowRate: { value: 0.2, unit: 'gal_us/min' } },
      resultUnits: 'us',
    });
  });

  sheetTest('an error stands beside its field, and the bar leads to it', {}, async (page) => {
    // The fourth drop is the first that is sent, so the pointer has to find its way back.
    await entry(page, '/output/catches/3/volume/value').fill('-4');
    await page.locator('[name="all calibrations#/output/catches/time/value"]').fill('30');
    await verdict(page, 'refused');
    const own = 'Too small: it must be at least 0\u00a0US\u00a0fl oz.';
    assert.equal(await messageAt(page, '/output/catches/3/volume/value').textContent(), `Change this: ${own}`);
    const field = entry(page, '/output/catches/3/volume/value');
    assert.equal(await field.getAttribute('aria-invalid'), 'true');
    const described = (await field.getAttribute('aria-describedby')).split(' ');
    assert.ok(described.includes(await page.locator('.messages', { hasText: own }).getAttribute('id')));
    // The bar leads to it.
    await page.locator('#bar-next').click();
    assert.equal(await page.evaluate(() => document.activeElement.name), 'calibrations#/output/catches/3/volume/value');
    // One catch that is right is still too few to compare: that is said of the list.
    await field.fill('46');
    await verdict(page, 'missing');
    assert.equal(await page.locator('[aria-invalid]').count(), 0);
    assert.match(await page.locator('[data-at="calibrations#/output/catches"] > .messages li').innerText(), /^Still missing: /);
  });

  sheetTest('what is missing in every drop is asked for once', {}, async (page) => {
    for (const i of [0, 1, 2]) await entry(page, `/output/catches/${i}/volume/value`).fill('46');
    await verdict(page, 'missing');
    const shared = page.locator('.field', { has: page.locator('[name="all calibrations#/output/catches/time/value"]') });
    assert.equal(await shared.locator('.messages li').count(), 1);
    assert.equal(await page.locator('.rows.drop .messages li').count(), 0);
  });

  sheetTest('what is wrong with a whole number is said by the service', {}, async (page) => {
    await entry(page, '/machine/bedsCovered').fill('2.5');
    await verdict(page, 'refused');
    const { errors } = await said({ machine: { bedsCovered: 2.5 } });
    assert.equal(await messageAt(page, '/machine/bedsCovered').innerText(), `Change this: ${errors[0].detail}`);
  });

  sheetTest('warnings of the service stand beside their fields', {}, async (page) => {
    await loadExample(page, 'boom-to-repair');
    await verdict(page, 'not_ready');
    const answer = await said(demo('boom-to-repair'));
    const warning = answer.pressure.result.warnings.find(({ pointer }) => pointer === '#/pressure/cabPressure');
    assert.equal(await messageAt(page, '/pressure/cabPressure/value').innerText(), `Warning: ${warning.detail}`);
    // On an uneven boom catches do not show how the nozzles are, so nothing is said of them one by one.
    assert.equal(answer.output.result.decision, 'not_judged');
    assert.equal(await page.locator('.chart').count(), 0);
    assert.equal(await page.locator('.rows .found:not(:empty)').count(), 0);
    const catches = await page.locator('#result .part', { has: page.getByRole('heading', { name: 'Catch test' }) }).innerText();
    assert.match(catches, /^Catch test\s+not judged/);
    assert.ok(catches.includes(answer.output.result.decisionDetail));
    assert.ok(!catches.includes(answer.output.result.sampling.detail) && !/Outside the range|very different/.test(catches), catches);
    assert.equal(await page.locator('#result .next > li').count(), answer.nextSteps.length);
  });

  sheetTest('a plan is chosen, and what it asks for is emptied and undone', {}, async (page) => {
    await loadExample(page, 'rate-to-correct');
    await verdict(page, 'not_ready');
    const { correction } = await said(demo('rate-to-correct'));
    assert.equal(await page.locator('.plan').count(), correction.result.plans.length);
    assert.equal(await page.locator('.rejected li').count(), correction.result.rejected.length);
    await page.locator('.plan').first().locator('label').click();
    const chosen = page.locator('.chosen');
    assert.match(await chosen.innerText(), /Set ground speed to 3\.634\smph/);
    assert.match(await chosen.innerText(), /Time the runs again/);
    await chosen.getByRole('button', { name: /empty the fields to measure again/ }).click();
    await verdict(page, 'incomplete');
    assert.equal(await entry(page, '/speed/runs/0/time/value').inputValue(), '');
    assert.equal(await entry(page, '/output/catches/0/volume/value').inputValue(), '46.2');
    await page.locator('#told-undo').click();
    await verdict(page, 'not_ready');
    assert.equal(await entry(page, '/speed/runs/0/time/value').inputValue(), '22.8');
  });

  sheetTest('the tank mix is made for the rate that was measured', {}, async (page) => {
    await loadExample(page, 'ready');
    await verdict(page, 'ready');
    await page.getByRole('button', { name: 'Take tank and rate from the sheet' }).click();
    await page.locator('[name="tank-loads#/treatedArea/value"]').fill('10');
    await page.getByRole('button', { name: 'Add a product' }).click();
    await page.locator('[name="tank-loads#/products/0/productRate/value"]').fill('2');
    await page.locator('.tank-answer tbody tr').nth(1).waitFor();
    // By hand: 10 acres of 110.804 gal in tanks of 300; 300 / 110.804 acres a tank, 2 pt
    // each, are 5.415 pt or 2.707 qt.
    assert.match(await page.locator('.tank-answer').innerText(), /1108\sUS\sgal\. Loads: 4\./);
    assert.match(await page.locator('.tank-answer tbody tr').first().innerText(), /2\.707\sUS\sqt/);
  });

  sheetTest('Spanish: the words of the page, and the service asked for its own', {}, async (page) => {
    await loadExample(page, 'boom-to-repair');
    await verdict(page, 'not_ready');
    const asked = page.waitForRequest((request) => request.url().endsWith('/v1/calibrations') && request.headers()['accept-language'] === 'es-US');
    await page.selectOption('#language', 'es');
    await asked;
    assert.match(await verdict(page, 'not_ready'), /No lista/);
    assert.equal(await page.locator('html').getAttribute('lang'), 'es-US');
    assert.equal(await entry(page, '/output/catches/0/volume/value').inputValue(), '46.2');
    const answer = await said(demo('boom-to-repair'), 'es-US');
    const detail = page.locator('#result .verdict [lang]');
    assert.equal(await detail.innerText(), answer.verdictDetail);
    assert.equal(await detail.getAttribute('lang'), answer.language);
  });

  sheetTest('a Spanish browser gets Spanish, and examples with Spanish names', { locale: 'es-MX' }, async (page) => {
    assert.match(await verdict(page, 'empty'), /Hoja vacía/);
    await loadExample(page, 'ready');
    await verdict(page, 'ready');
    assert.equal(await entry(page, '/label').inputValue(), 'Fresa, bloque norte (inventado)');
    assert.doesNotMatch(await page.locator('main').innerText(), /\b(left|center|right|bed|invented)\b/);
  });

  sheetTest('an empty sheet takes the names of its drops from the language', {}, async (page) => {
    const name = entry(page, '/output/catches/0/label');
    assert.equal(await name.inputValue(), 'left 1');
    await page.selectOption('#language', 'es');
    assert.equal(await name.inputValue(), 'izquierda 1');
    await entry(page, '/output/catches/0/volume/value').fill('46');
    await page.selectOption('#language', 'en');
    assert.equal(await name.inputValue(), 'izquierda 1', 'what somebody filled in stays as it is');
  });

  sheetTest('nozzles of a drop caught again, each alone, are told apart, and seen where they were typed', {}, async (page) => {
    const sheet = { ...demo('boom-to-repair'), pressure: demo('ready').pressure };
    sheet.output.catches[8].volume.value = 55;
    await openSheet(page, sheet);
    await verdict(page, 'not_ready');
    const outside = (side) => page.locator(`.chart .drop.${side} .name`).allTextContents();
    assert.deepEqual([await outside('below'), await outside('above')], [['center 3'], ['right 1', 'right 2']]);
    await page.evaluate(() => document.querySelectorAll('details.fold').forEach((fold) => (fold.open = true)));
    const rows = page.locator('.rows.followUp .row');
    // 42.33 to 51.73 US fl oz of three nozzles in 30 s are 14.11 to 17.24 of one.
    for (const [i, volume] of [15.5, 15.6, 18.9].entries()) {
      await page.getByRole('button', { name: 'Add a catch' }).click();
      if (i === 0) await entry(page, '/output/followUps/0/replaces').fill('right 1');
      assert.equal(await entry(page, `/output/followUps/${i}/replaces`).inputValue(), 'right 1');
      assert.equal(await entry(page, `/output/followUps/${i}/time/value`).inputValue(), '30');
      await entry(page, `/output/followUps/${i}/volume/value`).fill(String(volume));
      assert.equal(await rows.nth(i).locator('legend').innerText(), `right 1, nozzle ${i + 1}`);
    }
    const worn = page.locator('#result .next > li', { hasText: 'right 1, nozzle 3: ' });
    await worn.waitFor();
    assert.match(await worn.innerText(), /Fit a new nozzle/);
    await verdict(page, 'not_ready');
    assert.match(await rows.nth(2).locator('.found').innerText(), /too much/);
    assert.match(await rows.nth(0).locator('.found').innerText(), /within/);
    assert.equal(await page.locator('.rows.drop .row').nth(8).locator('.found').innerText(), '');
    assert.deepEqual(await page.locator('.chart .name').evaluateAll((all) => all.slice(8, 11).map((one) => one.textContent)), [1, 2, 3].map((n) => `right 1, nozzle ${n}`));
    // The two of the round that stand apart, and no nozzle that took the place of another drop.
    assert.deepEqual(await page.locator('.rows .found').evaluateAll((all) => all.filter((one) => /very different/.test(one.textContent)).map((one) => one.closest('.row').querySelector('legend').textContent)), ['center 3', 'right 2']);
    // All three are there: the next one is of another drop.
    await page.getByRole('button', { name: 'Add a catch' }).click();
    assert.equal(await entry(page, '/output/followUps/3/replaces').inputValue(), '');
  });

  sheetTest('messages name fields by their labels, and the bar says of which', {}, async (page) => {
    await entry(page, '/nozzle/ratedFlowRate/value').fill('0.2');
    assert.match(await verdict(page, 'missing'), /^Still missing\s+At this pressure: This is missing, and “Maker's flow of one nozzle” needs it\.$/);
    await entry(page, '/nozzle/ratedFlowRate/value').fill('');
    await entry(page, '/machine/bedWidth/value').fill('40');
    await verdict(page, 'missing');
    assert.match(await messageAt(page, '/machine/nozzlesPerBed').innerText(), /This is missing, and “Treated width of one bed” needs it\./);
    await entry(page, '/machine/sprayedWidthPerNozzle/value').fill('20');
    await verdict(page, 'refused');
    assert.doesNotMatch(await page.locator('main').innerText(), /[a-z]\.[a-z]+[A-Z]/);
  });

  sheetTest('the cost is money as on the record, wasted or saved', {}, async (page) => {
    const sheet = demo('rate-to-correct');
    sheet.cost = { mix: { amount: 25.5, currency: 'USD' }, perArea: { value: 1, unit: 'acre' }, plannedArea: { value: 40, unit: 'acre' } };
    await openSheet(page, sheet);
    await verdict(page, 'not_ready');
    const cost = page.locator('#result .part', { hasText: 'Cost of the deviation' });
    // By hand: 110.804 / 90 - 1 = 23.115 % of 25.50 is 5.89, of 40 acres 235.78; of 120 it is 7.664 % less, 1.95.
    assert.match(await cost.innerText(), /It costs\s+USD\s5\.89 per acre\s+On the planned area\s+USD\s235\.78/);
    sheet.target.applicationRate.value = 120;
    sheet.target.labelMaximum.value = 150;
    await openSheet(page, sheet);
    await cost.getByText('It saves').waitFor();
    assert.match(await cost.innerText(), /It saves\s+USD\s1\.95 per acre/);
  });

  sheetTest('the tank mix says not to mix while the sheet is not in order, and what the label meant', {}, async (page) => {
    await loadExample(page, 'rate-to-correct');
    await verdict(page, 'not_ready');
    const { verdictDetail } = await said(demo('rate-to-correct'));
    await page.getByRole('button', { name: 'Take tank and rate from the sheet' }).click();
    await page.locator('[name="tank-loads#/treatedArea/value"]').fill('40');
    await page.locator('.tank-answer tbody tr').first().waitFor();
    const mix = await page.locator('#mix').innerText();
    assert.ok(mix.includes(`Do not mix a load yet. ${verdictDetail}`), mix);
    assert.equal(await page.locator('[name="tank-loads#/labelRate/value"]').inputValue(), '90');
    assert.doesNotMatch(mix, /\[object|Mix with the amounts/);
    await loadExample(page, 'ready');
    await verdict(page, 'ready');
    const inOrder = await page.locator('#mix').innerText();
    assert.doesNotMatch(inOrder, /Do not mix|\[object/);
    assert.match(inOrder, /Mix with the amounts/);
  });

  sheetTest('a unit that was picked is remembered for its quantity', {}, async (page) => {
    await entry(page, '/nozzle/ratedPressure/unit').selectOption('kPa');
    assert.equal(await entry(page, '/pressure/cabPressure/unit').inputValue(), 'kPa');
    await page.reload();
    assert.equal(await entry(page, '/nozzle/ratedPressure/unit').inputValue(), 'kPa');
  });

  sheetTest('a reload keeps the sheet, clearing forgets it', {}, async (page) => {
    await loadExample(page, 'ready');
    await verdict(page, 'ready');
    await page.reload();
    await verdict(page, 'ready');
    assert.equal(await entry(page, '/output/catches/11/volume/value').inputValue(), '46.8');
    await page.getByRole('button', { name: 'Clear the sheet' }).click();
    await verdict(page, 'empty');
    assert.equal(await page.evaluate(() => localStorage.getItem('wetrun.sheet')), null);
    await page.reload();
    await verdict(page, 'empty');
    assert.equal(await entry(page, '/label').inputValue(), '');
  });

  sheetTest('saved to a file and opened again it is the same request', {}, async (page) => {
    await loadExample(page, 'rate-to-correct');
    await verdict(page, 'not_ready');
    const saving = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save to a file' }).click();
    const file = await (await saving).path();
    const { resultUnits, ...saved } = JSON.parse(readFileSync(file));
    assert.deepEqual(saved, demo('rate-to-correct'));
    await page.getByRole('button', { name: 'Clear the sheet' }).click();
    await verdict(page, 'empty');
    await page.setInputFiles('#file', file);
    await verdict(page, 'not_ready');
    await openSheet(page, [1]);
    await page.getByRole('alert').waitFor();
  });

  sheetTest('a file with anything in it does no harm', {}, async (page) => {
    const odd = { label: 7, machine: 'none', output: { catches: { a: 1 } }, speed: { runs: [null, 3, { time: 'fast', courseLength: { value: 'x' } }] }, maintenance: { beds: [{ clean: {} }] } };
    await openSheet(page, odd);
    await verdict(page, 'refused');
    await page.reload();
    await verdict(page, 'refused');
    await page.getByRole('button', { name: 'Clear the sheet' }).click();
    await verdict(page, 'empty');
  });

  accessibilityTests(sheetTest);
  questionTests(sheetTest, said);
  shownTests(sheetTest, said);
  recordTests(sheetTest);
  staleTests(sheetTest);
  typingTests(sheetTest);

  sheetTest('what is too close to call, or very different, is said beside its drop and in the result', {}, async (page) => {
    const sheet = demo('ready');
    // Just above the low end of the range, 42.33 US fl oz: 90 % of 0.2 US gal/min at
    // 40 psi, of three nozzles at 60 psi in 30 s.
    sheet.output.catches[0].volume.value = 42.4;
    await openSheet(page, sheet);
    await verdict(page, 'ready');
    const { output, rate } = await said(sheet);
    const [first, second] = output.result.catches;
    assert.deepEqual([first.conformance, second.conformance], ['too_close', 'within']);
    assert.deepEqual(output.result.outliers.map(({ pointer }) => pointer), ['#/output/catches/0']);
    const found = page.locator('.rows.drop .found');
    assert.match(await found.nth(0).innerText(), /within, too close to call/);
    assert.ok((await found.nth(0).innerText()).includes(first.conformanceDetail));
    assert.match(await found.nth(0).innerText(), /very different from the others: catch it again/);
    assert.doesNotMatch(await found.nth(1).innerText(), /too close|different/);
    const result = await page.locator('#result').innerText();
    for (const words of [`${first.label}: ${first.conformanceDetail}`, output.result.outliers[0].text, output.result.sampling.detail]) assert.ok(result.includes(words), words);
    assert.ok(result.includes(`±\u00a0${Number(rate.result.uncertainty.applicationRate.expanded.value.toPrecision(2))}`));
  });

  sheetTest("what is too close to the label's limits is said under their name, and only within them", {}, async (page) => {
    const sheet = demo('rate-to-correct');
    for (const [value, over] of [[108, true], [112, false]]) {
      sheet.target.labelMaximum.value = value;
      await openSheet(page, sheet);
      await page.locator('#result .part', { hasText: `${value}\u00a0US` }).waitFor();
      const { labelConformance, overLabelMaximum } = (await said(sheet)).rate.result;
      assert.deepEqual([labelConformance.conformance, overLabelMaximum], ['too_close', over]);
      assert.equal((await page.locator('#result').innerText()).includes(`Label limit: ${labelConformance.conformanceDetail}`), !over);
    }
  });

  sheetTest('an instrument, nozzles on the shelf and the cost go to the service as they are typed', {}, async (page) => {
    await page.evaluate(() => document.querySelectorAll('details.fold').forEach((fold) => (fold.open = true)));
    await page.getByRole('button', { name: 'Add an instrument' }).click();
    await entry(page, '/instruments/0/kind').selectOption('jug');
    await entry(page, '/instruments/0/resolution/value').fill('0.5');
    await entry(page, '/instruments/0/scaleError/value').fill('2');
    await page.getByRole('button', { name: 'Add a nozzle' }).click();
    await entry(page, '/planning/nozzles/0/ratedFlowRate/value').fill('0.3');
    await entry(page, '/cost/mix/amount').fill('25.5');
    const asked = page.waitForRequest((request) => request.method() === 'POST' && request.postData().includes('"EUR"'));
    await entry(page, '/cost/mix/currency').fill('EUR');
    assert.deepEqual((await asked).postDataJSON(), {
      instruments: [{ id: 'instrument 1', kind: 'jug', resolution: { value: 0.5, unit: 'fl_oz_us' }, scaleError: { value: 2, unit: '%' } }],
      planning: { nozzles: [{ ratedFlowRate: { value: 0.3, unit: 'gal_us/min' } }] },
      cost: { mix: { amount: 25.5, currency: 'EUR' } },
      resultUnits: 'us',
    });
  });

  sheetTest('drops and runs are added and removed', {}, async (page) => {
    await page.getByRole('button', { name: 'Add a drop' }).click();
    assert.equal(await page.locator('.rows.drop .row').count(), 13);
    assert.equal(await page.evaluate(() => document.activeElement.name), 'calibrations#/output/catches/12/volume/value');
    const last = page.locator('.rows.drop .row').last();
    await last.locator('summary').click();
    await last.getByRole('button', { name: 'Remove drop 13' }).click();
    assert.equal(await page.locator('.rows.drop .row').count(), 12);
    await page.getByRole('button', { name: 'Add a run' }).click();
    assert.equal(await page.locator('.rows.run .row').count(), 3);
  });

  sheetTest('without a connection the sheet is kept, and calculated later', { expected: 'net::ERR_FAILED' }, async (page) => {
    await page.route('**/v1/calibrations', (route) => route.abort());
    await entry(page, '/label').fill('north');
    assert.match(await verdict(page, 'offline'), /No connection/);
    await page.unroute('**/v1/calibrations');
    await page.evaluate(() => window.dispatchEvent(new Event('online')));
    await verdict(page, 'incomplete');
  });

  sheetTest('a service with keys is asked with the key that was typed in', { expected: 'status of 401' }, async (page) => {
    const wanted = 'Bearer an-invented-key';
    await page.route('**/v1/**', (route) => (route.request().headers().authorization === wanted
      ? route.continue()
      : route.fulfill({ status: 401, contentType: 'application/problem+json', body: JSON.stringify({ type: '/problems/unauthorized', title: 'Key', status: 401, detail: 'A key is needed.', requestId: 'x' }) })));
    await page.reload();
    await verdict(page, 'locked');
    await page.locator('#bar-next').click();
    await page.keyboard.type('an-invented-key');
    await page.keyboard.press('Enter');
    await verdict(page, 'empty');
    assert.equal(await page.locator('#key-frame').isHidden(), true);
  });

  sheetTest('a service that has too much to do is asked again when it says', { expected: 'status of 503' }, async (page) => {
    await verdict(page, 'empty'); // the first question is answered, so the next one is refused
    let refusals = 1;
    await page.route('**/v1/calibrations', (route) => (refusals-- > 0
      ? route.fulfill({ status: 503, headers: { 'Content-Type': 'application/problem+json', 'Retry-After': '1' }, body: JSON.stringify({ type: '/problems/overloaded', title: 'Busy', status: 503, detail: 'Ask again soon.', requestId: 'x' }) })
      : route.continue()));
    // The refusal is not there for long, so what the bar shows is written down.
    await page.evaluate(() => {
      const bar = document.getElementById('bar');
      globalThis.shown = [];
      new MutationObserver(() => globalThis.shown.push(`${bar.dataset.state}: ${bar.textContent}`)).observe(bar, { attributes: true, childList: true, subtree: true });
    });
    await entry(page, '/label').fill('north');
    await verdict(page, 'incomplete');
    const shown = await page.evaluate(() => globalThis.shown);
    assert.ok(shown.some((one) => /^offline: .*Ask again soon/s.test(one)), shown.join('\n'));
  });
});
