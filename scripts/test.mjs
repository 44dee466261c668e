/**
 * `npm test`: everything that is checked before a push, and what the continuous integration runs. It goes on after a
 * failure, says what was skipped and why, and ends with "N passed, N failed, N skipped": each step counts as one, and
 * each test of Vitest as one.
 */
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import { browser } from './browser.mjs';
import { build, install, node, root, tool } from './setup.mjs';

const report = join(root, '.cache', 'vitest.json');
/** @type {Record<string, string>} folders of test/ whose tests are counted apart */
const partOf = { published: 'published', e2e: 'end to end', 'web-e2e': 'in a browser' };
const total = { passed: 0, failed: 0, skipped: 0 };
/** @type {string[]} */
const remarks = [];

/**
 * @param {string} name
 * @param {() => { ok: boolean, text: string }} check
 */
function step(name, check) {
  const begin = performance.now();
  let ok = false;
  let text = '';
  try {
    ({ ok, text } = check());
  } catch (error) {
    text = error instanceof Error ? error.message : String(error);
  }
  total[ok ? 'passed' : 'failed'] += 1;
  const seconds = ((performance.now() - begin) / 1000).toFixed(1);
  console.log(`${ok ? 'pass' : 'FAIL'}  ${name} (${seconds} s)`);
  if (!ok) {
    console.log(text.trimEnd().replace(/^/gm, '      '));
    remarks.push(`failed: ${name}`);
  }
  return ok;
}

/** @param {string[]} args a tool's file and its arguments */
function run(...args) {
  const { status, stdout, stderr } = node(args, 'pipe');
  return { ok: status === 0, text: `${stdout}${stderr}` };
}

/**
 * Runs Vitest once over all tests, without those of the built program where there is no build or no browser, and counts from
 * its report; a run that leaves no report is one failure.
 * @param {boolean} built
 * @param {boolean} browsable
 */
function vitest(built, browsable) {
  mkdirSync(dirname(report), { recursive: true });
  rmSync(report, { force: true });
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
  const projects = [
    '--project=core',
    '--project=alone',
    ...(built ? ['--project=end to end'] : []),
    ...(built && browsable ? ['--project=in a browser'] : []),
  ];
  const { status } = node([tool('vitest'), 'run', ...projects, ...reporters]);
  let failures = 0;
  try {
    failures = count(JSON.parse(readFileSync(report, 'utf8')), built, browsable);
  } catch {
    remarks.push('failed: Vitest left no report');
    failures = 1;
    total.failed += 1;
  }
  if (status !== 0 && failures === 0) {
    remarks.push('failed: Vitest ended with an error outside any test');
    total.failed += 1;
  }
}

/**
 * Adds the tests of a report to the total and says how they fall on its parts; returns the failures.
 * @param {{ testResults: { name: string, status: string, message: string, assertionResults: { status: string, fullName: string }[] }[] }} result
 * @param {boolean} built
 * @param {boolean} browsable
 */
function count(result, built, browsable) {
  /** @type {Record<string, { passed: number, failed: number, skipped: number }>} */
  const parts = {};
  for (const file of result.testResults) {
    const path = relative(join(root, 'test'), file.name);
    const part = partOf[path.split(sep)[0]] ?? 'unit';
    parts[part] ??= { passed: 0, failed: 0, skipped: 0 };
    const counts = parts[part];
    const seen = counts.failed;
    for (const test of file.assertionResults) {
      const kind = test.status === 'passed' || test.status === 'failed' ? test.status : 'skipped';
      counts[kind] += 1;
      if (kind === 'failed') remarks.push(`failed: ${path}: ${test.fullName}`);
      if (kind === 'skipped') remarks.push(`skipped: ${path}: ${test.fullName} (the test says so itself)`);
    }
    if (file.status === 'failed' && counts.failed === seen) {
      counts.failed += 1;
      remarks.push(`failed: ${path} as a file: ${file.message.split('\n')[0]}`);
    }
  }
  for (const name of ['unit', ...Object.values(partOf)]) {
    const counts = parts[name];
    if (!counts) {
      const why = !built ? 'the build failed' : browsable ? 'there are no such tests' : 'there is no browser';
      remarks.push(`skipped: ${name}: ${why}`);
      total.skipped += 1;
      continue;
    }
    console.log(`${counts.failed ? 'FAIL' : 'pass'}  ${name}: ${sentence(counts)}`);
    total.passed += counts.passed;
    total.failed += counts.failed;
    total.skipped += counts.skipped;
  }
  return Object.values(parts).reduce((sum, counts) => sum + counts.failed, 0);
}

/** @param {{ passed: number, failed: number, skipped: number }} counts */
function sentence(counts) {
  return `${counts.passed} passed, ${counts.failed} failed, ${counts.skipped} skipped`;
}

const ready = step('packages', () => ({ ok: true, text: install() ? 'installed' : 'there' }));
if (ready) {
  const biome = tool('@biomejs/biome', 'biome');
  step('format', () => run(biome, 'format', '.'));
  step('lint', () => run(biome, 'check', '--formatter-enabled=false', '--error-on-warnings', '.'));
  step('folder rule', () => run(tool('dependency-cruiser', 'depcruise'), 'src', 'bench', 'test'));
  step('types', () => run(tool('typescript', 'tsc'), '-p', '.'));
  step('types of the application', () =>
    run(tool('svelte-check'), '--tsconfig', 'src/web/tsconfig.json', '--threshold', 'error'),
  );
  step('dead code', () => run(tool('knip')));
  const built = step('build', () => {
    build();
    return { ok: true, text: '' };
  });
  const browsable = step('browser', () => ({ ok: true, text: browser() }));
  vitest(built, browsable);
} else {
  remarks.push('skipped: everything else, because the packages could not be installed');
  total.skipped += 1;
}

console.log('');
for (const remark of remarks) console.log(remark);
console.log(remarks.length === 0 ? 'Nothing was skipped.' : '');
console.log(sentence(total));
process.exitCode = total.failed === 0 ? 0 : 1;
