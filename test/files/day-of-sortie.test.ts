/** Days that a sortie names, from its file to the plan. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { newAir } from '../../src/core/air/day.ts';
import { makePlan } from '../../src/core/plan/make-plan.ts';
import { FileFaults } from '../../src/files/faults.ts';
import { readPlanRequest } from '../../src/files/plan-request.ts';
import { change, longLoopText } from '../support/demo.ts';

const root = join(dirname(fileURLToPath(import.meta.url)), '../..');
const data = join(root, 'test/published/data');
const soundings = join(data, 'igra2-USM00070026-2010.txt');
const folder = mkdtempSync(join(tmpdir(), 'ramrise-day-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** The demonstration's sortie with another day, in a folder of its own. */
async function request(
  name: string,
  weather: string,
  ...changes: readonly (readonly [string | RegExp, string])[]
) {
  mkdirSync(join(folder, name));
  const path = join(folder, name, 'sortie.yaml');
  const text = change(
    longLoopText,
    [/weather:\n( .*\n)+/, `weather: ${weather}\n`],
    ['../decks/sandmartin', join(root, 'decks/sandmartin')],
    ['file: areas.geojson', `file: ${join(root, 'examples/areas.geojson')}`],
    ...changes,
  );
  writeFileSync(path, text);
  return readPlanRequest(path, 'test');
}

async function faultsOf(name: string, weather: string): Promise<string> {
  try {
    await request(name, weather);
  } catch (error) {
    if (error instanceof FileFaults) return error.message;
    throw error;
  }
  throw new Error('was accepted');
}

describe('the day of a sortie', () => {
  it.each(['hot', 'cold'])(
    '[DAY-1] a plan on the %s day is refused, since it must not be climbed through',
    async (day) => {
      const asked = await request(day, `{ day: ${day} }`);
      const refused = `MIL-STD-210A ${day} day: no sortie is planned on it`;
      expect(() => makePlan(asked)).toThrow(refused);
      expect(() => makePlan(asked)).toThrow('it is not hydrostatic');
    },
  );

  it('[DAY-2] a plan on the tropical day is made', async () => {
    const plan = makePlan(await request('tropical', '{ day: tropical }'));
    expect(plan.weather.title).toBe('MIL-STD-210A tropical day');
    expect(plan.trace.columns.timeS.length).toBeGreaterThan(100);
  });

  it('[DAY-3] on a warm sounding at Mach 2.95 the inlet temperature binds before the Mach limit', async () => {
    const asked = await request(
      'sounding',
      `{ file: ${soundings}, sounding: "2010-06-01T00:00Z", bottom: holdOffset }`,
      [/2\.85 Mach/g, '2.95 Mach'],
    );
    const plan = makePlan(asked);
    expect(plan.weather.continuedBy).toEqual([
      'place: everywhere',
      'time: hold',
      'wind: held above 31896 m',
      'bottom: holdOffset',
    ]);
    expect(plan.weather.run).toBe('2010-06-01T00:00Z');
    expect(plan.weather.attribution.join()).toContain('Integrated Global Radiosonde Archive');
    const keys = plan.limits.map(({ key }) => key);
    expect(keys.indexOf('inletTemperature')).toBeLessThan(keys.indexOf('mach'));
    // The file has -46.4 C at 50 hPa, which is 20 576 m of pressure altitude.
    const air = newAir();
    asked.day.sample(0, 0, 20_576, 0, air);
    expect(air.temperatureK).toBeCloseTo(226.75, 1);
  });

  it('[DAY-4] a sounding file of several needs to be told which, and says which there are', async () => {
    const message = await faultsOf('which', `{ file: ${soundings} }`);
    expect(message).toContain(
      'weather.sounding: the file has soundings of 2010-06-01T00:00Z, 2010-06-01T12:00Z',
    );
    const other = await faultsOf('other', `{ file: ${soundings}, sounding: "2010-06-02T00:00Z" }`);
    expect(other).toContain(
      'has no sounding of 2010-06-02T00:00Z; it has 2010-06-01T00:00Z, 2010-06-01T12:00Z',
    );
  });

  it('[DAY-5] a grid has no soundings, no members unless it is an ensemble', async () => {
    const grid = join(root, 'examples/weather/era5-2020-02-23T16Z-30N54N-100W75W.nc');
    const sounding = await faultsOf('grid', `{ file: ${grid}, sounding: "2010-06-01T00:00Z" }`);
    expect(sounding).toContain('is a grid and has no soundings');
    expect(await faultsOf('member', `{ file: ${grid}, time: hold, member: 2 }`)).toContain(
      'is of no ensemble',
    );
  });
});
