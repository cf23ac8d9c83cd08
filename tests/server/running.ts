import { createServer, type Server } from 'node:http';
import { copyFileSync, existsSync, mkdtempSync, renameSync, rmSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { makeApp } from '../../server/app.ts';
import { pathsOf, type Paths } from '../../server/config.ts';
import { makeContext, type Context } from '../../server/context.ts';
import { openDemo } from '../../server/services/demoStore.ts';
import type { Store } from '../../server/store/openStore.ts';

const root = new URL('../..', import.meta.url).pathname.replace(/\/$/, '');

/** An installation of its own in a temporary folder. */
export function temporaryPaths(): Paths & { remove(): void } {
  const folder = mkdtempSync(join(tmpdir(), 'sumpwise-'));
  return {
    ...pathsOf(root, process.env.SUMPWISE_BUILT ?? root),
    ownStore: join(folder, 'sumpwise.sqlite'),
    demoStore: join(folder, 'demo.sqlite'),
    uploads: join(folder, 'uploads'),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

export interface Running {
  readonly address: string;
  readonly paths: Paths;
  readonly context: Context;
  readonly log: string[];
  /** answers nobody, as when the machine sleeps, until it is resumed under the same address */
  pause(): Promise<void>;
  resume(): Promise<void>;
  stop(): Promise<void>;
}

/**
 * The demo store of an installation. Where a build is known, the demo is taken in once for it and copied from then on: it
 * is the same for every test.
 */
async function demoOf(paths: Paths): Promise<Store> {
  const built = process.env.SUMPWISE_BUILT;
  if (built === undefined) return openDemo(paths, () => undefined);
  const made = join(built, 'demo-of-tests.sqlite');
  if (!existsSync(made)) {
    const own = `${made}.${process.pid}`;
    const store = await openDemo({ ...paths, demoStore: own }, () => undefined);
    store.sqlite.pragma('wal_checkpoint(TRUNCATE)');
    await store.close();
    renameSync(own, made);
  }
  copyFileSync(made, paths.demoStore);
  return openDemo(paths, () => undefined);
}

/** The real application on a free port with real stores. */
export async function startServer(): Promise<Running> {
  const paths = temporaryPaths();
  const log: string[] = [];
  const context = makeContext(paths, () => demoOf(paths));
  const server: Server = createServer(makeApp(context, ['127.0.0.1', 'localhost'], (line) => log.push(line)));
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  const pause = async (): Promise<void> => {
    server.closeAllConnections();
    await new Promise((resolve) => server.close(resolve));
  };
  return {
    address: `http://127.0.0.1:${port}`,
    paths,
    context,
    log,
    pause,
    resume: () => new Promise<void>((resolve) => server.listen(port, '127.0.0.1', resolve)),
    async stop() {
      await pause();
      await context.close();
      paths.remove();
    },
  };
}
