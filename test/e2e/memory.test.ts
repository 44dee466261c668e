/** The greatest resident set of a whole `ramrise plan`, as the operating system counted it at the end of the process. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));
/** Prints the peak in KiB as the last line of stderr. */
const atExit = "process.on('exit', () => process.stderr.write('\\n' + process.resourceUsage().maxRSS));";

it('[CLI-60] plans the demonstration in less than 150 MiB of memory', () => {
  const out = mkdtempSync(join(tmpdir(), 'ramrise-memory-'));
  try {
    const preload = `data:text/javascript,${encodeURIComponent(atExit)}`;
    const args = ['--import', preload, 'bin/ramrise.js', 'plan', 'examples/long-loop.yaml', '--out', out];
    const { status, stderr } = spawnSync(process.execPath, args, { cwd: root, encoding: 'utf8' });
    expect(status).toBe(0);
    const peakKiB = Number(stderr.trim().split('\n').at(-1));
    expect(peakKiB).toBeGreaterThan(30_000);
    expect(peakKiB).toBeLessThan(150 * 1024);
  } finally {
    rmSync(out, { recursive: true });
  }
});
