import { describe, expect, it } from 'vitest';
import { OUTSIDE_ALTITUDE, OUTSIDE_CG, OUTSIDE_MACH } from '../../../src/core/aircraft/aerodynamics.ts';
import type { AeroPoint } from '../../../src/core/aircraft/aircraft.ts';
import { type DeckSource, loadDeck } from '../../../src/files/deck.ts';
import { deckFolder } from '../../../src/files/deck-folder.ts';

/** The benchmark deck with other tables of the air; `add` goes under aerodynamics in deck.yaml. */
function deckWith(files: Readonly<Record<string, string>>, add = ''): DeckSource {
  const folder = deckFolder('decks/benchmark-interceptor', 'deck');
  return {
    name: 'deck',
    read(file) {
      const text = files[file] ?? folder.read(file);
      return file === 'deck.yaml' && text !== null
        ? text.replace('  drag: drag.csv\n', `  drag: drag.csv\n${add}`)
        : text;
    },
  };
}

const out: AeroPoint = { liftSlope: 0, zeroLiftAngleRad: 0, zeroLiftDrag: 0, inducedFactor: 0, outside: 0 };

describe('aerodynamics', () => {
  const lift =
    'mach [1],liftSlope [1/deg],zeroLiftAngle [deg],dragDueToLift [1]\n0,0.05,-1,0.5\n1,0.06,-2,0.7\n2,0.04,-2,1\n';

  it('[AERO-1] reads slopes per degree and angles in degrees, and interpolates each before dividing', () => {
    const { aerodynamics } = loadDeck(deckWith({ 'lift.csv': lift })).aircraft;
    aerodynamics.at(0.5, 0, 0, 0, out);
    expect(out.liftSlope).toBeCloseTo(0.055 * (180 / Math.PI), 12);
    expect(out.zeroLiftAngleRad).toBeCloseTo((-1.5 * Math.PI) / 180, 12);
    expect(out.inducedFactor).toBeCloseTo(0.6 / (0.055 * (180 / Math.PI)), 12);
  });

  it.each([
    ['pressureAltitude', 1500, 9999],
    ['geometricAltitude', 9999, 1500],
  ])(
    '[AERO-2] takes drag over %s from that height and no other',
    (axis, pressureAltitude, geometricHeight) => {
      const drag = `mach [1],${axis} [m],zeroLiftDrag [1]\n0,0,0.01\n0,3000,0.03\n2,0,0.02\n2,3000,0.06\n`;
      const { aerodynamics } = loadDeck(deckWith({ 'drag.csv': drag })).aircraft;
      aerodynamics.at(1, pressureAltitude, geometricHeight, 0, out);
      expect(out.zeroLiftDrag).toBeCloseTo((0.01 + 0.03 + 0.02 + 0.06) / 4, 12);
      expect(out.outside).toBe(0);
      aerodynamics.at(1, geometricHeight, pressureAltitude, 0, out);
      expect(out.outside).toBe(OUTSIDE_ALTITUDE);
    },
  );

  it('[AERO-3] adds trim drag by Mach and centre of gravity', () => {
    const trim = 'mach [1],centreOfGravity [%],trimFactor [1]\n0,20,0.04\n0,30,0\n2,20,0.08\n2,30,0.02\n';
    const { aerodynamics } = loadDeck(deckWith({ 'trim.csv': trim }, '  trim: trim.csv\n')).aircraft;
    aerodynamics.at(1, 0, 0, 0.3, out);
    const aft = out.inducedFactor;
    aerodynamics.at(1, 0, 0, 0.25, out);
    expect(out.inducedFactor - aft).toBeCloseTo((0.04 + 0.08 + 0 + 0.02) / 4 - 0.01, 12);
    aerodynamics.at(1.9, 0, 0, 0.31, out);
    expect(out.outside).toBe(OUTSIDE_MACH | OUTSIDE_CG);
  });

  it('[AERO-4] gives the angles of warning and push by Mach', () => {
    const stall = 'mach [1],warningAngle [deg],pushAngle [deg]\n0,10,12\n2,6,9\n';
    const { aerodynamics } = loadDeck(deckWith({ 'stall.csv': stall }, '  stall: stall.csv\n')).aircraft;
    expect(aerodynamics.warningAngleRad(1)).toBeCloseTo((8 * Math.PI) / 180, 12);
    expect(aerodynamics.pushAngleRad(0.5)).toBeCloseTo((11.25 * Math.PI) / 180, 12);
  });
});
