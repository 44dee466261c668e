/**
 * `ramrise track` as a user runs it. Expected values: rows of geodesics.csv, which come from Karney's test set for geodesics
 * (DOI 10.5281/zenodo.32156).
 */
import { describe, expect, it } from 'vitest';
import { ramrise, ramriseJson } from './support/ramrise.ts';

interface Track {
  readonly distanceM: number;
  readonly initialBearingDeg: number;
  readonly finalBearingDeg: number;
}

describe('ramrise track', () => {
  it.each([
    ['0.003311913742,0', '0.001762385473,32.846794581273', 3656488.4472191, 90.001862369144, 90.00335835563],
    ['26.010745808687,0', '64.958396828764,0.001576658649', 4328675.605565, 0.001066006762, 0.002258602267],
    [
      '11.748740014024,0',
      '-8.293112205272,0.001363527637',
      2216358.685784,
      179.996037064439,
      179.99607881652,
    ],
  ])('[CLI-10] %s to %s', (from, to, distanceM, initialDeg, finalDeg) => {
    const track = ramriseJson<Track>('track', '--from', from, '--to', to);
    expect(Object.keys(track)).toEqual(['distanceM', 'initialBearingDeg', 'finalBearingDeg']);
    expect(Math.abs(track.distanceM - distanceM)).toBeLessThan(1e-6);
    expect(Math.abs(track.initialBearingDeg - initialDeg)).toBeLessThan(1e-8);
    expect(Math.abs(track.finalBearingDeg - finalDeg)).toBeLessThan(1e-8);
  });

  it('[CLI-11] the same geodesic the other way has bearings from 0 to 360, turned by 180', () => {
    const track = ramriseJson<Track>(
      'track',
      '--from',
      '0.001762385473,32.846794581273',
      '--to',
      '0.003311913742,0',
    );
    expect(Math.abs(track.initialBearingDeg - 270.00335835563)).toBeLessThan(1e-8);
    expect(Math.abs(track.finalBearingDeg - 270.001862369144)).toBeLessThan(1e-8);
  });

  it('[CLI-12] reads both notations alike, and a latitude that begins with a minus', () => {
    const plain = ramriseJson<Track>('track', '--from', '-45.5,-85', '--to', '48.1,-80');
    const lettered = ramriseJson<Track>('track', '--from', '45.5S 85.0W', '--to', '48 06 00N 080 00 00W');
    expect(lettered).toEqual(plain);
  });

  it('[CLI-13] prints nautical miles beside metres', () => {
    // geodesics.csv, first row: 3656488.4472191 m / 1852 = 1974.34581 nm
    const { stdout } = ramrise(
      'track',
      '--from',
      '0.003311913742,0',
      '--to',
      '0.001762385473,32.846794581273',
    );
    expect(stdout).toMatch(/^Distance +1974\.3 nm +3656488\.4 m$/m);
    expect(stdout).toMatch(/^Initial bearing +090\.00 deg true$/m);
  });

  it('[CLI-14] refuses a latitude beyond the pole, naming the option', () => {
    const { code, stderr } = ramrise('track', '--from', '95,-85', '--to', '48.1N 80.0W');
    expect(code).toBe(1);
    expect(stderr).toBe('--from "95,-85": latitude must be -90 to 90 deg\n');
  });
});
