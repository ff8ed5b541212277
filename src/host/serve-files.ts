import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';

/** What is served: files by their paths from the root, held in memory, so that nothing else can be asked for. */
export type ServedFiles = ReadonlyMap<string, Uint8Array>;

export interface FileServer {
  readonly port: number;
  /**
   * Serves other files from now on, and tells the pages that listen. `state` names them; `missing` gives the page that is
   * shown where there is none.
   */
  readonly show: (files: ServedFiles, state: string, missing?: (path: string) => string) => void;
  /** Tells the pages that listen why they show an earlier state. */
  readonly tell: (trouble: string) => void;
  readonly close: () => Promise<void>;
}

const loopback = '127.0.0.1';

/** Pages that may listen at the same time. */
const mostListeners = 100;

const types: Readonly<Record<string, string>> = {
  html: 'text/html; charset=utf-8',
  css: 'text/css; charset=utf-8',
  js: 'text/javascript; charset=utf-8',
  svg: 'image/svg+xml; charset=utf-8',
  png: 'image/png',
  csv: 'text/csv; charset=utf-8',
  txt: 'text/plain; charset=utf-8',
};

const headers = {
  'Cache-Control': 'no-store',
  'X-Content-Type-Options': 'nosniff',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Referrer-Policy': 'no-referrer',
  // Pages say the rest of their policy themselves; that nobody may frame them, only a header can say.
  'Content-Security-Policy': "frame-ancestors 'none'",
};

const refuse = (response: ServerResponse, status: number, words: string): void => {
  response.writeHead(status, { ...headers, 'Content-Type': 'text/plain; charset=utf-8' }).end(`${words}\n`);
};

/** The path that was asked for, from the root; undefined where it is none. */
const askedPath = (url: string | undefined): string | undefined => {
  try {
    const path = decodeURIComponent((url ?? '/').replace(/[?#].*$/s, '')).replace(/^\//, '');
    return path === '' || path.endsWith('/') ? `${path}index.html` : path;
  } catch {
    return undefined;
  }
};

/** What a person would ask for by its address, rather than a page for what it loads. */
const isPagePath = (path: string): boolean => /(?:^|\/)[^/.]*$|\.html?$/i.test(path);

/** Text of one event for listeners; a line end within would end the event. */
const eventText = (name: string, data: string): string =>
  `event: ${name}\ndata: ${data.replace(/[\r\n]+/g, ' ')}\n\n`;

const listening = (server: Server, port: number): Promise<number> =>
  new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, loopback, () => {
      server.removeListener('error', reject);
      resolve((server.address() as AddressInfo).port);
    });
  });

/**
 * Serves files to browsers on this machine and to nobody else: it listens on the loopback address only, and answers only
 * those who called it by a name of this machine, so that a page from elsewhere cannot read it through a name that it
 * turned to this address. Throws what the system throws where the port is taken. Port 0 takes any that is free.
 */
export const serveFiles = async (port: number): Promise<FileServer> => {
  let files: ServedFiles = new Map();
  let state = '';
  let trouble: string | undefined;
  let missing: ((path: string) => string) | undefined;
  let hosts: ReadonlySet<string> = new Set();
  const listeners = new Set<ServerResponse>();

  const listen = (response: ServerResponse): void => {
    if (listeners.size >= mostListeners) {
      refuse(response, 503, 'Too many pages listen.');
      return;
    }
    response.writeHead(200, { ...headers, 'Content-Type': 'text/event-stream; charset=utf-8' });
    response.write(`retry: 1000\n\n${eventText('state', state)}`);
    if (trouble !== undefined) response.write(eventText('trouble', trouble));
    listeners.add(response);
    response.on('close', () => listeners.delete(response));
  };

  const answer = (request: IncomingMessage, response: ServerResponse): void => {
    if (!hosts.has(request.headers.host ?? '')) {
      refuse(response, 421, 'This server answers to names of this machine only.');
      return;
    }
    if (request.method !== 'GET' && request.method !== 'HEAD') {
      response.setHeader('Allow', 'GET, HEAD');
      refuse(response, 405, 'Pages can only be read.');
      return;
    }
    const path = askedPath(request.url);
    if (path === 'events' && request.method === 'GET') {
      listen(response);
      return;
    }
    const bytes = path === undefined ? undefined : files.get(path);
    if (path === undefined || !bytes) {
      if (path !== undefined && missing && isPagePath(path)) {
        response.writeHead(404, { ...headers, 'Content-Type': types['html'] });
        response.end(request.method === 'HEAD' ? undefined : missing(path));
      } else refuse(response, 404, 'There is no such page.');
      return;
    }
    const ending = path.slice(path.lastIndexOf('.') + 1).toLowerCase();
    response.writeHead(200, {
      ...headers,
      'Content-Type': Object.hasOwn(types, ending) ? types[ending] : 'application/octet-stream',
      'Content-Length': bytes.length,
    });
    response.end(request.method === 'HEAD' ? undefined : bytes);
  };

  const server = createServer(answer);
  const own = await listening(server, port);
  hosts = new Set([loopback, 'localhost'].map((name) => (own === 80 ? name : `${name}:${own}`)));
  const send = (text: string): void => {
    for (const listener of listeners) listener.write(text);
  };
  return {
    port: own,
    show: (next, name, pageFor) => {
      files = next;
      missing = pageFor;
      state = name;
      trouble = undefined;
      send(eventText('state', name));
    },
    tell: (words) => {
      trouble = words;
      send(eventText('trouble', words));
    },
    close: () =>
      new Promise((resolve) => {
        for (const listener of listeners) listener.end();
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
};
