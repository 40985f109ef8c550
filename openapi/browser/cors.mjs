// node browser/cors.mjs ../wetrun
//
// Starts the program twice, for every origin and for one, and calls it in a real
// browser from pages of two other origins: what is allowed can be read, what is not fails.
import assert from 'node:assert/strict'
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { createServer } from 'node:http'
import { chromium } from 'playwright-core'

const program = process.argv[2]
assert.ok(program, 'the path of the program is missing')

const run = `{"runs":[{"courseLength":{"value":100,"unit":"ft"},"time":{"value":22.8,"unit":"s"}}]}`

// site serves an empty page; each has a port, and so an origin, of its own.
async function site() {
  const server = createServer((_, answer) => answer.setHeader('Content-Type', 'text/html').end('<!doctype html><title>a site</title>'))
  server.listen(0, '127.0.0.1')
  await once(server, 'listening')
  return { origin: `http://127.0.0.1:${server.address().port}`, close: () => server.close() }
}

async function service(origins) {
  const child = spawn(program, ['serve', '-addr', '127.0.0.1:0', '-allow-origins', origins], { stdio: ['ignore', 'pipe', 'inherit'] })
  const [welcome] = await once(child.stdout, 'data')
  return { url: /http:\/\/\S+/.exec(welcome)[0], stop: () => child.kill() }
}

// ask runs in the page: what its script sees of an answer.
async function ask({ url, method, body, headers }) {
  try {
    const answer = await fetch(url, { method, body, headers })
    return { status: answer.status, headers: Object.fromEntries(answer.headers), body: await answer.text() }
  } catch (error) {
    return { failed: String(error) }
  }
}

const [mine, theirs] = [await site(), await site()]
const [open, listed] = [await service('*'), await service(mine.origin)]
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
})
try {
  const pageOf = async (site) => {
    const page = await browser.newPage()
    await page.goto(site.origin)
    return page
  }
  const [minePage, theirsPage] = [await pageOf(mine), await pageOf(theirs)]
  const sent = { 'Content-Type': 'application/json', 'Accept-Language': 'en', 'X-Request-Id': 'cors-check', Authorization: 'Bearer invented' }

  for (const [name, page, url, allowed] of [
    ['any origin', minePage, open.url, true],
    ['any other origin', theirsPage, open.url, true],
    ['the origin listed', minePage, listed.url, true],
    ['an origin not listed', theirsPage, listed.url, false],
  ]) {
    const post = (path, body) => page.evaluate(ask, { url: url + path, method: 'POST', body, headers: sent })
    const get = (path, headers) => page.evaluate(ask, { url: url + path, method: 'GET', headers })
    const answer = await post('/v1/ground-speed', run)
    if (!allowed) {
      assert.ok(answer.failed, `${name}: the page reads ${JSON.stringify(answer)}`)
      // A request without a preflight fails as well: the page cannot read its answer.
      assert.ok((await get('/v1/units')).failed, `${name}: the page reads the units`)
      console.log(`cors: ${name} is refused`)
      continue
    }
    assert.equal(answer.status, 200, name)
    assert.ok(JSON.parse(answer.body).groundSpeed.value > 0, name)
    assert.equal(answer.headers['x-request-id'], 'cors-check')
    assert.match(answer.headers.link, /service-desc/)
    assert.equal(answer.headers['content-language'], 'en')

    const refused = await post('/v1/ground-speed', '{}')
    assert.equal(refused.status, 422)
    assert.equal(JSON.parse(refused.body).type, '/problems/invalid_request')
    assert.equal((await post('/v1/ground-speed', '{')).status, 400)
    assert.equal((await post('/v1/nothing', '{}')).status, 404)
    assert.equal((await post('/v1/ground-speed', ' '.repeat(300 << 10))).status, 413)
    const method = await get('/v1/ground-speed')
    assert.equal(method.status, 405)
    assert.match(method.headers.allow, /POST/)

    const units = await get('/v1/units')
    assert.ok(units.headers.etag, 'the page does not see the ETag')
    const again = await get('/v1/units', { 'If-None-Match': units.headers.etag })
    assert.equal(again.status, 304)
    console.log(`cors: ${name} reads answers, problems and headers`)
  }
} finally {
  await browser.close()
  for (const x of [open, listed]) x.stop()
  for (const x of [mine, theirs]) x.close()
}
