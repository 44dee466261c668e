import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPosition, showPosition } from '../../../src/core/quantities/place.ts';
import { readTime, showTime } from '../../../src/core/quantities/time.ts';

const degree = Math.PI / 180;

describe('moments', () => {
  it('[TIME-1] reads UTC and writes it back', () => {
    // 1582473600: 2020-02-23T16:00Z, as the weather file of that hour stores it.
    expect(readTime('2020-02-23T16:00Z')).toBe(1582473600);
    expect(showTime(1582473600)).toBe('2020-02-23T16:00Z');
    expect(showTime(-0.5)).toBe('1969-12-31T23:59:59.5Z');
  });

  it('[TIME-2] agrees with the platform over four centuries', () => {
    fc.assert(
      fc.property(fc.integer({ min: -5e9, max: 8e9 }), (seconds) => {
        const iso = new Date(seconds * 1000).toISOString();
        const expected = iso.replace('.000Z', 'Z').replace(/:00Z$/, 'Z');
        expect(showTime(seconds)).toBe(expected);
        expect(readTime(showTime(seconds))).toBe(seconds);
      }),
    );
  });

  it.each([
    ['2020-02-23T16:00', 'does not say that it is UTC'],
    ['2020-02-30T16:00Z', 'is not in the calendar'],
    ['2021-02-29T00:00Z', 'is not in the calendar'],
    ['2020-02-23T24:00Z', 'is not in the calendar'],
    ['yesterday', 'is not a date and time'],
  ])('[TIME-3] refuses "%s": %s', (text, reason) => {
    expect(() => readTime(text)).toThrow(reason);
  });
});

describe('positions', () => {
  it.each([
    ['45.5,-85', 45.5, -85],
    ['45.5, -85.0', 45.5, -85],
    ['48.1N 80.0W', 48.1, -80],
    ['48 06 30N 080 00 00W', 48 + 6.5 / 60, -80],
    ['48°06′30″S 080°15′E', -(48 + 6.5 / 60), 80.25],
    ['90N 180W', 90, -180],
    ['0,0', 0, 0],
  ])('[PLACE-1] reads "%s"', (text, latitude, longitude) => {
    const place = readPosition(text);
    expect(place.latitudeRad).toBeCloseTo(latitude * degree, 14);
    expect(place.longitudeRad).toBeCloseTo(longitude * degree, 14);
  });

  it.each([
    ['91,0', 'latitude must be -90 to 90 deg'],
    ['10N 181E', 'longitude must be -180 to 180 deg'],
    ['48 60 00N 080 00 00W', 'minutes and seconds must be below 60'],
    ['48.5 30N 80W', 'is not degrees, minutes and seconds'],
    ['45.5', 'is not a latitude and a longitude'],
  ])('[PLACE-2] refuses "%s": %s', (text, reason) => {
    expect(() => readPosition(text)).toThrow(reason);
  });

  it('[PLACE-3] writes what it reads', () => {
    expect(showPosition(readPosition('48.1N 80.0W'))).toBe('48.1000N 080.0000W');
    expect(showPosition(readPosition('-5.25,7'), 2)).toBe('05.25S 007.00E');
  });
});
