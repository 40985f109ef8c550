// Numbers as people type them, what is said of them, and units that are changed.
import assert from 'node:assert/strict';

import { audit } from './audit.mjs';
import { entry, loadExample, messageAt, verdict } from './page.mjs';

const tank = '/machine/tankVolume/value';
const note = (page) => page.locator('.field', { has: entry(page, tank) }).locator('.note');

/** What stands in the request, as the page shows it, for a text in the field of the tank. */
async function written(page, text) {
  await entry(page, tank).fill(text);
  const shown = await page.locator('#curl').textContent();
  return JSON.parse(shown.slice(shown.indexOf("-d '") + 4, -1)).machine.tankVolume.value;
}

export function typingTests(sheetTest) {
  const read = { '46.2': 46.2, '46,2': 46.2, '12,75': 12.75, '0,207': 0.207, ',5': 0.5, '1234,567': 1234.567, '1,2345': 1.2345, '1,200.5': 1200.5, '1.200,5': 1200.5, '1,200,000': 1200000, '1.200.000': 1200000 };
  for (const [locale, both] of [['en-US', { ...read, '1.200': 1.2 }], ['es-MX', read], ['es-CO', read]]) {
    sheetTest(`${locale}: numbers are read where there is one way to read them`, { locale }, async (page) => {
      for (const [text, value] of Object.entries(both)) {
        assert.equal(await written(page, text), value, text);
        assert.equal(await note(page).innerText(), '', text);
      }
    });
  }

  sheetTest('a comma before three digits is not read, and both readings are named', {}, async (page) => {
    const asked = page.waitForRequest((request) => request.postData()?.includes('"tankVolume"'));
    await entry(page, tank).fill('1,200');
    assert.equal((await asked).postDataJSON().machine.tankVolume.value, '1,200');
    const words = await verdict(page, 'refused');
    const said = await note(page).innerText();
    assert.equal(said, 'This could be 1200 or 1.2. Write it in one of these two ways.');
    assert.ok(words.includes(said), words);
    assert.equal(await messageAt(page, tank).count(), 0);
    assert.equal(await entry(page, tank).getAttribute('aria-invalid'), 'true');
    await page.reload();
    await verdict(page, 'refused');
    assert.equal(await entry(page, tank).inputValue(), '1,200');
    assert.equal(await note(page).innerText(), said);
    await entry(page, tank).fill('1200');
    await verdict(page, 'incomplete');
    assert.equal(await note(page).innerText(), '');
    assert.equal(await page.locator('[aria-invalid]').count(), 0);
  });

  // The signs are those of CLDR: a point in Mexico, a comma in Colombia.
  for (const [locale, sign] of [['es-MX', '.'], ['es-CO', ',']]) {
    sheetTest(`${locale}: a comma and a point before three digits alike; what the page writes it can read`, { locale }, async (page) => {
      for (const text of ['1,200', '1.200']) {
        assert.equal(await written(page, text), text);
        assert.equal(await note(page).innerText(), `Esto puede ser 1200 o 1${sign}2. Escríbalo de una de estas dos formas.`);
      }
      assert.equal(await written(page, '2,7580'), 2.758);
      await page.reload();
      assert.equal(await entry(page, tank).inputValue(), `2${sign}7580`);
    });

    sheetTest(`${locale}: numbers of the page, the service and the record have the sign of the region`, { locale }, async (page) => {
      const asked = page.waitForRequest((request) => request.url().endsWith('/v1/calibrations') && request.headers()['accept-language'] === locale);
      await loadExample(page, 'boom-to-repair');
      await asked;
      await verdict(page, 'not_ready');
      assert.equal(await entry(page, '/nozzle/ratedFlowRate/value').inputValue(), `0${sign}2`);
      const own = await page.locator('#result').innerText();
      assert.match(own, new RegExp(`0\\${sign}24\\d\\d`)); // the mean of one nozzle
      const opening = page.waitForEvent('popup');
      await page.getByRole('button', { name: 'Abrir el registro para imprimir' }).click();
      const tab = await opening;
      await tab.locator('.verdict').waitFor();
      assert.ok((await tab.locator('body').innerText()).includes(`0${sign}2 gal/min`));
    });
  }

  // Spanish on somebody else's phone, or on one's own that is set to English: its region counts.
  const listed = [[['en-US', 'en'], 'es-US', '.'], [['en-US', 'es'], 'es-US', '.'], [['en-US', 'es-CO'], 'es-CO', ','], [['es', 'es-MX'], 'es-MX', '.'], [['es'], 'es', ','], [['en'], 'es', ','], [['de-DE'], 'es-DE', ',']];
  for (const [languages, tag, sign] of listed) {
    sheetTest(`Spanish chosen in a browser of ${languages}: ${tag}, for the page and the service`, {}, async (page) => {
      await page.addInitScript((list) => Object.defineProperty(navigator, 'languages', { get: () => list }), languages);
      await page.reload();
      await loadExample(page, 'boom-to-repair');
      await verdict(page, 'not_ready');
      const asked = page.waitForRequest((request) => request.url().endsWith('/v1/calibrations') && request.headers()['accept-language'] === tag);
      await page.selectOption('#language', 'es');
      await asked;
      await verdict(page, 'not_ready');
      assert.equal(await page.locator('html').getAttribute('lang'), tag);
      assert.equal(await entry(page, '/nozzle/ratedFlowRate/value').inputValue(), `0${sign}2`);
      assert.match(await page.locator('#result').innerText(), new RegExp(`0\\${sign}24\\d\\d`));
    });
  }

  sheetTest('other texts are said in words of people who read gauges', {}, async (page) => {
    for (const [text, words] of [['1 200', 'Write the number without spaces: 1200'], ['about 300', /is not a number/], ['1,20,5', /is not a number/], ['0,200.5', /is not a number/]]) {
      assert.equal(await written(page, text), text);
      assert.match(await note(page).innerText(), new RegExp(words));
    }
    assert.doesNotMatch(await verdict(page, 'refused'), /quotes|gal_us/);
    for (const [text, words] of [['0', 'Change this: This must be more than 0.'], ['-4', 'Change this: This must be more than 0.'], ['2000000000', 'Change this: Too large: it must be at most 1000000000\u00a0US\u00a0gal.']]) {
      await entry(page, tank).fill('7');
      await verdict(page, 'incomplete');
      await entry(page, tank).fill(text);
      await verdict(page, 'refused');
      assert.equal(await messageAt(page, tank).textContent(), words);
    }
  });

  sheetTest('units of a filled sheet are changed only when it is meant', {}, async (page) => {
    const dialog = page.getByRole('dialog', { name: 'Change all units?' });
    // Nothing is typed: nothing to ask.
    await page.selectOption('#system', 'metric');
    await page.selectOption('#system', 'us');
    assert.equal(await dialog.count(), 0);
    await entry(page, tank).fill('300');
    await page.locator('#system').focus();
    await page.selectOption('#system', 'metric');
    await dialog.waitFor();
    assert.match(await dialog.innerText(), /not converted/);
    assert.equal(await page.evaluate(() => document.activeElement.value), 'no');
    await audit(page, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] });
    for (const leave of [() => page.keyboard.press('Escape'), () => dialog.getByRole('button', { name: 'Keep the units' }).click()]) {
      if (!(await dialog.isVisible())) await page.selectOption('#system', 'metric');
      await leave();
      await dialog.waitFor({ state: 'hidden' });
      assert.equal(await page.locator('#system').inputValue(), 'us');
      assert.equal(await entry(page, '/machine/tankVolume/unit').inputValue(), 'gal_us');
      assert.equal(await page.evaluate(() => document.activeElement.id), 'system');
    }
    await page.selectOption('#system', 'metric');
    await dialog.getByRole('button', { name: 'Change the units' }).click();
    assert.match(await page.locator('#told').innerText(), /numbers were not converted/);
    assert.equal(await entry(page, tank).inputValue(), '300');
    assert.equal(await entry(page, '/machine/tankVolume/unit').inputValue(), 'L');
    assert.equal(await entry(page, '/nozzle/ratedPressure/unit').inputValue(), 'bar');
    await page.locator('#told-undo').click();
    assert.equal(await entry(page, '/machine/tankVolume/unit').inputValue(), 'gal_us');
    assert.equal(await page.locator('#system').inputValue(), 'us');
  });
}
