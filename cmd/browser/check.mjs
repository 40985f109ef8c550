// check.mjs WASM PROGRAM: the build for browsers, run by Node, answers the lines of a
// batch as the program does, byte for byte, in both languages.
import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { webcrypto } from 'node:crypto'

const [wasm, program] = process.argv.slice(2)
globalThis.crypto ??= webcrypto
const goroot = execFileSync('go', ['env', 'GOROOT'], { encoding: 'utf8' }).trim()
createRequire(import.meta.url)(`${goroot}/lib/wasm/wasm_exec.js`)

const go = new globalThis.Go()
const { instance } = await WebAssembly.instantiate(readFileSync(wasm), go.importObject)
go.run(instance) // until this process ends

const batch = 'testdata/batch/fleet.ndjson'
const lines = readFileSync(batch, 'utf8').trim().split('\n').map((line) => JSON.parse(line))
let answers = 0
for (const language of ['en', 'es-MX']) {
  const expected = execFileSync(program, ['batch', '-quiet', '-lang', language, batch], { encoding: 'utf8' }).trim().split('\n')
  if (expected.length !== lines.length) throw new Error(`${expected.length} answers to ${lines.length} lines`)
  for (const [i, { operation, request }] of lines.entries()) {
    const { status, body } = globalThis.wetrun(operation, JSON.stringify(request), language)
    const member = status === 200 ? 'response' : 'problem'
    const start = expected[i].indexOf(`"status":${status},"${member}":`)
    const wanted = expected[i].slice(start).replace(/^[^{]*/, '').slice(0, -1)
    // The id of a request stands in its problem.
    const plain = (text) => text.replace(/"requestId":"[^"]*"/, '')
    if (start < 0 || plain(body) !== plain(wanted)) throw new Error(`line ${i + 1} in ${language}:\n${body}\n${expected[i]}`)
    answers++
  }
}
const refused = globalThis.wetrun('no-such-operation', '{}', 'en')
if (refused.status !== 404) throw new Error(`an operation that is not there: ${refused.status}`)
console.log(`${answers} answers as the program has them`)
process.exit(0)
