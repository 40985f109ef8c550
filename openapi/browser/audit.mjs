// What axe finds wrong with a page for people who cannot see it well, or not at all.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export async function audit(page, rules) {
  await page.evaluate(axe);
  const { violations } = await page.evaluate((rules) => globalThis.axe.run(document, { resultTypes: ['violations'], ...rules }), rules);
  assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html, any }) => `${html.slice(0, 120)} ${any[0]?.message ?? ''}`).slice(0, 4).join(' | ')}`), []);
}
