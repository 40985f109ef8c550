// node browser/docs.mjs http://127.0.0.1:8080 [screenshot.png]
//
// Opens the reference in a real browser, sends one example from it, and fails when the
// answer is not there, the console complains, or anything is asked of another host; when
// the page shows another's mark than ours, or locks though the server has no keys.
import assert from 'node:assert/strict'
import { chromium } from 'playwright-core'

const server = process.argv[2]
assert.ok(server, 'the address of a running server is missing')

const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
})
try {
  const page = await browser.newPage()
  const complaints = []
  const asked = []
  page.on('console', (m) => ['error', 'warning'].includes(m.type()) && complaints.push(m.text()))
  page.on('pageerror', (e) => complaints.push(String(e)))
  page.on('request', (r) => asked.push(r.url()))

  await page.goto(`${server}/docs`)
  const operation = page.locator('#operations-speed-groundSpeed')
  await operation.locator('.opblock-summary-control').click()
  await operation.locator('button.execute').click()
  const answer = operation.locator('.live-responses-table .response').first()
  await answer.waitFor()
  assert.match(await answer.innerText(), /200/)
  assert.match(await answer.innerText(), /groundSpeed/)

  // What the page of a GET answers can be tried just so.
  const units = page.locator('#operations-reference-units')
  await units.locator('.opblock-summary-control').click()
  await units.locator('button.execute').click()
  await units.locator('.live-responses-table .response').first().waitFor()
  assert.match(await units.locator('.live-responses-table .response').first().innerText(), /200/)

  // One picture, which is ours, and it is there.
  const pictures = await page.locator('link[rel="icon"], img').evaluateAll((all) => all.map((x) => x.getAttribute('href') ?? x.getAttribute('src')))
  assert.deepEqual([...new Set(pictures)], ['/web/drop.svg'])
  assert.ok(await page.locator('header.mark img').evaluate((x) => x.complete && x.naturalWidth > 0), 'the mark does not load')

  // No locks where there are no keys, and locks where there are.
  const keyed = (await fetch(`${server}/v1/meta`)).status === 401
  assert.equal(await page.locator('.authorization__btn:visible, .auth-wrapper:visible').count() > 0, keyed, 'locks')
  await page.evaluate(() => scrollTo(0, 0))
  if (process.argv[3]) await page.screenshot({ path: process.argv[3] })

  const elsewhere = asked.filter((url) => /^(https?|wss?):/.test(url) && new URL(url).origin !== new URL(server).origin)
  assert.deepEqual(elsewhere, [], 'it asks other hosts')
  assert.deepEqual(complaints, [], 'the console complains')
  assert.equal(await page.locator('#validator, a[href*="validator"], img[src*="validator"]').count(), 0, 'the badge is there')
  console.log(`docs: ${asked.length} requests, all to ${server}, and the examples run`)
} finally {
  await browser.close()
}
