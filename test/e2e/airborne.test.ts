/** `ramrise airborne` as a user runs it: readings from a file, a pipe and a socket, late, doubled and corrected, killed and begun again. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import {
  appendFileSync,
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CAUTION, type Plan } from '../../src/core/plan/plan.ts';
import { ramrise, ramriseJson } from './support/ramrise.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
let folder = '';
let plan: Plan;
/** CSV of a crew that reads every five minutes from 1:00 to 1:30 and finds fuel going from 1:05 on. */
let header = '';
let lines: string[] = [];

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ramrise-airborne-'));
  ramrise('plan', 'examples/long-loop.yaml', '--quick', '--out', folder);
  plan = JSON.parse(readFileSync(join(folder, 'plan.json'), 'utf8'));
  const { timeS, fuelKg, mach } = plan.trace.columns;
  const at = (column: readonly number[], seconds: number): number => {
    const high = timeS.findIndex((time) => time >= seconds);
    const part = (seconds - timeS[high - 1]) / (timeS[high] - timeS[high - 1]);
    return column[high - 1] + part * (column[high] - column[high - 1]);
  };
  header = 'time, fuel [kg], mach [Mach]';
  lines = Array.from({ length: 16 }, (_, i) => {
    const minute = 60 + 2 * i;
    const lost = 15 * Math.max(0, minute - 65);
    const fuel = at(fuelKg, 60 * minute) - lost;
    const hours = `${Math.floor(minute / 60)}:${String(minute % 60).padStart(2, '0')}`;
    return `${hours}, ${fuel.toFixed(0)}, ${at(mach, 60 * minute).toFixed(3)}`;
  });
});

afterAll(() => {
  rmSync(folder, { recursive: true });
});

const planFile = () => join(folder, 'plan.json');
const log = (name: string) => join(folder, `${name}.log`);

interface Told {
  readonly timeS: number;
  readonly alert: object | null;
  readonly known: readonly object[];
  readonly fuelKg: { readonly mean: number };
  readonly follows: {
    readonly flown: boolean;
    readonly fuel: readonly { readonly name: string; readonly fuelKg: number }[];
    readonly notComputed: readonly string[];
  };
  readonly caution: string;
}

/** Runs the command with what is written to it, piece by piece, and gives each line of its answer as JSON. */
async function piped(name: string, pieces: readonly string[], more: readonly string[] = []): Promise<Told[]> {
  const child = spawn(
    process.execPath,
    ['bin/ramrise.js', 'airborne', planFile(), '--json', '--log', log(name), ...more],
    { cwd: root, stdio: ['pipe', 'pipe', 'inherit'] },
  );
  let said = '';
  child.stdout.on('data', (text) => {
    said += text;
  });
  for (const piece of pieces) child.stdin.write(piece);
  child.stdin.end();
  await once(child, 'close');
  return said
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));
}

let inOrder: Told;

