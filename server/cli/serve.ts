import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { makeApp } from '../app.ts';
import type { Paths } from '../config.ts';
import { makeContext } from '../context.ts';
import { fleetListText, movesOf } from '../services/assessStore.ts';
import { Background } from '../services/background.ts';
import { openDemo } from '../services/demoStore.ts';
import { Refusal } from './refusal.ts';

const loopback = ['127.0.0.1', 'localhost', '[::1]'];

/**
 * Serves the pages until the process is told to stop.
 * @throws Refusal when the address is taken or is open to others (that needs accounts)
 */
export async function serve(paths: Paths, options: { host: string; port: number }): Promise<void> {
  if (!loopback.includes(options.host) && options.host !== '::1')
    throw new Refusal(
      `--host: ${options.host} is open to other machines, which needs accounts; this version serves 127.0.0.1 only`,
    );
  const say = (line: string): void => void process.stderr.write(`${line}\n`);
  const context = makeContext(paths, () => openDemo(paths, say));
  await context.current();
  const background = new Background(context, { refits: true });
  const server = createServer(makeApp(context, loopback, say, background));
  await listen(server, options);
  const { port } = server.address() as AddressInfo;
  process.stdout.write(`Sumpwise is at http://127.0.0.1:${port}\n`);
  // the answers of the first page are worked out before anyone asks; a fault shows when they are asked for
  void context
    .current()
    .then(async (store) => {
      await fleetListText(context, store);
      await movesOf(context, store, 7);
      await background.refit();
    })
    .catch((error: unknown) => say(`The first assessment did not succeed: ${String(error)}`));
  await new Promise<void>((resolve) => {
    const stop = (): void => {
      server.close(() => resolve());
      server.closeAllConnections();
    };
    process.once('SIGINT', stop);
    process.once('SIGTERM', stop);
  });
  await background.close();
  await context.close();
}

function listen(server: Server, options: { host: string; port: number }): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) =>
      reject(
        error.code === 'EADDRINUSE'
          ? new Refusal(
              `--port: ${options.port} is in use; is Sumpwise running already? Choose another with --port`,
            )
          : error,
      ),
    );
    server.listen(options.port, options.host.replace(/[[\]]/g, ''), resolve);
  });
}
