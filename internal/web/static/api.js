// The client of the service: everything that the page knows about HTTP.

/** What the service said to a request: an answer, a problem, or nothing at all. */
export class Reply {
  constructor({ answer, problem, language, retryAfter }) {
    this.answer = answer;
    this.problem = problem; // RFC 9457
    this.language = language; // of the words in it
    this.retryAfter = retryAfter; // seconds, when the service had no time
  }
}

let key = '';

/** The key that goes with every request, where the service asks for one. */
export function useKey(text) {
  key = text;
}

function headers(language, more) {
  return { 'Accept-Language': language, ...(key && { Authorization: `Bearer ${key}` }), ...more };
}

/**
 * Asks an operation, words in the wanted language. Fails only when the network
 * does, or when signal aborts it.
 */
export async function ask(operation, body, language, signal) {
  const response = await fetch(`/v1/${operation}`, {
    method: 'POST',
    headers: headers(language, { 'Content-Type': 'application/json' }),
    body: JSON.stringify(body),
    signal,
  });
  return read(response);
}

/** Reads reference data: procedure, units. Throws the reply when it is a problem. */
export async function reference(name, language) {
  const reply = await read(await fetch(`/v1/${name}`, { headers: headers(language) }));
  if (!reply.answer) throw reply;
  return reply;
}

async function read(response) {
  const language = response.headers.get('Content-Language') ?? 'en';
  const content = await response.json();
  return response.ok ? new Reply({ answer: content, language }) : new Reply({ problem: content, language, retryAfter: Number(response.headers.get('Retry-After')) || undefined });
}

/**
 * Returns a function that asks after a pause in typing. A question that is
 * overtaken by a newer one is aborted, so that answers never come out of order.
 */
export function whenTypingStops(operation, pause, { asking, replied, failed }) {
  let timer;
  let underWay;
  return (body, language) => {
    clearTimeout(timer);
    underWay?.abort();
    asking();
    timer = setTimeout(async () => {
      const own = (underWay = new AbortController());
      try {
        const reply = await ask(operation, body, language, own.signal);
        if (!own.signal.aborted) replied(reply);
      } catch (error) {
        if (!own.signal.aborted) failed(error);
      }
    }, pause);
  };
}

/** The record of a field sheet, a page of HTML to print; or the problem. */
export async function record(body, language) {
  const response = await fetch('/v1/calibrations', {
    method: 'POST',
    headers: headers(language, { 'Content-Type': 'application/json', Accept: 'text/html' }),
    body: JSON.stringify(body),
  });
  return response.ok ? { page: await response.blob() } : read(response);
}

/** The same request for a terminal. */
export function asCurl(operation, body, language) {
  const json = JSON.stringify(body, null, 1).replaceAll("'", "'\\''");
  return `curl -s ${location.origin}/v1/${operation} \\\n  -H 'Content-Type: application/json' -H 'Accept-Language: ${language}' \\\n  -d '${json}'`;
}
