import { existsSync, statSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { setTimeout as wait } from 'node:timers/promises';
import { makeApp } from '../app.ts';
import type { Paths } from '../config.ts';
import { makeContext, type Context } from '../context.ts';
import { Background } from '../services/background.ts';
import { openDemo } from '../services/demoStore.ts';
import { WatchFolder } from '../services/watchFolder.ts';
import { Refusal } from './refusal.ts';

/** How long the end of the program waits for a change that is worked on, ms. */
const finishWithinMs = 10_000;

const loopback = ['127.0.0.1', 'localhost', '[::1]'];

/**
 * Serves the pages until the process is told to stop.
 * @throws Refusal when the address is taken or is open to others (that needs accounts)
 */
export async function serve(
  paths: Paths,
  options: { host: string; port: number; watch?: string; corrected?: 'replace' | 'add' },
): Promise<void> {
  if (!loopback.includes(options.host) && options.host !== '::1')
    throw new Refusal(
      `--host: ${options.host} is open to other machines, which needs accounts; this version serves 127.0.0.1 only`,
    );
  const say = (line: string): void => void process.stderr.write(`${line}\n`);
  const context = makeContext(paths, () => openDemo(paths, say));
  await context.current();
  const background = new Background(context, { refits: true });
  const server = createServer(makeApp(context, loopback, say, background));
  const watch =
    options.watch === undefined ? null : await openWatch(context, options.watch, options.corrected, say);
  await listen(server, options);
  const { port } = server.address() as AddressInfo;
  process.stdout.write(`Sumpwise is at http://127.0.0.1:${port}\n`);
  // the answers of the first page are worked out before anyone asks; a fault shows when they are asked for
  void background
    .refit()
    .catch((error: unknown) => say(`The first assessment did not succeed: ${String(error)}`));
  await new Promise<void>((resolve) => {
    const stop = (): void => {
      server.close(() => resolve());
      server.closeAllConnections();
    };
    process.once('SIGINT', stop);
    process.once('SIGTERM', stop);
  });
  await watch?.close();
  await changesFinished(context);
  await background.close();
  await context.close();
}

/** A change that has begun is finished; those that wait for their turn are left, since nobody hears their answer. */
async function changesFinished({ writes }: Context): Promise<void> {
  const patience = new AbortController();
  await Promise.race([
    writes.during(() => Promise.resolve()),
    wait(finishWithinMs, undefined, { signal: patience.signal }).catch(() => undefined),
  ]);
  patience.abort();
}

/** @throws Refusal when the folder cannot be used */
async function openWatch(
  context: Context,
  folder: string,
  corrected: 'replace' | 'add' | undefined,
  say: (line: string) => void,
): Promise<WatchFolder> {
  if (!existsSync(folder) || !statSync(folder).isDirectory())
    throw new Refusal(`--watch: a folder that exists is needed, got ${folder}`);
  const watch = new WatchFolder({
    during: (work) => context.writes.during(work),
    folder,
    storeFile: async () => (await context.own()).file,
    today: context.today,
    ...(corrected !== undefined && { corrected }),
    say,
  });
  await watch.open().catch((error: unknown) => {
    throw new Refusal(`--watch: ${folder} can't be used: ${(error as Error).message}`);
  });
  say(`Files laid into ${folder} are taken in.`);
  return watch;
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
