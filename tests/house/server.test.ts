import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import type { IncomingHttpHeaders, Server } from 'node:http';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { HEADER_POLICY, META_POLICY } from '../../scripts/csp.mjs';
import { createStaticServer, freePort, listen, localAddresses } from '../../scripts/lib/server.mjs';

let folder: string;
let server: Server;
let port: number;

interface Answer {
  status: number;
  headers: IncomingHttpHeaders;
  body: Buffer;
}

/** node:http rather than fetch: fetch tidies `..` away before it sends. */
const ask = (path: string, method = 'GET', headers: Record<string, string> = {}) =>
  new Promise<Answer>((done, fail) => {
    const call = request({ port, host: '127.0.0.1', path, method, headers }, (response) => {
      const parts: Buffer[] = [];
      response.on('data', (part: Buffer) => parts.push(part));
      response.on('end', () =>
        done({ status: response.statusCode ?? 0, headers: response.headers, body: Buffer.concat(parts) }),
      );
    });
    call.on('error', fail);
    call.end();
  });

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'meshwitness-server-'));
  const root = join(folder, 'dist');
  mkdirSync(join(root, 'assets'), { recursive: true });
  writeFileSync(join(folder, 'secret.txt'), 'secret');
  mkdirSync(join(folder, 'dist-other'));
  writeFileSync(join(folder, 'dist-other/secret.txt'), 'secret');
  writeFileSync(join(root, '.hidden'), 'secret');
  writeFileSync(join(root, 'index.html'), '<!doctype html>page');
  writeFileSync(join(root, 'manifest.webmanifest'), '{}');
  writeFileSync(join(root, 'assets/a-1234.js'), 'export const a = 1;'.repeat(100));
  writeFileSync(join(root, 'assets/f.woff2'), Buffer.from([1, 2, 3]));
  server = createStaticServer(root);
  port = await listen(server, { port: await freePort(), host: '127.0.0.1' });
});

afterAll(() => {
  server.close();
  server.closeAllConnections();
  rmSync(folder, { recursive: true, force: true });
});

describe('the static server', () => {
  it.each([
    ['/', 'text/html; charset=utf-8', 'no-cache'],
    ['/index.html?x=1', 'text/html; charset=utf-8', 'no-cache'],
    ['/manifest.webmanifest', 'application/manifest+json; charset=utf-8', 'no-cache'],
    ['/assets/a-1234.js', 'text/javascript; charset=utf-8', 'public, max-age=31536000, immutable'],
    ['/assets/f.woff2', 'font/woff2', 'public, max-age=31536000, immutable'],
  ])('serves %s as %s', async (path, type, cache) => {
    const { status, headers, body } = await ask(path);
    expect(status).toBe(200);
    expect(headers['content-type']).toBe(type);
    expect(headers['cache-control']).toBe(cache);
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['content-security-policy']).toBe(HEADER_POLICY);
    expect(Number(headers['content-length'])).toBe(body.length);
  });

  it.each([
    '/../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/assets/../../secret.txt',
    '/..%5csecret.txt',
    '/../dist-other/secret.txt',
    '//etc/passwd',
    '/.hidden',
    '/assets/',
    '/assets',
    '/nothing.js',
    '/%ff',
    '/index.html%00.js',
  ])('does not serve %s', async (path) => {
    const { status, headers, body } = await ask(path);
    expect(status).toBe(404);
    expect(body.toString()).toBe('Not found.\n');
    expect(headers['x-content-type-options']).toBe('nosniff');
  });

  it('answers HEAD with the headers alone', async () => {
    const { status, headers, body } = await ask('/index.html', 'HEAD');
    expect(status).toBe(200);
    expect(Number(headers['content-length'])).toBe('<!doctype html>page'.length);
    expect(body.length).toBe(0);
  });

  it.each(['POST', 'PUT', 'DELETE', 'OPTIONS'])('refuses %s', async (method) => {
    const { status, headers } = await ask('/', method);
    expect(status).toBe(405);
    expect(headers.allow).toBe('GET, HEAD');
  });

  it('squeezes text for those who take it, and a changed file anew', async () => {
    const first = await ask('/assets/a-1234.js', 'GET', { 'accept-encoding': 'gzip' });
    expect(first.headers['content-encoding']).toBe('gzip');
    expect(gunzipSync(first.body).toString()).toBe('export const a = 1;'.repeat(100));
    writeFileSync(join(folder, 'dist/assets/a-1234.js'), 'changed');
    const second = await ask('/assets/a-1234.js', 'GET', { 'accept-encoding': 'gzip' });
    expect(gunzipSync(second.body).toString()).toBe('changed');
    expect((await ask('/assets/f.woff2', 'GET', { 'accept-encoding': 'gzip' })).headers).not.toHaveProperty(
      'content-encoding',
    );
  });

  it('takes the next free port, or says that the one asked for is taken', async () => {
    const other = createStaticServer(folder);
    try {
      await expect(listen(other, { port, host: '127.0.0.1' })).rejects.toThrow(`port ${port} is in use`);
      const next = await listen(other, { port, host: '127.0.0.1', tries: 20 });
      expect(next).toBeGreaterThan(port);
    } finally {
      other.close();
    }
  });

  it('does not follow a link out of its folder', async () => {
    symlinkSync(join(folder, 'secret.txt'), join(folder, 'dist/link.txt'));
    expect((await ask('/link.txt')).status).toBe(404);
  });
});

describe('the addresses shown', () => {
  it('are the IPv4 ones of the local networks', () => {
    const common = { netmask: '', mac: '', cidr: null };
    expect(
      localAddresses({
        lo: [{ address: '127.0.0.1', family: 'IPv4', internal: true, ...common }],
        eth0: [
          { address: '192.0.2.7', family: 'IPv4', internal: false, ...common },
          { address: 'fe80::1', family: 'IPv6', internal: false, scopeid: 1, ...common },
        ],
      }),
    ).toEqual(['192.0.2.7']);
  });
});

describe('the content security policy', () => {
  it('starts from nothing, runs no text as code and allows nobody else', () => {
    expect(META_POLICY).toMatch(/^default-src 'none'; /);
    expect(META_POLICY).not.toMatch(/unsafe|https?:|\*|wasm/);
    expect(META_POLICY).toContain("script-src 'self';");
    expect(META_POLICY).toContain("style-src 'self';");
    // only images and media made on the device come from elsewhere than our own files
    expect(META_POLICY.match(/(data|blob):/g)).toEqual(['data:', 'blob:', 'blob:']);
    expect(HEADER_POLICY.startsWith(META_POLICY)).toBe(true);
  });
});
