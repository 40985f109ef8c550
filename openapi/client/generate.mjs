// node client/generate.mjs http://127.0.0.1:8080
//
// Writes into client/generated what a user of the API would have: the types of the
// document, a call of every operation with each of its examples, and the program that
// the README shows.
import assert from 'node:assert/strict'
import { execFileSync } from 'node:child_process'
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const here = dirname(fileURLToPath(import.meta.url))
const out = join(here, 'generated')
mkdirSync(out, { recursive: true })

execFileSync('npx', ['openapi-typescript', join(here, '../openapi.yaml'), '-o', join(out, 'schema.d.ts'), '--default-non-nullable', 'false'], { stdio: ['ignore', 'ignore', 'inherit'] })

const answer = await fetch(`${process.argv[2]}/openapi.json`)
assert.ok(answer.ok)
const document = await answer.json()
const resolved = (x) => (x.$ref ? x.$ref.slice(2).split('/').reduce((at, key) => at[key], document) : x)

const calls = []
const call = (name, status, expected, code) => calls.push(`  { name: ${JSON.stringify(name)}, status: ${status}, answer: ${JSON.stringify(expected ?? null)}, send: () => ${code} },`)

for (const [path, item] of Object.entries(document.paths)) {
  const where = JSON.stringify(path)
  if (item.get) {
    const json = item.get.responses[200].content['application/json'] ?? item.get.responses[200].content['application/linkset+json']
    const options = json ? [] : [`parseAs: 'text'`]
    const parameter = item.get.parameters.map(resolved).find((p) => p.in === 'path')
    for (const value of parameter ? parameter.schema.enum : ['']) {
      const params = parameter ? [`params: { path: { ${parameter.name}: ${JSON.stringify(value)} } }`] : []
      call(`GET ${path} ${value}`, 200, null, `client.GET(${where}, { ${[...params, ...options].join(', ')} })`)
    }
  }
  if (item.post) {
    const [[type, request]] = Object.entries(item.post.requestBody.content)
    const lines = type === 'application/json' ? [] : [`headers: { 'Content-Type': ${JSON.stringify(type)} }`, 'bodySerializer: (lines) => lines', `parseAs: 'text'`]
    for (const [name, example] of Object.entries(request.examples)) {
      const expected = item.post.responses[200].content[type].examples?.[name]?.value
      call(`POST ${path} ${name}`, 200, expected, `client.POST(${where}, { ${[`body: ${JSON.stringify(example.value)}`, ...lines].join(', ')} })`)
    }
    const refused = item.post.responses[422]?.content['application/problem+json'].examples
    for (const [name, example] of Object.entries(refused ?? {})) {
      // A request that is wrong on purpose need not have the right type.
      const language = example['x-accept-language']
      const headers = language ? `, headers: { 'Accept-Language': ${JSON.stringify(language)} }` : ''
      call(`POST ${path} ${name}`, 422, example.value, `client.POST(${where}, { body: ${JSON.stringify(example['x-request'])} as never${headers} })`)
    }
  }
}

writeFileSync(join(out, 'calls.ts'), `import type { Client } from 'openapi-fetch'
import type { paths } from './schema.js'

export const documented = ${JSON.stringify(Object.keys(document.paths))}

export const calls = (client: Client<paths>) => [
${calls.join('\n')}
]
`)

// The README for integrators, or while there is none the project's.
const shown = ['../README.md', '../../README.md']
  .map((name) => join(here, name))
  .filter((file) => existsSync(file))
  .map((file) => /```ts\n(.*?)```/s.exec(readFileSync(file, 'utf8')))
  .find((found) => found)
assert.ok(shown, 'no README shows TypeScript')
writeFileSync(join(out, 'readme.ts'), shown[1].replaceAll('http://127.0.0.1:8080', process.argv[2]))
