/**
 * Weather files much larger than the memory they may take: NetCDF-4, global, in chunks of 16 MB as data services write them. The
 * greatest resident set is what the operating system counted at the end of the command.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import h5wasm from 'h5wasm/node';
import { describe, expect, it } from 'vitest';
import { standardLogPressure, standardTemperature } from '../../src/core/air/standard.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
/** Prints the peak in KiB as the last line of stderr. */
const atExit = "process.on('exit', () => process.stderr.write('\\n' + process.resourceUsage().maxRSS));";
const preload = `data:text/javascript,${encodeURIComponent(atExit)}`;

const rows = 721;
const columns = 1440;
const levelsOfChunk = 4;
const altitudesM = Array.from({ length: 12 }, (_, i) => 100 + 2300 * i);
const firstS = Date.UTC(2026, 1, 23, 12) / 1000;

/** The value of a field at a level and row; the temperature falls by 0.1 K for each degree to the north of 40. */
const fields: Record<
  string,
  { readonly units: string; value(altitudeM: number, latitudeDeg: number): number }
> = {
  t: { units: 'K', value: (altitude, latitude) => standardTemperature(altitude) - 0.1 * (latitude - 40) },
  z: { units: 'm**2 s**-2', value: (altitude) => 9.80665 * altitude },
  u: { units: 'm s**-1', value: () => 12 },
  v: { units: 'm s**-1', value: () => -3 },
};

/** Writes the standard day with that change, the same at every hour; temperature compressed, the other fields not. */
async function write(path: string, hours: number): Promise<void> {
  await h5wasm.ready;
  const file = new h5wasm.File(path, 'w');
  const axes: Record<string, [Float64Array, string]> = {
    valid_time: [
      Float64Array.from({ length: hours }, (_, i) => firstS + 3600 * i),
      'seconds since 1970-01-01',
    ],
    pressure_level: [Float64Array.from(altitudesM, (h) => Math.exp(standardLogPressure(h)) / 100), 'hPa'],
    latitude: [Float64Array.from({ length: rows }, (_, i) => 90 - 0.25 * i), 'degrees_north'],
    longitude: [Float64Array.from({ length: columns }, (_, i) => 0.25 * i), 'degrees_east'],
  };
  for (const [name, [data, units]] of Object.entries(axes)) {
    const scale = file.create_dataset({ name, data, shape: [data.length] });
    scale.create_attribute('units', units);
    scale.make_scale(name);
  }
  const shape = [hours, altitudesM.length, rows, columns];
  const chunks = [1, levelsOfChunk, rows, columns];
  const chunk = new Float32Array(levelsOfChunk * rows * columns);
  for (const [name, { units, value }] of Object.entries(fields)) {
    const packed = name === 't' ? { compression: 'gzip' as const, compression_opts: [1] } : {};
    const dataset = file.create_dataset({
      name,
      data: chunk,
      shape: chunks,
      maxshape: shape,
      chunks,
      ...packed,
    });
    dataset.resize(shape);
    dataset.create_attribute('units', units);
    Object.keys(axes).forEach((axis, i) => {
      dataset.attach_scale(i, axis);
    });
    for (let level = 0; level < altitudesM.length; level += levelsOfChunk) {
      for (let line = 0; line < levelsOfChunk * rows; line++) {
        const altitude = altitudesM[level + Math.floor(line / rows)];
        chunk.fill(value(altitude, 90 - 0.25 * (line % rows)), line * columns, (line + 1) * columns);
      }
      for (let hour = 0; hour < hours; hour++) {
        const ranges = [
          [hour, hour + 1],
          [level, level + levelsOfChunk],
          [0, rows],
          [0, columns],
        ];
        dataset.write_slice(ranges as [number, number][], chunk);
      }
    }
  }
  file.close();
}

function measured(...args: string[]): {
  readonly code: number | null;
  readonly stdout: string;
  readonly peakMiB: number;
} {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ['--import', preload, 'bin/ramrise.js', ...args],
    { cwd: root, encoding: 'utf8' },
  );
  return { code: status, stdout, peakMiB: Number(stderr.trim().split('\n').at(-1)) / 1024 };
}

async function inLittleMemory(hours: number, leastBytes: number): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'ramrise-large-'));
  try {
    const path = join(folder, 'large.nc');
    await write(path, hours);
    expect(statSync(path).size).toBeGreaterThan(leastBytes);

    const at = ['--at', '45.1,-85.3', '--altitude', '11600 m', '--time', '2026-02-23T12:00Z', '--json'];
    const point = measured('day', path, ...at);
    expect(point.code).toBe(0);
    // 11 600 m is a level: the isothermal layer's 216.65 K less 0.1 K for each of 5.1 degrees.
    expect(Math.abs(JSON.parse(point.stdout).temperatureK - 216.14)).toBeLessThan(1e-4);
    expect(point.peakMiB).toBeGreaterThan(30);
    expect(point.peakMiB).toBeLessThan(300);

    const sortie = join(folder, 'sortie.yaml');
    const text = readFileSync(join(root, 'examples/long-loop.yaml'), 'utf8')
      .replace(/weather:\n( .*\n)+/, `weather: { file: ${path}, time: hold, bottom: holdOffset }\n`)
      .replace('../decks', join(root, 'decks'))
      .replace('file: areas', `file: ${join(root, 'examples/areas')}`);
    writeFileSync(sortie, text);
    const plan = measured('plan', sortie, '--out', join(folder, 'out'), '--json');
    expect([0, 3]).toContain(plan.code);
    expect(plan.peakMiB).toBeLessThan(300);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

describe('large weather files', () => {
  it('[CLI-61] of 150 MB are read and flown in less than 300 MiB of memory', async () => {
    await inLittleMemory(1, 145e6);
  });

  it.runIf(process.env.RAMRISE_LARGE === '1')(
    '[CLI-62] of 1 GB are read and flown in less than 300 MiB of memory (skipped unless RAMRISE_LARGE=1)',
    async () => {
      await inLittleMemory(7, 1e9);
    },
  );
});
