// For every screen, eye and hand: the sheet fits, can be read, and needs no mouse.
import assert from 'node:assert/strict';

import { audit } from './audit.mjs';
import { demo, entry, openSheet, verdict } from './page.mjs';
import { typedInBar } from './questions.mjs';

// What a rule of axe looks at is the same in the dark but for the colors.
const every = { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'], rules: { 'color-contrast-enhanced': { enabled: true } } };
const colors = { runOnly: { type: 'rule', values: ['color-contrast', 'color-contrast-enhanced'] } };

// From 320 px up nobody may have to scroll sideways (WCAG 2.2, 1.4.10 Reflow).
const plans = { sheet: demo('rate-to-correct'), state: 'not_ready' };
const outside = { sheet: { ...demo('boom-to-repair'), pressure: demo('ready').pressure }, state: 'not_ready' };
const question = { sheet: typedInBar(), state: 'asked' };
const screens = [
  { name: 'a phone', height: 780, widths: [320, 360, 390], sheets: [plans, outside, question] },
  { name: 'a desk', height: 850, widths: [1280, 1440], sheets: [question, plans, outside] },
];

export function accessibilityTests(sheetTest) {
  sheetTest('the keyboard alone gets through the first step', { viewport: { width: 1280, height: 850 } }, async (page) => {
    const focused = () => page.evaluate(() => document.activeElement.textContent.trim().slice(0, 40) || document.activeElement.tagName);
    await page.keyboard.press('Tab');
    assert.equal(await focused(), 'Skip to the sheet');
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => document.activeElement.id === 'prepare');
    await page.keyboard.press('Tab');
    assert.match(await focused(), /^Before the start/);
    const ticks = page.locator('#prepare details[open] input');
    for (let i = 0; i < (await ticks.count()); i++) {
      await page.keyboard.press('Tab');
      await page.keyboard.press('Space');
    }
    assert.match(await page.locator('#prepare summary').first().innerText(), /\b(\d+) of \1$/);
    for (let i = 0; i < 3; i++) await page.keyboard.press('Tab');
    assert.match(await focused(), /^Next:/);
    const outline = await page.evaluate(() => getComputedStyle(document.activeElement).outlineWidth);
    assert.equal(outline, '4px');
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => document.activeElement.id === 'machine');
    await page.keyboard.press('Tab'); // how it is done
    await page.keyboard.press('Tab');
    await page.keyboard.type('north block');
    assert.equal(await entry(page, '/label').inputValue(), 'north block');
  });

  for (const { name, height, widths, sheets } of screens) {
    const viewport = { width: widths[0], height };
    for (const colorScheme of ['light', 'dark']) {
      sheetTest(`${name}, ${colorScheme}: fits, is labelled, and can be read`, { viewport, colorScheme, reducedMotion: 'reduce' }, async (page) => {
        const unfold = () => page.evaluate(() => document.querySelectorAll('details').forEach((fold) => (fold.open = true)));
        const fits = async () => {
          await unfold();
          for (const width of widths.toReversed()) {
            await page.setViewportSize({ width, height });
            assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), width);
          }
        };
        for (const { sheet, state } of sheets) {
          await openSheet(page, sheet);
          for (const language of ['en', 'es']) {
            await page.selectOption('#language', language);
            await verdict(page, state);
            await fits();
          }
        }
        const small = await page.evaluate(() => [...document.querySelectorAll('input, select, button, summary, .onward, nav a')]
          .filter((one) => one.getClientRects().length > 0 && !['checkbox', 'radio', 'file'].includes(one.type) && one.getBoundingClientRect().height < 44)
          .map((one) => one.outerHTML.slice(0, 80)));
        assert.deepEqual(small, [], 'targets of less than 44 px');
        await audit(page, colorScheme === 'light' ? every : colors);
        if (process.env.PICTURES) await page.screenshot({ path: `${process.env.PICTURES}/${widths[0]}-${colorScheme}.png`, fullPage: true });
      });
    }
  }
}
