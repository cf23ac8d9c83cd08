import { isKeptRead } from './keptReads.ts';
import type { offlineNames } from './names.ts';

/** Filled in by the build: the hash of the pages, every file they consist of, and what the pages agree on with it. */
declare const __shell__: typeof offlineNames & { readonly hash: string; readonly files: readonly string[] };

interface LateEvent extends Event {
  waitUntil(done: Promise<unknown>): void;
}
interface AskEvent extends LateEvent {
  readonly request: Request;
  readonly preloadResponse?: Promise<Response | undefined>;
  respondWith(answer: Promise<Response>): void;
}
interface WorkerScope {
  readonly clients: { claim(): Promise<void> };
  readonly registration: { readonly navigationPreload?: { enable(): Promise<void> } };
  readonly location: Location;
  skipWaiting(): Promise<void>;
  addEventListener(name: 'install' | 'activate', handle: (event: LateEvent) => void): void;
  addEventListener(name: 'fetch', handle: (event: AskEvent) => void): void;
}

const scope = self as unknown as WorkerScope;
const { hash, files, readsCache, keptAtHeader, formerHeader, mostKept } = __shell__;
const shellPrefix = 'sumpwise-shell-';
const shellCache = shellPrefix + hash;
const shell = new Set(files);

scope.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(shellCache)
      .then((cache) => cache.addAll([...files]))
      .then(() => scope.skipWaiting()),
  );
});

/** Shells of earlier builds go, but for the one before: a page that is still open loads its later parts from there. */
async function removeOldShells(): Promise<void> {
  const shells = (await caches.keys()).filter((name) => name.startsWith(shellPrefix) && name !== shellCache);
  await Promise.all(shells.slice(0, -1).map((name) => caches.delete(name)));
}

scope.addEventListener('activate', (event) => {
  event.waitUntil(
    removeOldShells()
      .then(() => scope.registration.navigationPreload?.enable())
      .then(() => scope.clients.claim()),
  );
});

/** Gateways answer so when what stands behind them is gone. */
const serverGone = (response: Response): boolean => response.status >= 502 && response.status <= 504;

/** A file of the pages: of this build, else of the one before, for a page that is still open from it. */
async function fromShell(file: Request | string): Promise<Response | undefined> {
  const here = await (await caches.open(shellCache)).match(file, { ignoreVary: true });
  return here ?? caches.match(file, { ignoreVary: true });
}

async function openPage(event: AskEvent): Promise<Response> {
  try {
    const answer = (await event.preloadResponse) ?? (await fetch(event.request));
    if (!serverGone(answer)) return answer;
  } catch {
    // no connection: the shell opens and says so itself
  }
  return (await fromShell('/')) ?? Response.error();
}

async function shellFile(request: Request): Promise<Response> {
  return (await fromShell(request)) ?? fetch(request);
}

/** Answers of one store must not stand beside those of another. */
async function forgetOtherStore(cache: Cache, state: Response): Promise<void> {
  const earlier = await cache.match('/api/state');
  if (earlier === undefined) return;
  const [before, now] = (await Promise.all([earlier.json(), state.json()])) as { store?: string }[];
  if (before.store !== now.store) await Promise.all((await cache.keys()).map((key) => cache.delete(key)));
}

async function keep(request: Request, answer: Response): Promise<void> {
  const cache = await caches.open(readsCache);
  if (new URL(request.url).pathname === '/api/state') await forgetOtherStore(cache, answer.clone());
  const headers = new Headers(answer.headers);
  headers.set(keptAtHeader, new Date().toISOString());
  // without a connection nothing is in work
  headers.delete(formerHeader);
  await cache.put(request.url, new Response(await answer.blob(), { headers }));
  const keys = await cache.keys();
  await Promise.all(keys.slice(0, Math.max(0, keys.length - mostKept)).map((key) => cache.delete(key)));
}

async function keptRead(event: AskEvent): Promise<Response> {
  const earlier = async (): Promise<Response | undefined> =>
    (await caches.open(readsCache)).match(event.request.url);
  try {
    const answer = await fetch(event.request);
    if (answer.ok) event.waitUntil(keep(event.request, answer.clone()).catch(() => undefined));
    return (serverGone(answer) ? await earlier() : undefined) ?? answer;
  } catch {
    return (await earlier()) ?? Response.error();
  }
}

scope.addEventListener('fetch', (event) => {
  const { request } = event;
  const address = new URL(request.url);
  if (request.method !== 'GET' || address.origin !== scope.location.origin) return;
  if (isKeptRead(address)) event.respondWith(keptRead(event));
  else if (address.pathname.startsWith('/api/')) return;
  else if (request.mode === 'navigate') event.respondWith(openPage(event));
  else if (shell.has(address.pathname)) event.respondWith(shellFile(request));
});
