/** Serves pages to this machine and to nobody else. It reads no files: what is not among its pages is not there. */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { LOOKS, NEWS, SLIM } from '../../report/page/open-data.ts';
import type { ServedPage } from './page.ts';

export interface PageServer {
  /** `http://127.0.0.1:PORT/`. */
  readonly address: string;
  close(): void;
}

/** This machine's own address: packets to it never leave it. */
const LOOPBACK = '127.0.0.1';

/** ms between two signs of life on a line on which nothing is told. */
const BEAT = 20_000;

/** Pictures in one window. */
const MOST_SEEN = 100;

const HEADERS = {
  'cache-control': 'no-store',
  'content-security-policy': "frame-ancestors 'none'",
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'referrer-policy': 'no-referrer',
  'x-content-type-options': 'nosniff',
} as const;

/**
 * @param pageAt the page of a path that begins with `/`; null where there is none.
 * @throws Error with a `code` where the port can not be had.
 */
export async function servePages(pageAt: (path: string) => ServedPage | null, port: number): Promise<PageServer> {
  const server = createServer((request, response) => {
    void answer(request, response, server, pageAt).catch((error: unknown) => {
      if (!response.headersSent) refuse(response, 500, error instanceof Error ? error.message : String(error));
      else response.destroy();
    });
  });
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, LOOPBACK, resolve);
  });
  return {
    address: `http://${LOOPBACK}:${portOf(server)}/`,
    close() {
      server.close();
      server.closeAllConnections();
    },
  };
}

function portOf(server: Server): number {
  return (server.address() as AddressInfo | null)?.port ?? 0;
}

async function answer(
  request: IncomingMessage,
  response: ServerResponse,
  server: Server,
  pageAt: (path: string) => ServedPage | null,
): Promise<void> {
  // A page from elsewhere may give its own name our address; it can not change the name that its browser says.
  const host = request.headers.host ?? '';
  const port = portOf(server);
  if (host !== `${LOOPBACK}:${port}` && host !== `localhost:${port}`) {
    refuse(response, 403, `asked for as "${host}", and only answering to ${LOOPBACK}:${port} and localhost:${port}`);
    return;
  }
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    refuse(response, 405, 'this server only shows', { allow: 'GET, HEAD' });
    return;
  }
  const [path = '', query = ''] = (request.url ?? '').split('?');
  const page = pageAt(path);
  if (page === null) refuse(response, 404, 'no such page');
  else if (`?${query}` === NEWS) tellNews(request, response, page);
  else if (`?${query}`.startsWith(LOOKS)) {
    const [width, ...seen] = `?${query}`.slice(LOOKS.length).split(',').slice(0, MOST_SEEN);
    page.looked?.({ slim: width === SLIM, seen: new Set(seen) });
    response.writeHead(204, HEADERS).end();
  } else {
    const html = await page.html();
    response.writeHead(200, { ...HEADERS, 'content-type': 'text/html; charset=utf-8' });
    response.end(request.method === 'HEAD' ? undefined : html);
  }
}

/** Server-sent events (HTML Standard, 9.2): one at once, then one for each change. */
function tellNews(request: IncomingMessage, response: ServerResponse, page: ServedPage): void {
  response.writeHead(200, { ...HEADERS, 'content-type': 'text/event-stream' });
  const tell = (): void => void response.write(`data: ${JSON.stringify(page.news())}\n\n`);
  tell();
  const end = page.listen(tell);
  const beat = setInterval(() => response.write(':\n\n'), BEAT);
  request.on('close', () => {
    clearInterval(beat);
    end();
  });
}

function refuse(
  response: ServerResponse,
  code: number,
  why: string,
  more: Readonly<Record<string, string>> = {},
): void {
  response.writeHead(code, { ...HEADERS, ...more, 'content-type': 'text/plain; charset=utf-8' });
  response.end(`axlewatt: ${why}\n`);
}
