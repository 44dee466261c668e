/** The browser that drives the tests of the application: one that is on this machine, or Debian's package. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

/**
 * The file of Chromium or Chrome: RAMRISE_CHROMIUM, or one that is found, or Debian's package where this process may install
 * it. Throws with the one command that helps.
 */
export function browser() {
  const named = process.env.RAMRISE_CHROMIUM;
  if (named) {
    if (existsSync(named)) return named;
    throw new Error(`RAMRISE_CHROMIUM names ${named}, where there is no file.`);
  }
  const found = find();
  if (found) return found;
  const debian = existsSync('/usr/bin/apt-get');
  if (debian && process.getuid?.() === 0) {
    const installed = installPackage();
    if (installed) return installed;
  }
  const command = debian ? 'sudo apt-get install chromium' : 'RAMRISE_CHROMIUM=/path/to/chrome npm test';
  throw new Error(`The tests in a browser need Chromium or Chrome, and none was found. Run: ${command}`);
}

function find() {
  return candidates().find((path) => existsSync(path));
}

function candidates() {
  if (process.platform === 'darwin') {
    return ['Google Chrome', 'Chromium'].map((name) => `/Applications/${name}.app/Contents/MacOS/${name}`);
  }
  if (process.platform === 'win32') {
    const folders = [process.env.PROGRAMFILES, process.env['PROGRAMFILES(X86)'], process.env.LOCALAPPDATA];
    return folders
      .filter((folder) => folder !== undefined)
      .map((folder) => join(folder, 'Google', 'Chrome', 'Application', 'chrome.exe'));
  }
  const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];
  const folders = (process.env.PATH ?? '').split(delimiter);
  return folders.flatMap((folder) => names.map((name) => join(folder, name)));
}

function installPackage() {
  console.log('Installing Chromium with apt-get ...');
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  for (const args of [['update'], ['install', '-y', '--no-install-recommends', 'chromium']]) {
    spawnSync('apt-get', ['-qq', ...args], { stdio: ['ignore', 'ignore', 'inherit'], env });
  }
  return find();
}