describe('ramrise airborne', () => {
  it('[CLI-160] a file: an alert, fuel flown on, the caution; read again it changes nothing', () => {
    const file = join(folder, 'readings.csv');
    writeFileSync(file, `${[header, ...lines].join('\n')}\n`);
    const args = ['airborne', planFile(), '--readings', file, '--log', log('file')];
    inOrder = ramriseJson<Told>(...args);
    expect(inOrder.alert !== null || inOrder.known.length > 0).toBe(true);
    expect(inOrder.follows.flown).toBe(true);
    expect(inOrder.follows.fuel.map(({ name }) => name)).toContain('Ewer Two');
    expect(inOrder.caution).toBe(CAUTION);
    const kept = readFileSync(log('file'), 'utf8');
    // Each line holds a fuel and a Mach, below a first line that names the plan.
    expect(kept.trim().split('\n')).toHaveLength(1 + 2 * lines.length);
    const { code, stdout } = ramrise(...args);
    expect(code).toBe(0);
    expect(stdout).toContain('NOT as planned since');
    expect(stdout).toContain('Fuel ahead, flown on with what is found');
    expect(stdout).toContain('What to do now:');
    expect(stdout.replace(/\s+/g, ' ')).toContain(CAUTION);
    expect(readFileSync(log('file'), 'utf8')).toBe(kept);
  });

  it('[CLI-161] out of order, doubled, corrected: the answer of those in order', async () => {
    const [first, ...rest] = lines;
    const cells = rest[4].split(', ');
    const wrong = [cells[0], String(Number(cells[1]) - 40), cells[2]].join(', ');
    const shuffled = [
      rest[14],
      wrong,
      rest[2],
      ...rest.slice(3, 14).reverse(),
      rest[2],
      rest[0],
      rest[1],
      first,
    ];
    const corrected = `{"time":"${cells[0]}","fuelKg":${cells[1]},"status":"corrected"}`;
    const answers = await piped('shuffled', [`${[header, corrected, ...shuffled].join('\n')}\n`]);
    const last = answers.at(-1) as Told;
    expect(last.fuelKg).toEqual(inOrder.fuelKg);
    expect(last.follows).toEqual(inOrder.follows);
  });

  it('[CLI-162] killed in the middle, its log cut in a line, and begun again: the answer of one that was never killed', async () => {
    const child = spawn(
      process.execPath,
      ['bin/ramrise.js', 'airborne', planFile(), '--json', '--log', log('killed')],
      { cwd: root, stdio: ['pipe', 'pipe', 'inherit'] },
    );
    child.stdin.write(`${[header, ...lines.slice(0, 8)].join('\n')}\n`);
    await once(child.stdout, 'data');
    child.kill('SIGKILL');
    await once(child, 'close');
    appendFileSync(log('killed'), '{"timeS":45');
    const answers = await piped('killed', [`${[header, ...lines.slice(8)].join('\n')}\n`]);
    const { alert, known, fuelKg, follows } = answers.at(-1) as Told;
    expect({ alert, known, fuelKg, follows }).toEqual({
      alert: inOrder.alert,
      known: inOrder.known,
      fuelKg: inOrder.fuelKg,
      follows: inOrder.follows,
    });
    // What was cut off is gone for good: the log can be read at every later start, and is answered at once.
    const [atOnce] = await piped('killed', []);
    expect(atOnce.follows).toEqual(inOrder.follows);
  });

  it('[CLI-163] a local socket, line by line', async () => {
    const path = join(folder, 'gauges.sock');
    const server = createServer((socket) => {
      socket.write(`${header}\n${lines[0]}\n`);
      const [half, rest] = [lines[1].slice(0, 7), lines[1].slice(7)];
      socket.write(half);
      setTimeout(() => socket.end(`${rest}\n${lines.slice(2).join('\n')}\n`), 50);
    });
    server.listen(path);
    await once(server, 'listening');
    const answers = await piped('socket', [], ['--readings', path]);
    server.close();
    expect((answers.at(-1) as Told).follows).toEqual(inOrder.follows);
  });

  it('[CLI-163] a socket that nobody serves is refused by its name', async () => {
    const path = join(folder, 'left.sock');
    // A server that is killed leaves its socket behind.
    const serve = `require('node:net').createServer().listen(${JSON.stringify(path)}, () => process.kill(process.pid, 'SIGKILL'))`;
    await once(spawn(process.execPath, ['-e', serve]), 'close');
    const { code, stderr } = ramrise('airborne', planFile(), '--readings', path, '--log', log('left'));
    expect(code).toBe(1);
    expect(stderr).toContain('left.sock');
  });

  it('[CLI-164] a line that is typed wrong is told, and the next one read', async () => {
    const child = spawn(
      process.execPath,
      ['bin/ramrise.js', 'airborne', planFile(), '--json', '--log', log('typed')],
      { cwd: root, stdio: ['pipe', 'pipe', 'pipe'] },
    );
    let [said, complained] = ['', ''];
    child.stdout.on('data', (text) => {
      said += text;
    });
    child.stderr.on('data', (text) => {
      complained += text;
    });
    child.stdin.end('1:10 fuel 19350\n1:12 fuel 18740 kg\n');
    const [code] = await once(child, 'close');
    expect(code).toBe(0);
    expect(complained).toContain('standard input:1: fuel "19350": has no unit');
    expect(JSON.parse(said.trim().split('\n').at(-1) ?? '').timeS).toBe(72 * 60);
  });

  it('[CLI-165] where deck and weather are not at hand it answers from the plan alone and says so', async () => {
    const alone = join(folder, 'alone');
    mkdirSync(alone);
    copyFileSync(planFile(), join(alone, 'plan.json'));
    writeFileSync(join(alone, 'readings.csv'), `${[header, ...lines].join('\n')}\n`);
    const child = spawn(
      process.execPath,
      [join(root, 'bin/ramrise.js'), 'airborne', 'plan.json', '--json', '--readings', 'readings.csv'],
      { cwd: alone, stdio: ['ignore', 'pipe', 'inherit'] },
    );
    let said = '';
    child.stdout.on('data', (text) => {
      said += text;
    });
    await once(child, 'close');
    const { follows } = JSON.parse(said) as Told;
    expect(follows.flown).toBe(false);
    expect(follows.notComputed).toEqual([expect.stringContaining('of the plan, ')]);
    expect(follows.fuel.map(({ name }) => name)).toContain('Ewer Two');
  });

  it('[CLI-166] refuses the log of another plan, and a file with a fault by its line', () => {
    const other = log('other');
    writeFileSync(other, '# ramrise-readings 1 of plan QQQQQQ, take-off 2026-02-23T15:30:00Z\n');
    const refused = ramrise(
      'airborne',
      planFile(),
      '--readings',
      join(folder, 'readings.csv'),
      '--log',
      other,
    );
    expect(refused.code).toBe(1);
    expect(refused.stderr).toContain(`holds readings of plan QQQQQQ, not of ${plan.fingerprint}`);
    const faulty = join(folder, 'faulty.csv');
    writeFileSync(faulty, `${header}\n1:00, many, 2.85\n`);
    const { code, stderr } = ramrise('airborne', planFile(), '--readings', faulty, '--log', log('faulty'));
    expect(code).toBe(1);
    expect(stderr).toContain('faulty.csv:2: fuel "many": is not a number');
  });
});
