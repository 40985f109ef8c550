// check.mjs WASM PROGRAM: the build for browsers, run by Node at the top of the module,
// answers the lines of a batch, the invented sheets with their working, and the published
// examples of each operation as the program does, byte for byte, in both languages.
import { execFileSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { webcrypto } from 'node:crypto'

const [wasm, program] = process.argv.slice(2)
globalThis.crypto ??= webcrypto
const goroot = execFileSync('go', ['env', 'GOROOT'], { encoding: 'utf8' }).trim()
createRequire(import.meta.url)(`${goroot}/lib/wasm/wasm_exec.js`)

const go = new globalThis.Go()
const { instance } = await WebAssembly.instantiate(readFileSync(wasm), go.importObject)
go.run(instance) // until this process ends

const read = (file) => JSON.parse(readFileSync(file, 'utf8'))
const lines = readFileSync('testdata/batch/fleet.ndjson', 'utf8').trim().split('\n').map((line) => JSON.parse(line))
for (const sheet of readdirSync('testdata/demo')) {
  lines.push({ operation: 'calibrations', request: { ...read(`testdata/demo/${sheet}`), showWorking: true } })
}
for (const file of readdirSync('testdata/published', { recursive: true }).filter((name) => name.includes('/') && name.endsWith('.json'))) {
  const { request } = read(`testdata/published/${file}`)
  if (request) lines.push({ operation: file.split('/')[0], request })
}
const dir = mkdtempSync(join(tmpdir(), 'wetrun-browser-'))
process.on('exit', () => rmSync(dir, { recursive: true }))
const batch = join(dir, 'lines.ndjson')
writeFileSync(batch, lines.map((line, i) => JSON.stringify({ ...line, id: String(i) })).join('\n'))

let answers = 0
for (const language of ['en', 'es-MX']) {
  const expected = execFileSync(program, ['batch', '-quiet', '-lang', language, batch], { encoding: 'utf8', maxBuffer: 1 << 28 }).trim().split('\n')
  if (expected.length !== lines.length) throw new Error(`${expected.length} answers to ${lines.length} lines`)
  for (const [i, { operation, request }] of lines.entries()) {
    const { status, body } = globalThis.wetrun(operation, JSON.stringify(request), language)
    const member = status === 200 ? 'response' : 'problem'
    const start = expected[i].indexOf(`"status":${status},"${member}":`)
    const wanted = expected[i].slice(start).replace(/^[^{]*/, '').slice(0, -1)
    // The id of a request stands in its problem.
    const plain = (text) => text.replace(/"requestId":"[^"]*"/, '')
    const [got, want] = [plain(body), plain(wanted)]
    if (start < 0 || got !== want) {
      const at = Math.max([...got].findIndex((c, j) => c !== want[j]) - 60, 0)
      throw new Error(`${operation}, line ${i + 1} in ${language}, from ${at} on:\n${got.slice(at, at + 200)}\n${want.slice(at, at + 200)}`)
    }
    answers++
  }
}
const refused = globalThis.wetrun('no-such-operation', '{}', 'en')
if (refused.status !== 404) throw new Error(`an operation that is not there: ${refused.status}`)
const asked = new Set(lines.map(({ operation }) => operation))
console.log(`${answers} answers of ${asked.size} operations as the program has them`)
process.exit(0)
