// The record that the sheet opens: a page of the service, to print and to file.
import assert from 'node:assert/strict';

import { audit } from './audit.mjs';
import { loadExample, verdict } from './page.mjs';

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
    sheetTest(`${locale}: the record of a sheet in order is one printed page, A4 and Letter, and fits a phone`, { locale }, async (page) => {
      await loadExample(page, 'ready');
      await verdict(page, 'ready');
      const tab = await openRecord(page, button);
      for (const format of ['A4', 'Letter']) {
        const pages = (await tab.pdf({ format })).toString('latin1').match(/\/Type\s*\/Page\b/g);
        assert.equal(pages?.length, 1, format);
      }
      assert.equal(await tab.evaluate(() => document.documentElement.scrollWidth), 360);
      await audit(tab, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] });
      if (process.env.PICTURES) await tab.screenshot({ path: `${process.env.PICTURES}/record-${locale}.png`, fullPage: true });
    });
  }
}
