import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  highestAltitudeM,
  layerBaseM,
  layerLapseKM,
  lowestAltitudeM,
  standardLayer,
  standardLogPressure,
  standardPressure,
  standardTemperature,
} from '../../../src/core/air/standard.ts';
import { newStandardPoint, standardPoint } from '../../../src/core/air/standard-point.ts';

describe('the standard atmosphere in pieces', () => {
  it('[AIR-7] agrees with the atmosphere to 2e-10 from end to end', () => {
    const point = newStandardPoint();
    const agree = (altitude: number) => {
      standardPoint(altitude, point);
      expect(Math.abs(point.temperatureK / standardTemperature(altitude) - 1)).toBeLessThan(1e-14);
      expect(point.lapseKM).toBe(layerLapseKM[standardLayer(altitude)]);
      expect(Math.abs(point.pressurePa / standardPressure(altitude) - 1)).toBeLessThan(2e-10);
      expect(Math.abs(point.logPressure - standardLogPressure(altitude))).toBeLessThan(2e-11);
    };
    for (const altitude of [
      ...layerBaseM,
      lowestAltitudeM,
      highestAltitudeM,
      -0,
      -5000.1,
      84899 - 99,
      84851.9,
    ])
      agree(altitude);
    fc.assert(fc.property(fc.double({ min: lowestAltitudeM, max: highestAltitudeM, noNaN: true }), agree), {
      numRuns: 2000,
    });
  });
});
