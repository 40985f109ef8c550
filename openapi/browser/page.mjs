// A page in a browser of its own, that fails its test when it reports an error,
// or asks anything of another host.
import assert from 'node:assert/strict';
import { existsSync, readFileSync } from 'node:fs';
import { chromium } from 'playwright-core';

const executablePath = process.env.CHROMIUM ?? '/usr/bin/chromium';
const args = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'];

export async function startBrowser() {
  assert.ok(existsSync(executablePath), `no browser at ${executablePath}: install chromium or set CHROMIUM`);
  return chromium.launch({ executablePath, args });
}

/** Opens the sheet, runs a test with it, and checks that it, and what it opened, kept quiet. */
export async function withSheet(browser, url, { expected = 'status of 422', ...options }, test) {
  const context = await browser.newContext({ locale: 'en-US', viewport: { width: 360, height: 780 }, ...options });
  const wrong = [];
  await context.route((asked) => asked.origin !== new URL(url).origin && asked.protocol.startsWith('http'), (route) => {
    wrong.push(`asked for ${route.request().url()}`);
    return route.abort();
  });
  const page = await context.newPage();
  // A refused sheet is part of the work; a browser logs every 422 as an error. A test
  // may expect another one instead.
  context.on('console', (message) => {
    if (['error', 'warning'].includes(message.type()) && !message.text().includes(expected)) wrong.push(`${message.type()}: ${message.text()}`);
  });
  context.on('weberror', (error) => wrong.push(`thrown: ${error.error().stack}`));
  try {
    await page.goto(`${url}/`);
    await page.locator('[name="calibrations#/machine/tankVolume/value"]').waitFor();
    await test(page);
  } finally {
    await context.close();
  }
  assert.deepEqual(wrong, []);
}

/** The entry of a member of the field sheet. */
export const entry = (page, pointer) => page.locator(`[name="calibrations#${pointer}"]`);

/** What stands beside an entry. */
export const messageAt = (page, pointer) => page.locator('.field', { has: page.locator(`[name="calibrations#${pointer}"]`) }).locator('.messages li');

/** Waits until the bar shows a state, and returns its words. */
export async function verdict(page, state) {
  await page.locator(`#bar[data-state="${state}"][aria-busy="false"]`).waitFor({ timeout: 20_000 });
  return page.locator('#bar').innerText();
}

export async function loadExample(page, name) {
  await page.selectOption('#example', name);
}

/** An invented sheet, the request itself. */
export const demo = (name) => JSON.parse(readFileSync(new URL(`../../testdata/demo/${name}.json`, import.meta.url)));

/** Opens a sheet from a file. */
export async function openSheet(page, sheet) {
  await page.setInputFiles('#file', { name: 'sheet.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(sheet)) });
}
