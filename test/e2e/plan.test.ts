/** `ramrise plan` as a user runs it on the sortie of the demonstration. */
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Ended, ramrise, ramriseJson } from './support/ramrise.ts';

const sortie = 'examples/long-loop.yaml';
const names = [
  'cards.pdf',
  'centre-of-gravity.csv',
  'centre-of-gravity.svg',
  'contact-1.csv',
  'contact-1.svg',
  'contact-2.csv',
  'contact-2.svg',
  'fuel.csv',
  'fuel.svg',
  'load-factor-1.csv',
  'load-factor-1.svg',
  'load-factor-2.csv',
  'load-factor-2.svg',
  'load-factor-3.csv',
  'load-factor-3.svg',
  'load-factor-4.csv',
  'load-factor-4.svg',
  'map.svg',
  'margins-one-scale.csv',
  'margins-one-scale.svg',
  'margins.csv',
  'margins.svg',
  'plan.json',
  'plan.sortie.yaml',
  'profile.csv',
  'profile.svg',
  'section.csv',
  'section.svg',
  'strip.svg',
  'track.geojson',
  'track.gpx',
];

let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'ramrise-plan-'));
});

afterAll(() => {
  rmSync(folder, { recursive: true });
});

/** A copy of the sortie elsewhere, with changes; what it names beside it is named in full. */
function copyWith(name: string, ...changes: readonly (readonly [string | RegExp, string])[]): string {
  let text = readFileSync(sortie, 'utf8')
    .replace('../decks/', `${resolve('decks')}/`)
    .replace('file: weather/', `file: ${resolve('examples/weather')}/`)
    .replace('file: areas.geojson', `file: ${resolve('examples/areas.geojson')}`);
  for (const [from, to] of changes) {
    const changed = text.replace(from, to);
    if (changed === text) throw new Error(`the sortie has nothing that matches ${from}`);
    text = changed;
  }
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

describe('ramrise plan', () => {
  let ended: Ended;
  let out = '';

  beforeAll(() => {
    out = join(folder, 'first');
    ended = ramrise('plan', sortie, '--out', out);
  });

  it('[CLI-40] writes the plan, the cards and the charts, and says where', () => {
    expect(ended.code, ended.stderr).toBe(0);
    expect(readdirSync(out).sort()).toEqual(names);
    for (const name of names) expect(ended.stdout).toContain(`Written: ${join(out, name)}`);
    expect(readFileSync(join(out, 'cards.pdf'), 'latin1')).toMatch(/^%PDF-1\.\d[\s\S]*%%EOF\s*$/);
    for (const chart of [
      'strip',
      'profile',
      'fuel',
      'margins',
      'contact-1',
      'load-factor-1',
      'centre-of-gravity',
    ]) {
      expect(readFileSync(join(out, `${chart}.svg`), 'utf8')).toMatch(/^<svg [\s\S]*<\/svg>\s*$/);
    }
  });

  it('[CLI-41] prints the fingerprint of the plan file, what the weather stands for, its attribution and the caution', () => {
    const plan = JSON.parse(readFileSync(join(out, 'plan.json'), 'utf8'));
    expect(plan.format).toBe('ramrise-plan');
    expect(plan.fingerprint).toMatch(/^[ACDEFGHJKLMNPQRTUVWXYZ234679]{6}$/);
    expect(ended.stdout).toContain(plan.fingerprint);
    const words = ended.stdout.replace(/\s+/g, ' ');
    expect(words).toContain(plan.weather.standsFor);
    expect(words).toContain('Copernicus Climate Change Service information 2020');
    expect(words).toContain('Planning aid, not approved data.');
  });

  it('[CLI-47] writes the numbers of each chart as CSV: a row for each node of the trace below one header', () => {
    const { trace } = JSON.parse(readFileSync(join(out, 'plan.json'), 'utf8'));
    for (const table of ['profile', 'fuel', 'margins']) {
      const lines = readFileSync(join(out, `${table}.csv`), 'utf8')
        .trimEnd()
        .split('\r\n');
      expect(lines).toHaveLength(trace.columns.timeS.length + 1);
      expect(lines[0]).toMatch(/^since take-off \[h:min:s\],time \[UTC\],phase,/);
    }
  });

  it('[CLI-42] writes a plan file under 1 MB', () => {
    expect(readFileSync(join(out, 'plan.json')).length).toBeLessThan(1e6);
  });

  it('[CLI-43] gives the same files for the same inputs', () => {
    const again = join(folder, 'again');
    const answer = ramriseJson<{ flyable: boolean; files: string[] }>('plan', sortie, '--out', again);
    expect(answer.flyable).toBe(true);
    expect(answer.files.map((file) => file.slice(again.length + 1)).sort()).toEqual(names);
    for (const name of names) {
      expect(readFileSync(join(again, name)).equals(readFileSync(join(out, name))), name).toBe(true);
    }
  });

  it('[CLI-44] gives another fingerprint when the sortie changes', () => {
    const changed = copyWith('changed.yaml', ['landing: 2000 kg', 'landing: 2001 kg']);
    const same = copyWith('same.yaml');
    const of = (path: string) =>
      ramriseJson<{ fingerprint: string }>('plan', path, '--quick', '--out', join(folder, 'other'))
        .fingerprint;
    expect(of(changed)).not.toBe(of(same));
  });

  it('[CLI-53] is quick where what is flown after the plan is left out, and is the same plan', () => {
    const quick = join(folder, 'quick');
    expect(ramrise('plan', sortie, '--quick', '--out', quick).code).toBe(0);
    const [whole, part] = [out, quick].map((path) =>
      JSON.parse(readFileSync(join(path, 'plan.json'), 'utf8')),
    );
    const left = { rules: null, tankerMatrix: null, reach: null, inlet: null };
    for (const key of Object.keys(left)) expect(whole[key], key).not.toBeNull();
    expect(part).toEqual({ ...whole, ...left });
  });
});

describe('ramrise plan of a sortie that cannot be flown', () => {
  it('[CLI-51] ends with 3, writes all the same, and says what binds, by how much, and what frees it', () => {
    const out = join(folder, 'warm');
    const { code, stdout } = ramrise('plan', 'examples/warm-day.yaml', '--out', out);
    expect(code).toBe(3);
    expect(readdirSync(out).sort()).toEqual(names);
    const words = stdout.replace(/\s+/g, ' ');
    expect(words).toMatch(
      /Not flyable: inlet temperature binds at \d:\d\d in the cruise .*, \d\d\.\d\dN \d\d\.\d\dW/,
    );
    const { failure, flyable } = JSON.parse(readFileSync(join(out, 'plan.json'), 'utf8'));
    expect(flyable).toBe(false);
    expect(failure.limit).toBe('inletTemperature');
    expect(words).toMatch(/Freed by one change: cruise Mach, M?\s?2\.9\d( Mach)? instead of M?\s?2\.98/);
  });

  it.each([
    ['long-loop-first-route', /the route: \d+ nm into Gannet Range/, /Damson at 40\.\d\dN 97\.\d\dW/],
    [
      'limit-on-the-way',
      /maximum equivalent airspeed binds at \d:\d\d in the pushover/,
      /bottom of the pushover, 26 000 ft instead of 25 500 ft wherever it stands/,
    ],
    [
      'tanker-out-of-reach',
      /fuel required binds .* by 1 \d{3} kg/,
      /contact point of Ewer Two at 33\.\d\dN 77\.\d\dW/,
    ],
  ])('[CLI-54] ends with 3 for examples/%s.yaml, with what frees it', (name, binds, frees) => {
    const { code, stdout } = ramrise('plan', `examples/${name}.yaml`, '--out', join(folder, name));
    expect(code).toBe(3);
    const words = stdout.replace(/\s+/g, ' ');
    expect(words).toMatch(binds);
    expect(words).toMatch(frees);
  });

  it('[CLI-48] gives the same answer with --json, and exit code 3', () => {
    const { code, stdout } = ramrise(
      'plan',
      'examples/warm-day.yaml',
      '--out',
      join(folder, 'json'),
      '--json',
    );
    expect(code).toBe(3);
    const answer = JSON.parse(stdout);
    expect(answer.flyable).toBe(false);
    expect(answer.failure.freedBy.lever).toBe('legs.1.fly.3.cruise.mach');
    expect(answer.files).toHaveLength(names.length);
  });

  it('[CLI-49] also where the flight stops on its way', () => {
    const path = copyWith('stops.yaml', ['maximumMach: 0.80', 'maximumMach: 0.70']);
    const { code, stdout, stderr } = ramrise('plan', path, '--out', join(folder, 'stops'));
    expect(stderr).toBe('');
    expect(code).toBe(3);
    expect(stdout.replace(/\s+/g, ' ')).toContain(
      'contact at Mach 0.747 is above Mach 0.700, the limit of Ewer One',
    );
    expect(stdout).not.toMatch(/NaN|undefined/);
  });
});

describe('ramrise plan refuses', () => {
  it('[CLI-45] a sortie with faults: all of them at once, each with its line, and writes nothing', () => {
    const path = copyWith(
      'faults.yaml',
      ['fuel: 14000 kg', 'fuel: 14000'],
      ['speed: 320 KCAS', 'speed: 320 KTAS'],
      ['rate: 3000 kg/min', 'rat: 3000 kg/min'],
    );
    const out = join(folder, 'faults');
    const { code, stdout, stderr } = ramrise('plan', path, '--out', out, '--json');
    expect(code).toBe(1);
    expect(stderr).toMatch(/faults\.yaml:\d+:\d+: aircraft\.fuel: fuel 14000 has no unit; write one of kg/);
    expect(stderr).toMatch(/faults\.yaml:\d+:\d+: tankers\.0\.calibratedAirspeed: .*320 KTAS/);
    expect(stderr).toMatch(/faults\.yaml:\d+:\d+: tankers\.0\.rat: unknown key/);
    expect(JSON.parse(stdout).error.faults.length).toBeGreaterThanOrEqual(3);
    expect(existsSync(out)).toBe(false);
  });

  it('[CLI-50] a route out of the day, with the range of the day, and writes nothing', () => {
    const out = join(folder, 'outside');
    const path = copyWith('outside.yaml', ['50.60N 86.50W', '55.60N 86.50W']);
    const { code, stderr, stdout } = ramrise('plan', path, '--out', out, '--json');
    expect(code).toBe(1);
    expect(stderr).toMatch(/the day covers .*30\.00N 100\.00W to 54\.00N 075\.00W/);
    expect(JSON.parse(stdout).error.kind).toBe('refused');
    expect(existsSync(out)).toBe(false);
  });

  it('[CLI-46] a sortie file that is not there, and a missing --out', () => {
    const missing = ramrise('plan', 'nowhere.yaml', '--out', join(folder, 'missing'));
    expect(missing.code).toBe(1);
    expect(missing.stderr).toContain('nowhere.yaml');
    const usage = ramrise('plan', sortie);
    expect(usage.code).toBe(2);
    expect(usage.stderr).toContain('--out <folder>');
  });
});
