#!/usr/bin/env node
/**
 * The one way in: installs the locked dependencies and builds when that is needed, then hands over to the built
 * program. Plain JavaScript without dependencies, since it runs before there are any. Says what it does on stderr, so
 * that stdout stays clean for --json.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  utimesSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const say = (text) => process.stderr.write(`${text}\n`);

function lockedVersions(file) {
  if (!existsSync(file)) return null;
  const { packages } = JSON.parse(readFileSync(file, 'utf8'));
  return new Map(
    Object.entries(packages)
      .filter(([path, entry]) => path !== '' && !entry.optional && !entry.peer)
      .map(([path, entry]) => [path, entry.version]),
  );
}

function isInstalled() {
  const wanted = lockedVersions(join(root, 'package-lock.json'));
  const present = lockedVersions(join(root, 'node_modules/.package-lock.json'));
  if (wanted === null || present === null) return false;
  for (const [path, version] of wanted) if (present.get(path) !== version) return false;
  return true;
}

function npm(args) {
  const ran = process.env.npm_execpath?.endsWith('.js')
    ? spawnSync(process.execPath, [process.env.npm_execpath, ...args], { cwd: root, stdio: ['ignore', 2, 2] })
    : spawnSync('npm', args, { cwd: root, stdio: ['ignore', 2, 2], shell: process.platform === 'win32' });
  if (ran.status !== 0) {
    say(
      `npm ${args.join(' ')} did not succeed. Check the connection to the package registry, then start again.`,
    );
    process.exit(1);
  }
}

function nativeStoreLoads() {
  try {
    const Database = createRequire(join(root, 'package.json'))('better-sqlite3');
    new Database(':memory:').close();
    return true;
  } catch {
    return false;
  }
}

/** Installs what package-lock.json names, unless it is there already. */
export function ensureInstalled() {
  if (!isInstalled()) {
    say('Installing the locked dependencies (only now; one to three minutes) …');
    npm(['ci', '--no-audit', '--no-fund', '--loglevel=error']);
  }
  if (!nativeStoreLoads()) {
    say(`Building the database module for Node ${process.versions.node} …`);
    npm(['rebuild', 'better-sqlite3', '--loglevel=error']);
    if (!nativeStoreLoads()) {
      say(
        'The database module better-sqlite3 does not load: it needs a C++ compiler, make and Python 3 here.',
      );
      process.exit(1);
    }
  }
}

function sourceHash() {
  const hash = createHash('sha256').update(process.versions.node.split('.')[0]);
  const walk = (folder) => {
    for (const entry of readdirSync(folder, { withFileTypes: true }).sort((a, b) =>
      a.name < b.name ? -1 : 1,
    )) {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) walk(path);
      else hash.update(relative(root, path)).update(readFileSync(path));
    }
  };
  for (const folder of ['models', 'server', 'web', 'data/catalog']) walk(join(root, folder));
  return hash
    .update(readFileSync(join(root, 'package-lock.json')))
    .digest('hex')
    .slice(0, 16);
}

const minute = 60_000;

/** Keeps the three newest builds, and those that a program still runs from, see {@link holdBuild}. */
function removeOldBuilds() {
  const folder = join(root, 'build');
  const builds = readdirSync(folder)
    .filter((name) => !name.startsWith('.'))
    .map((name) => ({ name, madeAt: statSync(join(folder, name)).mtimeMs }))
    .sort((a, b) => b.madeAt - a.madeAt);
  const left = builds.slice(3).filter(({ madeAt }) => Date.now() - madeAt > 30 * minute);
  for (const { name } of left) rmSync(join(folder, name), { recursive: true, force: true });
}

/** While this program runs its build looks fresh: it may load a part of it later. */
function holdBuild(built) {
  const touch = () => {
    try {
      utimesSync(built, new Date(), new Date());
    } catch {
      // a folder that cannot be written is cleared by nobody either
    }
  };
  touch();
  setInterval(touch, 10 * minute).unref();
}

/** Builds server and pages when a source changed; returns the folder of the build. */
export async function ensureBuilt() {
  const hash = sourceHash();
  const built = join(root, 'build', hash);
  if (existsSync(built)) return built;
  say('Building the program and its pages …');
  const { build } = await import(
    pathToFileURL(createRequire(join(root, 'package.json')).resolve('vite')).href
  );
  const fresh = join(root, 'build', `.making-${process.pid}`);
  mkdirSync(fresh, { recursive: true });
  for (const part of ['server', 'web'])
    await build({
      configFile: join(root, part, 'vite.config.ts'),
      logLevel: 'error',
      build: { outDir: join(fresh, part), emptyOutDir: true },
    });
  try {
    renameSync(fresh, built);
  } catch {
    rmSync(fresh, { recursive: true, force: true });
  }
  removeOldBuilds();
  return built;
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(realpathSync(process.argv[1])).href) {
  ensureInstalled();
  const built = await ensureBuilt();
  holdBuild(built);
  const { main } = await import(pathToFileURL(join(built, 'server/main.js')).href);
  process.exitCode = await main(process.argv.slice(2), { root, built });
}
