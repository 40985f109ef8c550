// What the service decides, shown: why a step is to be done and what it rests on, plans,
// ranges open at one end; and fields that few sheets fill in.
import assert from 'node:assert/strict';

import { demo, entry, loadExample, openSheet, verdict } from './page.mjs';

export function shownTests(sheetTest, said) {
  sheetTest('a step says why, once for its rule, and leads to the entries that it rests on', {}, async (page) => {
    await loadExample(page, 'ready');
    await verdict(page, 'ready');
    const ready = (await said(demo('ready'))).nextSteps;
    assert.deepEqual(ready.map(({ rule }) => rule), ['ready', 'ready']);
    assert.deepEqual(await page.locator('#result .why').allTextContents(), [ready[0].why]);
    await loadExample(page, 'rate-to-correct');
    await verdict(page, 'not_ready');
    const [over, plan] = (await said(demo('rate-to-correct'))).nextSteps;
    assert.deepEqual([over.because, plan.because.every((pointer) => pointer.includes('/result'))], [['#/target/labelMaximum', '#/rate/result/applicationRate'], true]);
    const steps = page.locator('#result .next > li');
    assert.equal(await steps.nth(0).locator('.why').innerText(), `${over.why} Based on: Label maximum`);
    assert.equal(await steps.nth(1).locator('.why').innerText(), plan.why);
    await steps.nth(0).getByRole('link', { name: 'Label maximum' }).click();
    assert.equal(await page.evaluate(() => document.activeElement.name), 'calibrations#/target/labelMaximum/value');
  });

  sheetTest("a rate over or under the label's limits is called so, and a plan says what it aims at", {}, async (page) => {
    const sheet = demo('rate-to-correct');
    sheet.target.labelMaximum.value = 91; // 90 is too close to it to aim at
    await openSheet(page, sheet);
    await verdict(page, 'not_ready');
    const { aim } = (await said(sheet)).correction.result.plans[0];
    assert.ok(aim.value < 90, JSON.stringify(aim));
    assert.match(await page.locator('.plan').first().innerText(), new RegExp(`Aims for\\s+${Number(aim.value.toPrecision(4))}\\sUS gal/acre`.replaceAll(' ', '\\s')));
    const rate = page.locator('#result .part', { has: page.getByRole('heading', { name: 'Rate' }) });
    assert.match(await rate.innerText(), /Label maximum\s+91\sUS\sgal\/acre: the rate is over it/);
    sheet.target = { ...sheet.target, applicationRate: { value: 125, unit: 'gal_us/acre' }, labelMaximum: { value: 150, unit: 'gal_us/acre' }, labelMinimum: { value: 120, unit: 'gal_us/acre' } };
    await openSheet(page, sheet);
    await rate.getByText('the rate is under it').waitFor();
    assert.match(await rate.innerText(), /Label maximum\s+150\sUS\sgal\/acre\s+Label minimum\s+120\sUS\sgal\/acre: the rate is under it/);
    assert.equal((await said(sheet)).nextSteps[0].code, 'under_label_minimum');
  });

  sheetTest('plans that are left out are counted, and two changes together are one plan', {}, async (page) => {
    const sheet = demo('rate-to-correct');
    sheet.planning = { nozzles: Array.from({ length: 15 }, (_, i) => ({ label: `nozzle ${i}`, ratedFlowRate: { value: 0.15 + 0.005 * i, unit: 'gal_us/min' }, ratedPressure: { value: 40, unit: 'psi' } })) };
    await openSheet(page, sheet);
    await verdict(page, 'not_ready');
    const { plans, plansLeftOut } = (await said(sheet)).correction.result;
    assert.ok(plansLeftOut > 0);
    assert.ok((await page.locator('#plans').innerText()).includes(`Not shown: ${plansLeftOut} more.`));
    const both = plans.findIndex(({ changes }) => String(changes) === 'speed,nozzle');
    assert.equal(await page.locator('.plan strong').nth(both).innerText(), 'Speed + Other nozzles');
  });

  sheetTest('cautions and warnings stand at the plan that they go with, and what it says of the droplets', {}, async (page) => {
    const sheet = demo('rate-to-correct');
    sheet.planning.dropletChart = [{ pressureRange: { low: { value: 20, unit: 'psi' }, high: { value: 90, unit: 'psi' } }, dropletClass: 'coarse' }]; // of the nozzle that is on
    sheet.planning.nozzles = [{ label: 'blue', ratedFlowRate: { value: 0.17, unit: 'gal_us/min' }, ratedPressure: { value: 40, unit: 'psi' } }];
    await openSheet(page, sheet);
    await verdict(page, 'not_ready');
    const { plans, warnings } = (await said(sheet)).correction.result;
    assert.ok(plans.some(({ warnings }) => warnings) && plans.some(({ cautionTexts }) => cautionTexts) && plans.some(({ cautionTexts }) => !cautionTexts) && plans.some(({ dropletClass }) => dropletClass === 'coarse') && warnings);
    for (const [i, plan] of plans.entries()) {
      const expected = [plan.cautionTexts && ['Cautions', ...plan.cautionTexts], plan.warnings && ['Warnings', ...plan.warnings.map(({ detail }) => detail)]].filter(Boolean);
      const shown = async (all) => (await all.allInnerTexts()).map((one) => one.split('\n').filter(Boolean));
      assert.deepEqual(await shown(page.locator('.plan').nth(i).locator('.tag:has(.sign)')), expected);
      assert.equal(/Droplet size\s+coarse/.test(await page.locator('.plan').nth(i).innerText()), plan.dropletClass === 'coarse');
      await page.locator('.plan').nth(i).locator('label').click();
      assert.deepEqual(await shown(page.locator('.chosen > :is(.caution, .tag)')), expected);
    }
    // What goes with all of them is read before any is chosen.
    assert.ok((await page.locator('#plans .content').innerText()).indexOf(warnings[0].detail) < (await page.locator('#plans .content').innerText()).indexOf('Choose a plan'));
  });

  sheetTest('cautions stand at the step of the procedure, and all of them at the tank loads', {}, async (page) => {
    const procedure = await (await page.request.get(new URL('/v1/procedure', page.url()).href)).json();
    await page.evaluate(() => document.querySelectorAll('details').forEach((fold) => (fold.open = true)));
    for (const [id, place, items] of [['prepare', '#prepare', '.ticks'], ['pressure', '#pressure', '.how ol'], ['mix', '#mix', '.how ol']]) {
      const { steps } = procedure.stages.find((stage) => stage.id === id);
      assert.ok(steps.some(({ cautionTexts }) => cautionTexts));
      for (const [i, { cautionTexts = [] }] of steps.entries()) assert.deepEqual(await page.locator(place).locator(items).first().locator('> li').nth(i).locator('.at-step .said').allTextContents(), cautionTexts);
    }
    const request = { tankVolume: { value: 300, unit: 'gal_us' }, applicationRate: { value: 100, unit: 'gal_us/acre' }, treatedArea: { value: 10, unit: 'acre' } };
    for (const [name, { value }] of Object.entries(request)) await page.locator(`[name="tank-loads#/${name}/value"]`).fill(String(value));
    await page.getByRole('button', { name: 'Add a product' }).click();
    await page.locator('[name="tank-loads#/products/0/productRate/value"]').fill('2');
    await page.locator('.tank-answer tbody tr').nth(1).waitFor();
    const answer = await (await page.request.post(new URL('/v1/tank-loads', page.url()).href, { data: { ...request, products: [{ productRate: { value: 2, unit: 'pt_us/acre' } }] } })).json();
    const shown = await page.locator('#mix .caution li').allTextContents();
    assert.ok(shown.length > (await page.locator('#mix > .cautions li').count()));
    for (const { text } of answer.cautions) assert.equal(shown.filter((one) => one === text).length, 1, text);
    assert.equal(await page.locator('.tank-answer .caution + details[open]').count(), 1, 'they come before the order of mixing');
  });

  sheetTest('what a product is used as, and its formulation, decide the order of mixing', {}, async (page) => {
    const asked = (words) => page.waitForRequest((request) => request.url().endsWith('/v1/tank-loads') && request.postData().includes(words));
    for (const [name, value] of [['tankVolume', 300], ['applicationRate', 100], ['treatedArea', 10]]) await page.locator(`[name="tank-loads#/${name}/value"]`).fill(String(value));
    await page.getByRole('button', { name: 'Add a product' }).click();
    await page.getByLabel('Label rate per area', { exact: true }).fill('2');
    const solution = asked('"solution"');
    await page.getByLabel('Formulation on the label').selectOption('solution');
    assert.deepEqual((await solution).postDataJSON().products, [{ formulation: 'solution', productRate: { unit: 'pt_us/acre', value: 2 } }]);
    const order = page.locator('.tank-answer details li');
    await order.filter({ hasText: /solutions one at a time/ }).waitFor();
    await page.getByLabel('Formulation on the label').selectOption('');
    await page.getByLabel('Used as').selectOption('compatibility_agent');
    await order.filter({ hasText: /compatibility agent/ }).waitFor();
    assert.equal(await order.filter({ hasText: /solutions one at a time/ }).count(), 0);
  });

  sheetTest('limits of one way alone leave the other end open', {}, async (page) => {
    const sheet = demo('ready');
    for (const [tolerance, words] of [[{ rated: { above: { value: 10, unit: '%' } } }, /allowed up to 51\.7/], [{ mean: { below: { value: 10, unit: '%' } } }, /allowed from 42\.3/]]) {
      sheet.output.tolerance = tolerance;
      await openSheet(page, sheet);
      await page.locator('.rows.drop .found', { hasText: words }).first().waitFor();
      await verdict(page, 'ready');
      assert.equal(await page.locator('.chart .drop .range').count(), 12);
      assert.ok(await page.locator('.chart .range').evaluateAll((all) => all.every((one) => Number(one.getAttribute('width')) > 0)));
    }
  });

  sheetTest('sides, limits of each way, pulse and minimum go to the service as they are filled in', {}, async (page) => {
    await page.evaluate(() => document.querySelectorAll('details.fold').forEach((fold) => (fold.open = true)));
    const fill = (pointer, value) => entry(page, pointer).fill(value);
    const side = (name) => page.getByRole('group', { name: 'Boom sides' }).getByRole('checkbox', { name });
    await fill('/output/tolerance/limit/value', '10');
    await entry(page, '/output/tolerance/basis').selectOption('rated');
    await fill('/output/tolerance/rated/below/value', '5');
    await fill('/output/tolerance/mean/above/value', '7');
    await fill('/output/catchPointsOnBoom', '27');
    await fill('/output/replaceAllFrom', '3');
    await fill('/output/catches/0/volume/value', '46');
    await fill('/dutyCycle/value', '70');
    await fill('/target/labelMinimum/value', '80');
    for (const name of ['left', 'center', 'right']) await side(name).check();
    const written = async () => JSON.parse(/-d '(.*)'$/s.exec(await page.locator('#curl').textContent())[1]);
    const all = await written();
    assert.deepEqual([all.machine, all.dutyCycle, all.target, all.output.replaceAllFrom], [undefined, { unit: '%', value: 70 }, { labelMinimum: { unit: 'gal_us/acre', value: 80 } }, 3]);
    assert.deepEqual(all.output.tolerance, { rated: { below: { unit: '%', value: 5 } }, mean: { above: { unit: '%', value: 7 } } });
    await side('right').uncheck();
    assert.deepEqual((await written()).machine, { sides: ['left', 'center'] });
    await page.reload();
    assert.deepEqual([await side('left').isChecked(), await side('right').isChecked()], [true, false]);
    await page.evaluate(() => document.querySelectorAll('details.fold').forEach((fold) => (fold.open = true)));
    await fill('/output/tolerance/rated/below/value', '');
    await fill('/output/tolerance/mean/above/value', '');
    assert.deepEqual((await written()).output.tolerance, { limit: { unit: '%', value: 10 }, basis: 'rated' });
  });
}
