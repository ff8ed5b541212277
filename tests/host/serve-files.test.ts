import { get, request } from 'node:http';
import { connect } from 'node:net';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type FileServer, serveFiles } from '../../src/host/serve-files.ts';

let server: FileServer;

beforeAll(async () => {
  server = await serveFiles(0);
  server.show(
    new Map([
      ['index.html', Buffer.from('<p>start</p>')],
      ['records/UN-01.html', Buffer.from('<p>need</p>')],
      ['raw/a b.csv', Buffer.from('force [N]\n1\n')],
    ]),
    'first',
  );
});

afterAll(() => server.close());

interface Answer {
  readonly status: number;
  readonly body: string;
  readonly headers: Readonly<Record<string, unknown>>;
}

const ask = (
  path: string,
  { method = 'GET', host }: { readonly method?: string; readonly host?: string } = {},
): Promise<Answer> =>
  new Promise((resolve, reject) => {
    const asked = request(
      {
        host: '127.0.0.1',
        port: server.port,
        path,
        method,
        headers: { host: host ?? `127.0.0.1:${server.port}` },
      },
      (response) => {
        let body = '';
        response.setEncoding('utf8').on('data', (part) => {
          body += part;
        });
        response.on('end', () =>
          resolve({ status: response.statusCode ?? 0, body, headers: response.headers }),
        );
      },
    );
    asked.on('error', reject).end();
  });

describe('files of the browsable copy for browsers on this machine', () => {
  test('pages by their paths, with their type and the policy that only a header can state', async () => {
    expect(await ask('/')).toMatchObject({ status: 200, body: '<p>start</p>' });
    expect(await ask('/records/UN-01.html?x#y')).toMatchObject({ status: 200, body: '<p>need</p>' });
    const { headers } = await ask('/raw/a%20b.csv');
    expect(headers).toMatchObject({
      'content-type': 'text/csv; charset=utf-8',
      'x-content-type-options': 'nosniff',
      'content-security-policy': "frame-ancestors 'none'",
      'cache-control': 'no-store',
    });
    expect(await ask('/', { method: 'HEAD' })).toMatchObject({ status: 200, body: '' });
  });

  test.each([
    '/nothing.html',
    '/../package.json',
    '/..%2fpackage.json',
    '/%2e%2e/package.json',
    '/%',
    '/__proto__',
    '//etc/passwd',
  ])('%s is no page', async (path) => {
    expect((await ask(path)).status).toBe(404);
  });

  test.each(['evil.example', `evil.example:80`, '127.0.0.1', 'localhost', '0.0.0.0:1'])(
    'who calls it "%s" gets no answer, lest a page from elsewhere reads it under a name of its own',
    async (host) => {
      const { status, body } = await ask('/', { host });
      expect([400, 421]).toContain(status);
      expect(body).not.toContain('start');
    },
  );

  test('it answers to localhost with its port', async () => {
    expect((await ask('/', { host: `localhost:${server.port}` })).status).toBe(200);
  });

  test.each(['POST', 'PUT', 'DELETE', 'OPTIONS'])('%s is refused', async (method) => {
    expect(await ask('/', { method })).toMatchObject({ status: 405, headers: { allow: 'GET, HEAD' } });
  });

  // On Linux all of 127.0.0.0/8 is this machine (from memory: RFC 1122, 3.2.1.3); a server on every address would answer.
  test('it listens at 127.0.0.1 and at no other address', async () => {
    const isOpen = await new Promise<boolean>((resolve) => {
      const socket = connect({ host: '127.0.0.2', port: server.port, timeout: 2000 });
      const end = (open: boolean) => {
        socket.destroy();
        resolve(open);
      };
      socket.on('connect', () => end(true));
      socket.on('error', () => end(false));
      socket.on('timeout', () => end(false));
    });
    expect(isOpen).toBe(false);
  });

  // Events as in the HTML standard, 9.2 Server-sent events: fields by line, an empty line ends an event.
  test('pages that listen hear of a new state, and of a trouble in one line', async () => {
    const heard = new Promise<string>((resolve, reject) => {
      const asked = get(`http://127.0.0.1:${server.port}/events`, (response) => {
        let body = '';
        response.setEncoding('utf8').on('data', (part) => {
          body += part;
          if (body.includes('data: first')) {
            server.tell('the folder\r\n\r\nevent: state is gone');
            server.show(new Map(), 'second');
          }
          if (!body.includes('data: second')) return;
          expect(response.headers['content-type']).toContain('text/event-stream');
          asked.destroy();
          resolve(body);
        });
      });
      asked.on('error', reject);
    });
    const events = (await heard).split('\n\n').filter((event) => event.startsWith('event:'));
    expect(events).toEqual([
      'event: state\ndata: first',
      'event: trouble\ndata: the folder event: state is gone',
      'event: state\ndata: second',
    ]);
  });

  test('a port that is taken is the system’s refusal', async () => {
    await expect(serveFiles(server.port)).rejects.toMatchObject({ code: 'EADDRINUSE' });
  });
});
