// What is shown belongs to what is entered, whatever the network does.
import assert from 'node:assert/strict';

import { entry, loadExample, verdict } from './page.mjs';

/** How the old verdict looks: whether it is marked, and the colors of bar, result, step and drop. */
const look = (page) => page.evaluate(() => ({
  marked: getComputedStyle(document.querySelector('.stale-note')).display !== 'none',
  colors: [['#bar .light', 'backgroundColor'], ['#result .verdict strong', 'color'], ['.mark[data-state="passed"]', 'color'], ['.found[data-state]', 'color']]
    .map(([at, property]) => getComputedStyle(document.querySelector(at))[property]),
  ticks: [...document.querySelectorAll('#bar .light, #result .verdict strong, .mark[data-state], .found[data-state]')].filter((one) => getComputedStyle(one, '::before').content.includes('✓')).length,
}));

const volume = (page) => entry(page, '/output/catches/2/volume/value');
const posts = '**/v1/calibrations';

/** Green once, then a drop of 80 fl oz typed: nothing of before may look as if it were of now. */
async function typedOver(page, change) {
  await loadExample(page, 'ready');
  await verdict(page, 'ready');
  const green = await look(page);
  assert.ok(!green.marked && green.ticks > 12);
  await change?.();
  await volume(page).fill('80');
  const old = await look(page);
  assert.ok(old.marked, 'the old result is not marked');
  assert.equal(old.ticks, 0);
  old.colors.forEach((color, i) => assert.notEqual(color, green.colors[i]));
}

export function staleTests(sheetTest) {
  sheetTest('at the first keystroke the old verdict is marked, until the new one is there', {}, async (page) => {
    let letGo;
    await typedOver(page, () => page.route(posts, async (route) => {
      await new Promise((go) => (letGo = go)); // as slow as it gets
      await route.continue();
    }));
    await page.waitForRequest(posts);
    assert.ok((await look(page)).marked);
    letGo();
    await verdict(page, 'not_ready');
    assert.ok(!(await look(page)).marked);
  });

  sheetTest('without a network the old verdict stays marked, and what was there again is not', { expected: 'ERR_INTERNET_DISCONNECTED' }, async (page) => {
    await typedOver(page, () => page.context().setOffline(true));
    await verdict(page, 'offline');
    assert.ok((await look(page)).marked);
    const before = await page.evaluate(() => JSON.parse(localStorage.getItem('wetrun.sheet')));
    assert.ok(before);
    await page.context().setOffline(false);
    await verdict(page, 'not_ready');
    assert.ok(!(await look(page)).marked);
  });

  sheetTest('a service that fails, or refuses the sheet, leaves the old verdict marked', { expected: 'status of' }, async (page) => {
    await typedOver(page, () => page.route(posts, (route) => route.fulfill({ status: 500, json: { type: '/problems/internal_error', title: 'Server error', status: 500, detail: 'It failed.' } })));
    await verdict(page, 'offline');
    assert.ok((await look(page)).marked);
    await page.unroute(posts);
    await volume(page).fill('-1');
    await verdict(page, 'refused');
    assert.ok((await look(page)).marked);
  });

  sheetTest('an answer that comes late is not taken for that of a newer sheet', {}, async (page) => {
    const held = [];
    await typedOver(page, () => page.route(posts, (route) => (held.length === 0 ? held.push(route) : route.continue())));
    await page.waitForRequest(posts);
    await volume(page).fill('46.5'); // as it was
    await verdict(page, 'ready');
    await held[0].continue().catch(() => {}); // it was given up
    await page.waitForTimeout(300);
    await verdict(page, 'ready');
    assert.ok(!(await look(page)).marked);
  });
}
