/**
 * `npm test`: installs, builds, then every check and test. `npm run bench` prints the timed figures; `npm run soak`
 * runs the long shares (kills, fuzz, seeds) in full.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureBuilt, ensureInstalled } from '../server/launch.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const mode = process.argv[2] ?? 'all';

function run(title, args, env = {}) {
  process.stdout.write(`\n== ${title}\n`);
  const [script, ...rest] = args;
  const ran = spawnSync(process.execPath, [join(root, 'node_modules', script), ...rest], {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, ...env },
  });
  return ran.status === 0;
}

ensureInstalled();
process.env.SUMPWISE_BUILT = await ensureBuilt();

const vitest = 'vitest/vitest.mjs';
if (mode === 'bench') {
  process.exit(run('Figures', [vitest, 'run', '-c', 'tests/bench/vitest.config.ts']) ? 0 : 1);
}
if (mode === 'soak') {
  process.exit(run('Long runs', [vitest, 'run', '-c', 'tests/vitest.config.ts'], { SOAK: '1' }) ? 0 : 1);
}

const folders = ['models', 'server', 'web', 'tests'];
const checks = [
  ['Format', ['prettier/bin/prettier.cjs', '--check', '.']],
  ['Lint', ['eslint/bin/eslint.js', '-c', 'tests/architecture/eslint.config.mjs', '.']],
  ...folders.map((folder) => [`Types of ${folder}/`, ['typescript/bin/tsc', '-p', folder]]),
  [
    'Direction of imports',
    [
      'dependency-cruiser/bin/dependency-cruise.mjs',
      '--config',
      'tests/architecture/dependency-cruiser.cjs',
      ...folders,
    ],
  ],
];
const failed = checks.filter(([title, args]) => !run(title, args)).map(([title]) => title);
const report = join(mkdtempSync(join(tmpdir(), 'sumpwise-test-')), 'report.json');
const testsPassed = run('Tests', [
  vitest,
  'run',
  '-c',
  'tests/vitest.config.ts',
  '--reporter=default',
  '--reporter=json',
  `--outputFile.json=${report}`,
]);
let counts = { numPassedTests: 0, numFailedTests: 1 };
try {
  counts = JSON.parse(readFileSync(report, 'utf8'));
} catch {
  process.stdout.write('The test runner left no report.\n');
}
if (failed.length > 0) process.stdout.write(`\nChecks that failed: ${failed.join(', ')}\n`);
const passedCount = counts.numPassedTests + checks.length - failed.length;
const failedCount = counts.numFailedTests + failed.length;
process.stdout.write(`\n${passedCount} passed, ${failedCount} failed\n`);
process.exit(testsPassed && failed.length === 0 ? 0 : 1);
