// The service under test: the one at a given URL, or the program built from here
// on a free port, stopped at the end.
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const root = new URL('../..', import.meta.url).pathname;

export async function startService(given) {
  if (given) return { url: given.replace(/\/$/, ''), stop() {} };
  const folder = mkdtempSync(join(tmpdir(), 'wetrun-browser-'));
  const program = join(folder, 'wetrun');
  execFileSync('go', ['build', '-o', program, './cmd/wetrun'], { cwd: root, stdio: 'inherit' });
  const port = await freePort();
  const child = spawn(program, ['-addr', `127.0.0.1:${port}`], { stdio: 'ignore' });
  const url = `http://127.0.0.1:${port}`;
  await until(async () => (await fetch(`${url}/readyz`)).ok);
  return {
    url,
    stop() {
      child.kill();
      rmSync(folder, { recursive: true });
    },
  };
}

function freePort() {
  return new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address();
      server.close(() => resolve(port));
    });
  });
}

async function until(check) {
  for (let i = 0; i < 100; i++) {
    try {
      if (await check()) return;
    } catch {
      // not yet
    }
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error('the service does not get ready');
}
