import { createServer, type IncomingMessage, request } from 'node:http';
import type { AddressInfo } from 'node:net';

/** A connection to a site that can be cut. */
export interface CuttingProxy {
  /** Address of the site's first page through the proxy. */
  readonly address: string;
  /** Paths asked for since the last time this was emptied. */
  readonly asked: string[];
  /** Bytes of the bodies sent on since the last time this was set to nought. */
  bytes: number;
  /** Breaks the connection within the answer for paths that match, after half of it; null: never. */
  cut: RegExp | null;
  readonly stop: () => Promise<void>;
}

/** Passes requests on to a server, and breaks off where it is told to. */
export async function cuttingProxy(target: string): Promise<CuttingProxy> {
  const server = createServer((incoming, outgoing) => {
    const path = incoming.url ?? '/';
    proxy.asked.push(path);
    const { host: _, ...headers } = incoming.headers;
    request(new URL(path, target), { method: incoming.method, headers }, (answer) => {
      outgoing.writeHead(answer.statusCode ?? 500, answer.headers);
      if (proxy.cut?.test(path))
        void sendHalf(answer, (half) => outgoing.write(half, () => outgoing.destroy()));
      else {
        answer.on('data', (chunk: Buffer) => {
          proxy.bytes += chunk.length;
        });
        answer.pipe(outgoing);
      }
    })
      .on('error', () => outgoing.destroy())
      .end();
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  const proxy: CuttingProxy = {
    address: `http://localhost:${port}/`,
    asked: [],
    bytes: 0,
    cut: null,
    stop: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
  return proxy;
}

async function sendHalf(answer: IncomingMessage, send: (half: Buffer) => void): Promise<void> {
  const whole = Buffer.concat(await answer.toArray());
  send(whole.subarray(0, whole.length / 2));
}
