import createClient from 'openapi-fetch'
import type { paths } from './schema.js'

// The media types: calibrations can answer HTML too, and this client asks for JSON.
const client = createClient<paths, 'application/json' | 'application/problem+json'>({ baseUrl: 'http://127.0.0.1:19200' })
const { data, error } = await client.POST('/v1/ground-speed', {
  body: { runs: [{ courseLength: { value: 100, unit: 'ft' }, time: { value: 22.8, unit: 's' } }] },
})
if (error) throw new Error(error.errors?.map((e) => `${e.pointer} ${e.detail}`).join('\n') ?? error.detail)
console.log(data.groundSpeed)
// { value: 2.99043, unit: 'mph' }
