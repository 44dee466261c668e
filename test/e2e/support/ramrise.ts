/** Runs the built command as a user does: a process of its own, from the project's root. */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../../../', import.meta.url));

export interface Ended {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

export function ramrise(...args: string[]): Ended {
  const { status, stdout, stderr } = spawnSync(process.execPath, ['bin/ramrise.js', ...args], {
    cwd: root,
    encoding: 'utf8',
  });
  return { code: status, stdout, stderr };
}

/** The JSON that a command prints with `--json`; a command that fails is a failure of the test, with its message. */
export function ramriseJson<T>(...args: string[]): T {
  const ended = ramrise(...args, '--json');
  if (ended.code !== 0) throw new Error(`exit code ${ended.code}: ${ended.stderr}`);
  return JSON.parse(ended.stdout) as T;
}
