// The record that the sheet opens: a page of the service, to print and to file.
import assert from 'node:assert/strict';

import { audit } from './audit.mjs';
import { loadExample, verdict } from './page.mjs';

const pagesOf = (pdf) => pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length;

/** Opens the record in a tab of its own. */
async function openRecord(page, button = 'Open the record to print') {
  const opening = page.waitForEvent('popup');
  await page.getByRole('button', { name: button }).click();
  const tab = await opening;
  await tab.locator('.verdict').waitFor();
  return tab;
}

export function recordTests(sheetTest) {
  sheetTest('the record opens in a tab of its own, with its style', {}, async (page) => {
    await loadExample(page, 'rate-to-correct');
    await verdict(page, 'not_ready');
    const tab = await openRecord(page);
    assert.match(await tab.locator('body').innerText(), /Celery beds, home field \(invented\)/);
    assert.equal(await tab.locator('.verdict').evaluate((one) => getComputedStyle(one).borderTopWidth), '2px');
    assert.equal(await page.getByRole('alert').count(), 0);
  });

  for (const [locale, button] of [['en-US', 'Open the record to print'], ['es-MX', 'Abrir el registro para imprimir']]) {
    for (const [name, state] of [['ready', 'ready'], ['rate-to-correct', 'not_ready'], ['boom-to-repair', 'not_ready']]) {
      sheetTest(`${locale}: the record of ${name} is one printed page, A4 and Letter, and fits a phone`, { locale }, async (page) => {
        await loadExample(page, name);
        await verdict(page, state);
        const tab = await openRecord(page, button);
        for (const [format, width] of [['A4', 710], ['Letter', 732]]) {
          assert.equal(pagesOf(await tab.pdf({ format })), 1, format);
          // Between the margins of the paper nothing is cut off, and nothing is too small to be read.
          await tab.emulateMedia({ media: 'print' });
          await tab.setViewportSize({ width, height: 900 });
          const seen = await tab.evaluate(() => ({
            cut: [...document.querySelectorAll('.scroll')].filter((one) => one.scrollWidth > one.clientWidth).map((one) => one.textContent.slice(0, 30)),
            smallest: Math.min(...[...document.querySelectorAll('svg text')].map((one) => one.getBoundingClientRect().height), ...[...document.querySelectorAll('p, td, th, li, dt, dd')].map((one) => parseFloat(getComputedStyle(one).fontSize))),
          }));
          assert.deepEqual(seen.cut, [], format);
          assert.ok(seen.smallest >= 8.6, `${format}: letters of ${seen.smallest} px`); // 6.5 points
          await tab.emulateMedia({ media: null });
        }
        await tab.setViewportSize({ width: 360, height: 780 });
        assert.equal(await tab.evaluate(() => document.documentElement.scrollWidth), 360);
        await audit(tab);
        if (process.env.PICTURES) await tab.screenshot({ path: `${process.env.PICTURES}/record-${name}-${locale}.png`, fullPage: true });
      });
    }
  }
  sheetTest('the working of a record breaks no number and takes few pages', {}, async (page) => {
    await loadExample(page, 'ready');
    await verdict(page, 'ready');
    const { request } = await page.evaluate(() => ({ request: JSON.parse(localStorage.getItem('wetrun.sheet')) }));
    const answer = await page.request.post(new URL('/v1/calibrations', page.url()).href, { data: { ...request, showWorking: true }, headers: { Accept: 'text/html' } });
    await page.setContent((await answer.text()).replaceAll(/<meta http-equiv[^>]*>/g, ''));
    assert.ok(pagesOf(await page.pdf({ format: 'A4' })) <= 12);
    // On A4 paper and on any screen each number of the table is one box.
    for (const [media, width] of [['print', 710], ['screen', 360], ['screen', 900]]) {
      await page.setViewportSize({ width, height: 800 });
      await page.emulateMedia({ media });
      const broken = await page.evaluate(() => {
        const found = [];
        let numbers = 0;
        for (const cell of document.querySelectorAll('.working td')) {
          for (const { 0: number, index } of cell.firstChild.data.matchAll(/\d[\d.]+/g)) {
            const range = document.createRange();
            range.setStart(cell.firstChild, index);
            range.setEnd(cell.firstChild, index + number.length);
            numbers++;
            if (range.getClientRects().length !== 1) found.push(number);
          }
        }
        return { found: found.slice(0, 5), numbers };
      });
      assert.deepEqual(broken.found, [], `${media}, ${width} px`);
      assert.ok(broken.numbers > 1000);
    }
  });
}
