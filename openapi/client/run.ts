// node client/generated/out/run.js http://127.0.0.1:8080
//
// Sends every call to a running server, and holds each answer against the document's.
import assert from 'node:assert/strict'
import createClient from 'openapi-fetch'
import { calls, documented } from './generated/calls.js'
import type { components, paths } from './generated/schema.js'

const server = process.argv[2]
assert.ok(server, 'the address of a running server is missing')
const client = createClient<paths>({ baseUrl: server })

let sent = 0
for (const { name, status, answer, send } of calls(client)) {
  const { data, error, response } = await send()
  assert.equal(response.status, status, name)
  if (status === 200) {
    assert.ok(data, `${name}: no answer`)
    if (answer !== null) assert.deepEqual(data, answer, name)
  } else {
    // Each request has an id of its own; the example has one that is invented.
    const problem: components['schemas']['Problem'] = error!
    assert.equal(problem.requestId, response.headers.get('X-Request-Id'), name)
    assert.deepEqual({ ...problem, requestId: '' }, { ...(answer as object), requestId: '' }, name)
  }
  sent++
}

// One more refusal of each path, GET or POST: a method that it does not take.
for (const path of documented) {
  const response: Response = await fetch(server + path.replace('{type}', 'not_json'), { method: 'DELETE' })
  const problem = (await response.json()) as components['schemas']['Problem']
  assert.equal(response.status, 405, path)
  assert.equal(problem.type, '/problems/method_not_allowed', path)
  sent++
}
console.log(`client: ${sent} calls of ${documented.length} paths answered as the document says`)
