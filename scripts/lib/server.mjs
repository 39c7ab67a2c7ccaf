import { readFile, realpath, stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import { networkInterfaces } from 'node:os';
import { extname, resolve, sep } from 'node:path';
import { gzipSync } from 'node:zlib';
import { HEADER_POLICY } from '../csp.mjs';
import { PlainError } from './run.mjs';

const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.map': 'application/json; charset=utf-8',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.svg': 'image/svg+xml; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.webp': 'image/webp',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.wasm': 'application/wasm',
};
const WORTH_SQUEEZING = /^(text|application)\/|svg/;

const HEADERS = {
  'Content-Security-Policy': HEADER_POLICY,
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
};

/** The file a request path names, or undefined when it leaves the folder or asks for a hidden file. */
export function fileFor(root, requestPath) {
  let path;
  try {
    path = decodeURIComponent(requestPath.split('?')[0]);
  } catch {
    return undefined;
  }
  const parts = path.split('/');
  // a backslash or a drive letter would mean something else to Windows
  if (parts.some((part) => part.startsWith('.') || /[\\:\0]/.test(part))) return undefined;
  const file = resolve(
    root,
    `.${path.startsWith('/') ? path : `/${path}`}`,
    path.endsWith('/') ? 'index.html' : '',
  );
  return file.startsWith(resolve(root) + sep) ? file : undefined;
}

/** False for a link that leads out of the folder. */
const isReallyInside = async (root, file) => (await realpath(file)).startsWith((await realpath(root)) + sep);

/** Serves the files below `root`, and nothing else, for reading. */
export function createStaticServer(root) {
  const squeezed = new Map();

  const squeeze = (file, changed, body) => {
    const known = squeezed.get(file);
    if (known?.changed === changed) return known.body;
    const small = gzipSync(body);
    squeezed.set(file, { changed, body: small });
    return small;
  };

  const answer = async (request, response) => {
    const plain = (status, text, more = {}) => {
      response.writeHead(status, { ...HEADERS, ...more, 'Content-Type': TYPES['.txt'] });
      response.end(request.method === 'HEAD' ? undefined : `${text}\n`);
    };
    if (request.method !== 'GET' && request.method !== 'HEAD') {
      return plain(405, 'Only GET and HEAD.', { Allow: 'GET, HEAD' });
    }
    const file = fileFor(root, request.url ?? '/');
    const found = file && (await stat(file).catch(() => undefined));
    if (!found?.isFile() || !(await isReallyInside(root, file))) return plain(404, 'Not found.');

    const type = TYPES[extname(file).toLowerCase()] ?? 'application/octet-stream';
    const headers = {
      ...HEADERS,
      'Content-Type': type,
      // names under assets/ carry a hash of their content
      'Cache-Control': file.startsWith(resolve(root, 'assets') + sep)
        ? 'public, max-age=31536000, immutable'
        : 'no-cache',
    };
    let body = await readFile(file);
    if (WORTH_SQUEEZING.test(type)) {
      headers.Vary = 'Accept-Encoding';
      if (/\bgzip\b/.test(String(request.headers['accept-encoding'] ?? ''))) {
        body = squeeze(file, found.mtimeMs, body);
        headers['Content-Encoding'] = 'gzip';
      }
    }
    headers['Content-Length'] = body.length;
    response.writeHead(200, headers);
    response.end(request.method === 'HEAD' ? undefined : body);
  };

  return createServer((request, response) => {
    answer(request, response).catch(() => {
      if (!response.headersSent) response.writeHead(500, HEADERS);
      response.end();
    });
  });
}

const listenOnce = (server, port, host) =>
  new Promise((done, refuse) => {
    server.once('error', refuse);
    server.listen(port, host, () => {
      server.off('error', refuse);
      done(server.address().port);
    });
  });

/**
 * Listens on `port`, or with `tries` above 1 on the next free one.
 * @returns {Promise<number>} the port taken
 */
export async function listen(server, { port, host, tries = 1 }) {
  for (let step = 0; step < tries; step++) {
    try {
      return await listenOnce(server, port + step, host);
    } catch (error) {
      if (error.code === 'EACCES')
        throw new PlainError(`port ${port + step} is not open to this user: choose --port=4173.`);
      if (error.code !== 'EADDRINUSE') throw error;
    }
  }
  const what = tries > 1 ? `ports ${port} to ${port + tries - 1} are` : `port ${port} is`;
  throw new PlainError(`${what} in use: choose another with --port=NUMBER.`);
}

/** A port nobody listens on just now. */
export async function freePort() {
  const server = createServer();
  const port = await listenOnce(server, 0, '127.0.0.1');
  await new Promise((done) => server.close(done));
  return port;
}

/** This machine's IPv4 addresses in its local networks. */
export function localAddresses(interfaces = networkInterfaces()) {
  return Object.values(interfaces)
    .flat()
    .filter((entry) => entry && entry.family === 'IPv4' && !entry.internal)
    .map((entry) => entry.address);
}
