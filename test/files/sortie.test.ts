/** Sortie files: every fault at once, each with its line and its path, and in words that say what to write. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { Faults, faultText } from '../../src/files/faults.ts';
import { compileSortie, readSortieFile } from '../../src/files/sortie.ts';
import { sortieJsonSchema } from '../../src/files/sortie-schema.ts';
import { change, longLoopText, requestOf, sandmartin, warmDayText } from '../support/demo.ts';

function faultsOf(text: string): string[] {
  const faults = new Faults();
  const read = readSortieFile(text, 'sortie.yaml', faults);
  if (read) expect(compileSortie(read, sandmartin, null, faults)).toBe(null);
  return faults.list.map(faultText);
}

/** Line, from 1, on which the changed sortie first has a text. */
const lineOf = (text: string, part: string): number => text.slice(0, text.indexOf(part)).split('\n').length;

describe('a sortie file with faults', () => {
  it('[SORTIE-1] tells all that can be seen before the deck is known, by line and path', () => {
    expect(faultsOf(readFileSync('test/files/faulty-sortie.yaml', 'utf8')).sort()).toEqual(
      [
        'sortie.yaml:3:10: version: version must be 1: this program reads no other',
        'sortie.yaml:4:8: title: must not be empty',
        'sortie.yaml:5:58: aircraft.fuel: fuel 14000 has no unit; write one of kg, t, lb, slug',
        'sortie.yaml:6:20: weather.offset: temperature offset "8 ft": "ft" does not measure it; write K, degC, degF or degR',
        'sortie.yaml:7:37: takeOff.time: time "23 February": is not a date and time; write 2026-02-23T16:00Z',
        'sortie.yaml:9:30: bases.0.at: position "93.20N 93.60W": latitude must be -90 to 90 deg',
        'sortie.yaml:11:5: tankers.0.maximumMach: is missing (Mach: write a number and its unit, in quotation marks or plain (Mach))',
        'sortie.yaml:18:11: tankers.0.rate: rate of transfer "3000 kg": "kg" does not measure it; write kg/s, kg/min, kg/h, t/h, lb/s, lb/min or lb/h',
        'sortie.yaml:21:5: legs.0.flies: unknown key "flies"',
        'sortie.yaml:23:9: legs.0.fly.0: a step is climb, pushover, cruise or descend',
        'sortie.yaml:24:55: legs.0.fly.1.climb.equivalentAirspeed: equivalent airspeed "-5 KEAS": must be at least 0 KEAS',
        'sortie.yaml:24:85: legs.0.fly.1.climb.to: write optimum or a pressure altitude such as 72000 ft',
        'sortie.yaml:27:13: legs.0.refuel.take: write full or a mass such as 20000 kg',
        'sortie.yaml:28:18: legs.0.refuel.noContact.descent: is missing (equivalent airspeed: write a number and its unit, in quotation marks or plain (m/s, km/h, ft/s, kt, KEAS, m/s EAS))',
        'sortie.yaml:30:3: reserves.approach: is missing (write { fuel, time })',
        'sortie.yaml:33:9: altitudeGrid.fuel: write two values or more',
      ].sort(),
    );
  });

  it('[SORTIE-2] tells all names that mean nothing and numbers that do not go together, by line and path', () => {
    const text = change(
      longLoopText,
      ['tail: SM-2', 'tail: SM-9'],
      ['fuel: 14000 kg', 'fuel: 54000 kg'],
      ['time: 2026-02-23T15:30Z', 'time: 2026-02-23T18:30Z'],
      ['base: Harrow Flat', 'base: Sparrow'],
      ['power: military', 'power: dry'],
      ['calibratedAirspeed: 350 KCAS', 'calibratedAirspeed: 350 KCAS, equivalentAirspeed: 300 KEAS'],
      ['divert: Harrow Flat', 'divert: Larkmoor'],
      ['angle: -7 deg', 'angle: 7 deg'],
      ['tanker: Ewer Two', 'tanker: Ewer Six'],
      ['land: Harrow Flat', 'land: Nowhere'],
      ['inletTemperature: 5 K', 'inletTemperature: 5 kt, oil: 3 K'],
    );
    const expected: readonly (readonly [part: string, path: string, says: string])[] = [
      ['tail: SM-9', 'aircraft.tail', 'the deck is valid for SM-1, SM-2, SM-3, not for SM-9'],
      ['fuel: 54000', 'aircraft.fuel', '54000 kg is more than the tanks hold, 38500 kg'],
      ['time: 2026-02-23T18', 'takeOff.time', 'the take-off is not between "from" and "to"'],
      [
        'base: Sparrow',
        'takeOff.base',
        'there is no base "Sparrow"; there are Harrow Flat, Curlew Ridge, Otter Bluff',
      ],
      ['power: dry', 'legs.0.fly.0.climb.power', 'the deck has no power "dry"; it has idle, part, military,'],
      [
        'equivalentAirspeed: 300',
        'legs.0.fly.0.climb',
        'either "calibratedAirspeed" or "equivalentAirspeed"',
      ],
      ['divert: Larkmoor', 'legs.0.refuel.noContact.divert', 'there is no base "Larkmoor"'],
      ['angle: 7 deg', 'legs.1.fly.1.pushover.angle', 'the path angle of a pushover is negative'],
      [
        'tanker: Ewer Six',
        'legs.1.refuel.tanker',
        'there is no tanker "Ewer Six"; there are Ewer One, Ewer Two',
      ],
      ['land: Nowhere', 'legs.2.land', 'there is no base "Nowhere"'],
      ['inletTemperature: 5 kt', 'pads.inletTemperature', '"5 kt": "kt" does not measure it; write K'],
      ['oil: 3 K', 'pads.oil', 'the deck has no limit "oil"; it has mach, inletTemperature,'],
    ];
    const faults = faultsOf(text);
    expect(faults).toHaveLength(expected.length);
    for (const [part, path, says] of expected) {
      const fault = faults.find((line) => line.includes(`: ${path}: `) && line.includes(says));
      expect(fault, path).toMatch(new RegExp(`^sortie\\.yaml:${lineOf(text, part)}:\\d+: `));
    }
  });

  it.each([
    [
      'a leg with two ends',
      [
        'land: Harrow Flat',
        'land: Harrow Flat\n    refuel: { tanker: Ewer Two, take: full, noContact: { divert: Harrow Flat, mach: 0.8 Mach, altitude: 30000 ft, climb: 330 KCAS, descent: 300 KEAS } }',
      ],
      'legs.2: a leg ends with either "refuel" or "land"',
    ],
    [
      'a landing in the middle',
      [/refuel:\n {6}tanker: Ewer One[\s\S]*?\n\n/, 'land: Harrow Flat\n\n'],
      'legs.0.land: only the last leg lands',
    ],
    [
      'a bleed of calibrated airspeed',
      ['mach: 0.78 Mach, to', 'mach: 0.78 Mach, bleed: { above: 0.7 Mach, perMach: 10 KEAS }, to'],
      'legs.0.fly.0.climb.bleed: "bleed" goes with "equivalentAirspeed"',
    ],
    [
      'a leg that flies nothing',
      [/fly:\n {6}- climb: \{ power: military.*\n.*cruise.*\n/, 'fly: []\n'],
      'legs.0.fly: a leg flies at least one step',
    ],
    ['a value in two kinds', ['430 KEAS', '430 KCAS'], 'equivalent airspeed "430 KCAS"'],
    [
      'a step of the crew at no moment',
      [/at: disconnect/, 'at: noon'],
      'checklist.0.at: write disconnect, burner, dragRise, inletStart, levelOff or a Mach such as 1.5 Mach',
    ],
    [
      'a step of the crew at two moments',
      [/at: disconnect/, 'at: disconnect, before: burner'],
      'checklist.0: a step has either "at" or "before"',
    ],
    [
      'a step of the crew on no leg',
      ['leg: Northern loop, text', 'leg: Southern loop, text'],
      'checklist.4.leg: there is no leg "Southern loop"; there are To Ewer One, Northern loop,',
    ],
    [
      'a step of the crew that fills a page',
      [/text: "Tanker in sight/, `text: "${'see '.repeat(30)}`],
      'checklist.0.text: has more than 110 characters: it stands in one row of a card',
    ],
    [
      'a check of nothing',
      ['checklist:', 'checks: [{ of: oil, within: 3 K }]\nchecklist:'],
      'checks.0.of: "oil" is none of fuelFlow, centreOfGravity, fuel, inletTemperature, staticTemperature, nozzle, ramp',
    ],
    [
      'a tolerance that does not measure',
      ['checklist:', 'checks: [{ of: ramp, within: 3 K }]\nchecklist:'],
      'checks.0.within: angle "3 K": "K" does not measure it; write rad or deg',
    ],
  ] as const)('[SORTIE-3] %s', (_name, [from, to], says) => {
    const faults = faultsOf(change(longLoopText, [from, to]));
    expect(faults.join('\n')).toContain(says);
  });

  it('[SORTIE-4] is told as what it is when it is not YAML', () => {
    const faults = faultsOf('format: ramrise-sortie\nlegs: [ {');
    expect(faults.length).toBeGreaterThan(0);
    expect(faults[0]).toMatch(/^sortie\.yaml:\d+:\d+: /);
  });
});

describe('a sortie file without faults', () => {
  it('[SORTIE-5] comes out in SI and radians, with what is left out as the page of its format says', () => {
    const { sortie } = requestOf(longLoopText);
    expect(sortie.aircraft).toEqual({
      tail: 'SM-2',
      fuelKg: 14_000,
      fuelTemperatureK: 285.15,
      fuelDensityKgM3: null,
    });
    expect(sortie.takeOff.timeS).toBe(Date.UTC(2026, 1, 23, 15, 30) / 1000);
    const [one] = sortie.tankers;
    expect(one.pressureAltitudeM).toBeCloseTo(24_000 * 0.3048, 9);
    expect(one.calibratedAirspeedMS).toBeCloseTo((320 * 1852) / 3600, 9);
    expect(one.courseRad).toBeCloseTo(Math.PI / 3, 12);
    expect(one.latitudeRad).toBeCloseTo((34.6 * Math.PI) / 180, 12);
    expect(one.longitudeRad).toBeCloseTo((-91.6 * Math.PI) / 180, 12);
    expect(one.rateKgS).toBeCloseTo(50, 12);
    expect(sortie.legs[0].fly[0]).toMatchObject({ kind: 'climb', levelOffLoadFactor: 0.9, bleed: null });
    const plain = requestOf(
      change(longLoopText, [/ladder:.*\n/, ''], [/pads:.*\n/, ''], [/, level: 15 nm/, '']),
    );
    expect(plain.sortie.ladderEveryS).toBe(600);
    expect(plain.sortie.pads).toEqual({});
    expect(plain.sortie.legs[1].fly.at(-1)).toMatchObject({ kind: 'descend', levelM: 10_000 });
    expect(plain.sortie.legs[1].fly.at(-1)).toMatchObject({ power: sandmartin.propulsion.descent });
  });

  it('[SORTIE-6] fits the JSON Schema that editors get, and one with a key too many or too few does not', () => {
    const schema = z.fromJSONSchema(sortieJsonSchema() as Parameters<typeof z.fromJSONSchema>[0]);
    for (const text of [longLoopText, warmDayText]) {
      const written = parse(text);
      expect(schema.safeParse(written).success).toBe(true);
      expect(schema.safeParse({ ...written, extra: 1 }).success).toBe(false);
      expect(schema.safeParse({ ...written, reserves: undefined }).success).toBe(false);
      expect(schema.safeParse({ ...written, version: 2 }).success).toBe(false);
    }
  });
});
