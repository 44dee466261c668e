/** The application served to this machine alone. */
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'pathe';
import sirv from 'sirv';

/** Nothing is fetched from elsewhere, and no other page may stand around this one; of inline scripts only those of the page run. */
function policyFor(page: string): string {
  const scripts = [...page.matchAll(/<script>([\s\S]*?)<\/script>/g)].map(([, text]) => {
    const hash = createHash('sha256').update(text).digest('base64');
    return `'sha256-${hash}'`;
  });
  return [
    "default-src 'self'",
    `script-src 'self' 'wasm-unsafe-eval' ${scripts.join(' ')}`,
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "connect-src 'self'",
    "object-src 'none'",
    "base-uri 'none'",
    "frame-ancestors 'none'",
  ].join('; ');
}

export interface Served {
  /** "http://127.0.0.1:4747/". */
  readonly address: string;
  close(): Promise<void>;
}

/** Serves a folder on loopback; `port` 0 is any that is free. Throws what the system says, such as EADDRINUSE. */
export function serve(folder: string, port: number): Promise<Served> {
  const files = sirv(folder, { etag: true });
  const policy = policyFor(readFileSync(join(folder, 'index.html'), 'utf8'));
  const server = createServer((request, response) => {
    response.setHeader('content-security-policy', policy);
    response.setHeader('x-content-type-options', 'nosniff');
    response.setHeader('referrer-policy', 'no-referrer');
    files(request, response, () => {
      response.statusCode = 404;
      response.end('There is no such file.');
    });
  });
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => {
      const { port: taken } = server.address() as AddressInfo;
      resolve({
        address: `http://127.0.0.1:${taken}/`,
        close: () => new Promise((done) => server.close(() => done())),
      });
    });
  });
}

/** Opens an address in the browser of the desktop, where there is one. True if it was tried. */
export function openInBrowser(address: string): boolean {
  const { platform, env } = process;
  const screen = platform === 'win32' || platform === 'darwin' || env.DISPLAY || env.WAYLAND_DISPLAY;
  if (!screen || env.CI) return false;
  const [command, ...args] =
    platform === 'win32' ? ['cmd', '/c', 'start', '""'] : [platform === 'darwin' ? 'open' : 'xdg-open'];
  const child = spawn(command, [...args, address], { stdio: 'ignore', detached: true });
  child.on('error', () => {});
  child.unref();
  return true;
}
