import createClient from 'openapi-fetch';
const client = createClient({ baseUrl: 'http://127.0.0.1:18700' });
const { data, error } = await client.POST('/v1/ground-speed', {
    body: { runs: [{ courseLength: { value: 100, unit: 'ft' }, time: { value: 22.8, unit: 's' } }] },
});
if (error)
    throw new Error(error.errors?.map((e) => `${e.pointer} ${e.detail}`).join('\n') ?? error.detail);
console.log(data.groundSpeed);
// { value: 2.99043, unit: 'mph' }
