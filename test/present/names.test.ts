import { describe, expect, test } from 'vitest';
import { eventName, keyWords, lowerFirst, phaseName } from '../../src/present/names.ts';
import { plainSpaces } from '../../src/present/units.ts';
import { testPlan } from '../support/plan.ts';

describe('names', () => {
  test('[SHOW-14] inside a sentence begin with a small letter, but Mach keeps its own', () => {
    expect(['Stall warning', 'Mach', 'EAS'].map(lowerFirst)).toEqual(['stall warning', 'Mach', 'EAS']);
  });

  test('[SHOW-11] an event is named by what happens: a limit by its name, a contact and its end by the tanker', () => {
    const named = (kind: string, name: string) => plainSpaces(eventName(testPlan(), { kind, name }));
    expect(named('limit', 'inletTemperature')).toBe('inlet temperature');
    expect(named('contact', 'Ewer One')).toBe('contact with Ewer One');
    expect(named('disconnect', 'Ewer One')).toBe('disconnect from Ewer One');
    expect(named('cruise', 'cruise at Mach 2.85')).toBe('cruise at M 2.85');
  });

  test('[SHOW-9] speeds in the name of a phase are shown on the gauges, with their kind (1 kt is 1852/3600 m/s)', () => {
    const shown = (name: string) => plainSpaces(phaseName(testPlan(), name));
    expect(shown('Descent at EAS 174.9 m/s')).toBe('Descent at 340 KEAS');
    expect(shown('Climb at CAS 180.1 m/s')).toBe('Climb at 350 KCAS');
    expect(shown('Climb at EAS 221.2 m/s less 30.9 m/s per Mach above 2.5')).toBe(
      'Climb at 430 KEAS less 60 KEAS per Mach above 2.5',
    );
    expect(shown('Cruise at Mach 2.85')).toBe('Cruise at M 2.85');
    expect(shown('Contact with Ewer One')).toBe('Contact with Ewer One');
  });

  test('[SHOW-10] keys become words, and names begin small inside a sentence', () => {
    expect(keyWords('maximumAfterburner')).toBe('maximum afterburner');
    expect(keyWords('thrust')).toBe('thrust');
    expect(lowerFirst('Inlet temperature')).toBe('inlet temperature');
    expect(lowerFirst('EAS limit')).toBe('EAS limit');
  });
});
