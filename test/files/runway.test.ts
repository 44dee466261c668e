/** Runways of sorties and ground data of decks: what is read, and what is refused with its line. */
import { describe, expect, it } from 'vitest';
import { groundData } from '../../decks/sandmartin/generator/field.ts';
import { type DeckSource, inspectDeck } from '../../src/files/deck.ts';
import { deckFolder } from '../../src/files/deck-folder.ts';
import { Faults, faultText } from '../../src/files/faults.ts';
import { compileSortie, readSortieFile } from '../../src/files/sortie.ts';
import { change, longLoopText, requestOf, sandmartin } from '../support/demo.ts';

type Change = readonly [string | RegExp, string];

const knot = 1852 / 3600;
const withRunway = (runway: string): string =>
  change(longLoopText, [/runway: \{ name: "17"[^}]*\}/, `runway: ${runway}`]);

function sortieFaults(text: string): string[] {
  const faults = new Faults();
  const read = readSortieFile(text, 'sortie.yaml', faults);
  if (read) compileSortie(read, sandmartin, null, faults);
  return faults.list.map((fault) => faultText(fault).replace(/^sortie\.yaml:\d+:\d+: /, ''));
}

function deckFaults(...changes: readonly Change[]): string[] {
  const folder = deckFolder('decks/sandmartin', 'deck');
  const source: DeckSource = {
    name: 'deck',
    read: (file) => {
      const text = folder.read(file);
      return text !== null && file === 'deck.yaml' ? change(text, ...changes) : text;
    },
  };
  return inspectDeck(source).faults.list.map((fault) =>
    faultText(fault).replace(/^deck\/deck\.yaml:\d+:\d+: /, ''),
  );
}

describe('the runway of a base', () => {
  it('[RWY-1] is read in SI, level and dry where that is left out', () => {
    const { takeOff } = requestOf(withRunway('{ name: "17", course: 170 deg, length: 10000 ft }')).sortie;
    const { runway } = takeOff.base;
    expect(runway?.courseRad).toBeCloseTo((170 * Math.PI) / 180, 12);
    expect(runway?.lengthM).toBeCloseTo(3048, 9);
    expect([runway?.slopeFraction, runway?.condition]).toEqual([0, 'dry']);
    expect(takeOff.wind).toBeNull();
  });

  it('[RWY-2] may be left out', () => {
    const { base } = requestOf(change(longLoopText, [/\n {4}runway: \{ name: "17".*/, ''])).sortie.takeOff;
    expect(base.runway).toBeNull();
  });

  it('[RWY-3] is refused without units, with an unknown condition, all faults at once', () => {
    expect(sortieFaults(withRunway('{ name: "17", course: 170, length: 3050, condition: icy }'))).toEqual([
      'bases.0.runway.course: true course 170 has no unit; write one of rad, deg',
      expect.stringMatching(/^bases\.0\.runway\.length: length 3050 has no unit; write one of m, /),
      'bases.0.runway.condition: write dry or wet',
    ]);
  });

  it('[RWY-4] is refused without length or steeper than any', () => {
    expect(sortieFaults(withRunway('{ name: "17", course: 170 deg, length: 0 m, slope: 12 % }'))).toEqual([
      'bases.0.runway.length: a runway of 0 m has no length',
      'bases.0.runway.slope: a slope of 12 % is outside -10 % to 10 % of a runway',
    ]);
  });

  it('[RWY-5] has the wind that a sortie states; one below 0 is refused', () => {
    const stated = (wind: string): string =>
      change(longLoopText, ['  to: 2026-02-23T17:00Z\n', `  to: 2026-02-23T17:00Z\n  wind: ${wind}\n`]);
    const { wind } = requestOf(stated('{ from: 240 deg, speed: 12 kt }')).sortie.takeOff;
    expect(wind?.fromRad).toBeCloseTo((240 * Math.PI) / 180, 12);
    expect(wind?.speedMS).toBeCloseTo(12 * knot, 12);
    expect(sortieFaults(stated('{ from: 240 deg, speed: -5 kt }'))).toEqual([
      'takeOff.wind.speed: a wind speed is not below 0',
    ]);
  });
});

describe('ground data of a deck', () => {
  it('[RWY-6] of Sandmartin are what its generator works out, rounded to the safe side', () => {
    const { ground } = sandmartin;
    const made = groundData();
    expect(ground?.angleOfAttackRad).toBeCloseTo((made.angleOfAttackDeg * Math.PI) / 180, 12);
    expect(ground?.gearDrag).toBe(made.gearDrag);
    expect(ground?.rollingFriction).toBe(made.rollingFriction);
    expect(ground?.brakingFriction).toEqual(made.brakingFriction);
    const within = (value: number | null | undefined, of: number, most: number): void =>
      expect(Math.abs((value ?? 0) / of - 1)).toBeLessThan(most);
    within(ground?.engineOutDrag, made.engineOutDrag, 0.01);
    within(ground?.brakingDrag, made.brakingDrag, 0.01);
    within(ground?.minimumControlSpeedMS, made.minimumControlSpeedMS, 0.005);
    within(ground?.brakeEnergyJ, made.brakeEnergyJ, 0.005);
    within(ground?.tyreSpeedMS, made.tyreSpeedMS, 0.005);
    expect(ground?.tyreSpeedMS).toBeLessThan(made.tyreSpeedMS);
  });

  it('[RWY-7] may be left out', () => {
    expect(deckFaults([/ground:\n(?: {2}.*\n)+/, ''])).toEqual([]);
  });

  it('[RWY-8] are refused where they cannot be, all at once', () => {
    expect(
      deckFaults(
        ['rollingFriction: 0.02', 'rollingFriction: 0.4'],
        ['{ dry: 0.3, wet: 0.15 }', '{ dry: 0.3, wet: 0.35 }'],
        ['gearDrag: 0.022', 'gearDrag: -0.022'],
        ['climbOut: 1.1', 'climbOut: 0.9'],
        ['brakeEnergy: 192 MJ', 'brakeEnergy: 0 MJ'],
      ),
    ).toEqual([
      'ground.brakingFriction.wet: 0.35 is more than the 0.3 of a dry runway',
      'ground.rollingFriction: 0.4 is not less than the 0.35 of braking on a wet runway',
      'ground.gearDrag: -0.022 cannot be: drag is not below 0',
      'ground.climbOut: 0.9 of the lift-off speed: the climb-out is not slower than lift-off',
      'ground.brakeEnergy: must be above 0',
    ]);
  });

  it('[RWY-9] need their units', () => {
    const faults = deckFaults(
      ['tyreSpeed: 238 kt GS', 'tyreSpeed: 238 KCAS'],
      ['reaction: 2 s', 'reaction: 2'],
    );
    expect(faults).toEqual([
      expect.stringMatching(/^ground\.reaction: duration 2 has no unit; write one of s, /),
      expect.stringMatching(/^ground\.tyreSpeed: ground speed "238 KCAS": KCAS is a calibrated airspeed/),
    ]);
  });
});
