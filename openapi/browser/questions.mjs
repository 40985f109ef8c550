// Entries that the service does not believe: asked about before all else, beside the
// entry too, and not again once somebody has said that they are right.
import assert from 'node:assert/strict';

import { demo, entry, openSheet, verdict } from './page.mjs';

const center = '/pressure/readings/1/pressure/value';
const questions = (page) => page.locator('#result .question');
const asked = (page, pointer) => page.locator('.field', { has: entry(page, pointer) }).locator('.messages .question');

/** A sheet that is ready but for a reading that was typed in bar where all others are in psi: 60.9 psi are 4.2 bar. */
export function typedInBar() {
  const sheet = demo('ready');
  sheet.pressure.readings[1].pressure.value = 4.2;
  return sheet;
}

/** What the page asks the service when something is done. */
async function requestOf(page, act) {
  const asking = page.waitForRequest((request) => request.method() === 'POST' && request.url().endsWith('/v1/calibrations'));
  await act();
  return (await asking).postDataJSON();
}

export function questionTests(sheetTest, said) {
  sheetTest('a reading typed in bar is asked about first, beside its field too', {}, async (page) => {
    await openSheet(page, typedInBar());
    const [step] = (await said(typedInBar())).nextSteps;
    assert.deepEqual([step.code, step.pointer, step.wouldAgree.unit], ['check_entry', '#/pressure/readings/1/pressure', 'psi']);
    const bar = await verdict(page, 'asked');
    assert.ok(bar.includes(`center, Pressure at the nozzles: ${step.text}`), bar);
    assert.equal(await questions(page).count(), 1);
    assert.match(await questions(page).innerText(), /^Is this right\?\s+center, Pressure at the nozzles: /);
    assert.ok((await questions(page).innerText()).includes(step.text));
    assert.equal(await page.locator('#result .verdict + .question').count(), 1, 'it comes first');
    // The field says it to the eye by more than a color, and to a screen reader.
    assert.equal(await entry(page, center).evaluate((one) => getComputedStyle(one).borderTopStyle), 'dashed');
    assert.equal(await entry(page, center).getAttribute('aria-invalid'), null);
    const message = asked(page, center);
    assert.ok((await message.innerText()).startsWith(`Is this right? ${step.text}`));
    const described = (await entry(page, center).getAttribute('aria-describedby')).split(' ');
    assert.ok(described.includes(await message.locator('xpath=..').getAttribute('id')));
    await questions(page).getByRole('button', { name: 'Go there' }).click();
    assert.equal(await page.evaluate(() => document.activeElement.name), `calibrations#${center}`);
    // What rests on it is not judged, and no drop is called anything.
    assert.match(await page.locator('#result .part', { hasText: 'Timed runs' }).innerText(), /^Timed runs\s+in order/);
    for (const part of ['Pressure', 'Catch test', 'Rate']) {
      assert.match(await page.locator('#result .part', { has: page.getByRole('heading', { name: part }) }).innerText(), new RegExp(`^${part}\\s+not judged`));
    }
    assert.equal(await page.locator('.rows .found:not(:empty)').count(), 0);
    // The right value makes the sheet go on.
    await entry(page, center).fill('61');
    await verdict(page, 'ready');
    assert.equal(await page.locator('.question').count(), 0);
    assert.equal(await page.locator('.found[data-state="within"]').count(), 12);
  });

  sheetTest('what is right is confirmed with the sheet, until it changes', {}, async (page) => {
    await openSheet(page, typedInBar());
    await verdict(page, 'asked');
    const sent = await requestOf(page, () => questions(page).getByRole('button', { name: 'It is right' }).click());
    assert.deepEqual(sent.confirmed, ['#/pressure/readings/1/pressure']);
    assert.equal(await page.evaluate(() => document.activeElement.id), 'result');
    await verdict(page, 'not_ready'); // the boom is uneven then
    assert.equal(await page.locator('.question').count(), 0);
    // It is kept, in the browser and in a file.
    assert.deepEqual((await requestOf(page, () => page.reload())).confirmed, sent.confirmed);
    await verdict(page, 'not_ready');
    const saving = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save to a file' }).click();
    const file = await (await saving).path();
    await page.getByRole('button', { name: 'Clear the sheet' }).click();
    await verdict(page, 'empty');
    assert.deepEqual((await requestOf(page, () => page.setInputFiles('#file', file))).confirmed, sent.confirmed);
    await verdict(page, 'not_ready');
    // A name is no value: nobody asked about it. Another value is asked about anew.
    assert.deepEqual((await requestOf(page, () => page.selectOption('[name="calibrations#/pressure/readings/1/position"]', 'left', { force: true }))).confirmed, sent.confirmed);
    assert.equal((await requestOf(page, () => entry(page, center).fill('4.3'))).confirmed, undefined);
    await verdict(page, 'asked');
    assert.equal((await requestOf(page, () => entry(page, center).fill('4.2'))).confirmed, undefined);
    // Beside the field it can be said too, and taken back.
    await verdict(page, 'asked');
    const again = await requestOf(page, () => asked(page, center).getByRole('button', { name: 'It is right' }).click());
    assert.deepEqual(again.confirmed, sent.confirmed);
    assert.equal(await page.evaluate(() => document.activeElement.name), `calibrations#${center}`);
    assert.equal((await requestOf(page, () => page.locator('#told-undo').click())).confirmed, undefined);
    await verdict(page, 'asked');
  });

  sheetTest('what is confirmed is found by its pointer whatever stands empty before it', {}, async (page) => {
    await openSheet(page, typedInBar());
    await verdict(page, 'asked');
    await page.getByRole('button', { name: 'Add a place' }).click();
    await entry(page, '/pressure/readings/3/pressure/value').fill('60');
    await entry(page, '/pressure/readings/0/pressure/value').fill('');
    await verdict(page, 'asked');
    const sent = await requestOf(page, () => questions(page).getByRole('button', { name: 'It is right' }).click());
    assert.deepEqual([sent.confirmed, sent.pressure.readings[0].pressure.value], [['#/pressure/readings/0/pressure'], 4.2]);
    const filled = await requestOf(page, () => entry(page, '/pressure/readings/0/pressure/value').fill('60'));
    assert.deepEqual([filled.confirmed, filled.pressure.readings[1].pressure.value], [['#/pressure/readings/1/pressure'], 4.2]);
    const emptied = await requestOf(page, () => entry(page, center).fill(''));
    assert.deepEqual([emptied.confirmed, emptied.pressure.readings.length], [undefined, 3]);
  });

  sheetTest('Spanish: a list that is wrong alike is asked about as a list', { locale: 'es-MX' }, async (page) => {
    // All jugs were read in mL: 46.2 US fl oz are 1366 mL.
    const sheet = demo('ready');
    for (const drop of sheet.output.catches) drop.volume.value = Math.round(drop.volume.value * 29.57);
    await openSheet(page, sheet);
    assert.match(await verdict(page, 'asked'), /Primero revise un dato\s+Aforo: /);
    const list = page.locator('.list[data-at="calibrations#/output/catches"]');
    assert.match(await list.locator('> .messages .question').innerText(), /^¿Es correcto\? /);
    assert.equal(await list.getAttribute('aria-describedby'), await list.locator('> .messages').getAttribute('id'));
    assert.equal(await list.locator('> .rows').evaluate((one) => getComputedStyle(one).outlineStyle), 'dashed');
    await questions(page).getByRole('button', { name: 'Ir allí' }).click();
    assert.equal(await page.evaluate(() => document.activeElement.dataset.at), 'calibrations#/output/catches');
    const sent = await requestOf(page, () => questions(page).getByRole('button', { name: 'Es correcto' }).click());
    assert.deepEqual(sent.confirmed, ['#/output/catches']);
    assert.match(await page.locator('#told').innerText(), /^Anotado\./);
    await list.locator('> .messages .question').waitFor({ state: 'detached' }); // another entry may be asked about then
    // One of them changes, so they are not what was confirmed.
    assert.equal((await requestOf(page, () => entry(page, '/output/catches/3/volume/value').fill('46.2'))).confirmed, undefined);
  });
}
