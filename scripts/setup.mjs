/**
 * What must stand before anything runs: the packages of the lock file, and a build made from the sources of today.
 * Plain JavaScript on Node alone, because it runs before any package is there. Nothing is done twice.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The sortie that the demonstration plans. */
export const demo = join('examples', 'long-loop.yaml');

export const root = dirname(dirname(fileURLToPath(import.meta.url)));
const built = join(root, 'dist', 'main.js');
const stamp = join(root, 'dist', '.built-from');

/**
 * Runs Node on a script of the project or of a package, from the root.
 * @param {string[]} args
 * @param {'inherit' | 'pipe'} stdio
 * @param {Record<string, string>} more variables of the environment
 */
export function node(args, stdio = 'inherit', more = {}) {
  const plain = stdio === 'pipe' ? { NO_COLOR: '1', FORCE_COLOR: '0' } : {};
  const env = { ...process.env, ...plain, ...more };
  return spawnSync(process.execPath, args, { cwd: root, stdio, env, encoding: 'utf8', maxBuffer: 1 << 28 });
}

/**
 * The file that a package's `bin` names, so that its tool can be started without a shell.
 * @param {string} name package @param {string} [tool] key in its `bin`
 */
export function tool(name, tool = name) {
  const folder = join(root, 'node_modules', name);
  const bin = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')).bin;
  return join(folder, typeof bin === 'string' ? bin : bin[tool]);
}

/** Installs with `npm ci` where a package of the lock file is missing or has another version; true if it did. */
export function install() {
  if (installed()) return false;
  console.log('Installing the packages of package-lock.json ...');
  const args = ['ci', '--no-audit', '--no-fund', '--loglevel=error'];
  const npm = process.env.npm_execpath;
  const run = npm
    ? spawnSync(process.execPath, [npm, ...args], { cwd: root, stdio: 'inherit' })
    : spawnSync('npm', args, { cwd: root, stdio: 'inherit', shell: process.platform === 'win32' });
  if (run.status !== 0) throw new Error('npm ci did not end well; its message stands above.');
  return true;
}

function installed() {
  const hidden = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(hidden)) return false;
  const wanted = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')).packages;
  const present = JSON.parse(readFileSync(hidden, 'utf8')).packages;
  return Object.entries(wanted).every(([path, entry]) => {
    if (path === '') return true;
    const here = present[path];
    return here ? here.version === entry.version : entry.optional === true || entry.devOptional === true;
  });
}

/** Bundles the command line and the application into dist/ where a source has changed since the last time; true if it did. */
export function build() {
  const today = fingerprintOfSources();
  if (existsSync(built) && existsSync(stamp) && readFileSync(stamp, 'utf8') === today) return false;
  console.log('Building ...');
  rmSync(stamp, { force: true });
  must(node([tool('tsdown'), '--logLevel', 'warn'], 'pipe'));
  // The page opens with the demo planned, so that plan is part of its build.
  must(node([join(root, 'bin', 'ramrise.js'), 'plan', demo, '--out', join('.cache', 'web')], 'pipe'));
  writeFirst(join(root, '.cache', 'web'));
  for (const single of ['', '1']) {
    must(node([tool('vite'), 'build', '--logLevel', 'warn'], 'pipe', { RAMRISE_SINGLE: single }));
  }
  writeFileSync(stamp, today);
  return true;
}

/** Parts of a plan that the first screen does not show. */
const later = [
  'section',
  'checks',
  'altitudeGrids',
  'ladder',
  'manoeuvres',
  'balance',
  'rules',
  'tankerMatrix',
  'reach',
  'inlet',
  'lowPushes',
];

/**
 * Writes the plan once more without those parts, as if they were not computed: it is what a first visitor waits for.
 * @param {string} folder of plan.json
 */
function writeFirst(folder) {
  const plan = JSON.parse(readFileSync(join(folder, 'plan.json'), 'utf8'));
  for (const key of later) {
    if (!(key in plan)) throw new Error(`The build failed: a plan has no part "${key}" any more.`);
    plan[key] = Array.isArray(plan[key]) ? [] : null;
  }
  writeFileSync(join(folder, 'first.json'), JSON.stringify(plan));
}

/** @param {ReturnType<typeof node>} run */
function must(run) {
  if (run.status !== 0) throw new Error(`The build failed:\n${run.stdout}${run.stderr}`);
}

/** SHA-256 over the name and text of each file that the build reads. */
function fingerprintOfSources() {
  const hash = createHash('sha256');
  const sources = ['src', 'examples', 'decks']
    .flatMap((folder) => readdirSync(join(root, folder), { recursive: true, withFileTypes: true }))
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));
  const others = ['package.json', 'package-lock.json', 'tsconfig.json', 'tsdown.config.ts', 'vite.config.ts'];
  for (const file of [...sources.sort(), ...others.map((name) => join(root, name))]) {
    hash
      .update(`${file.slice(root.length)}\0`)
      .update(readFileSync(file))
      .update('\0');
  }
  return hash.digest('hex');
}
