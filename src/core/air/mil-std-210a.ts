/**
 * The hot, cold, tropical and polar days of MIL-STD-210A (1957), 0 to 100 000 ft of pressure altitude, without wind.
 *
 * Temperatures in degrees Rankine as in hotcold.f90 of Public Domain Aeronautical Software (R. Carmichael), which a second
 * copy from ASC-TR-93-5002 (Zuppardo, 1993) confirms to 0.13 degR, but for the tropical day from 74 000 ft, where that is up
 * to 1.9 degR warmer. Linear in altitude between the rows.
 *
 * The hot and the cold day have the standard pressure at each height: they are no columns of air that could stand, and the
 * standard says that they cannot be used for engine and aircraft performance in transient climb. The tropical and the polar
 * day are homogeneous atmospheres meant for it: heights follow from H = integral of T/Tstandard dHp, 0 at 1013.25 hPa.
 */
import { type Air, type Day, HEIGHT, TEMPERATURE } from './day.ts';
import { fillAir, withinRange } from './fill.ts';
import { layerBaseM, layerLapseKM, standardLayer, standardTemperature } from './standard.ts';
import { newStandardPoint, standardPoint } from './standard-point.ts';

export const nonStandardDays = ['hot', 'cold', 'tropical', 'polar'] as const;
export type NonStandardDay = (typeof nonStandardDays)[number];

const thousandFeet = [0, 5, 10, 15, 20, 25, 30, 35, 36, 40, 45, 50, 55, 60, 70, 80, 90, 100];
const rankine: Readonly<Record<NonStandardDay, readonly number[]>> = {
  hot: [
    562.7, 543.4, 523.6, 504.6, 485.2, 466.4, 447.4, 429.6, 426.3, 414.9, 417.1, 419.5, 420.6, 421.5, 425.0,
    432.0, 439.9, 448.1,
  ],
  cold: [
    399.7, 444.7, 444.7, 430.6, 413.6, 395.8, 377.4, 374.7, 374.7, 374.7, 361.1, 336.8, 334.7, 334.7, 359.2,
    363.8, 360.0, 355.8,
  ],
  tropical: [
    549.5, 530.1, 510.7, 491.3, 472.0, 452.7, 433.4, 414.1, 410.2, 395.1, 376.9, 359.6, 350.7, 361.7, 384.2,
    397.4, 410.9, 424.3,
  ],
  polar: [
    444.0, 453.0, 450.0, 435.9, 421.7, 407.4, 393.0, 391.4, 391.2, 390.1, 388.8, 387.5, 386.2, 385.0, 382.4,
    379.8, 378.3, 378.3,
  ],
};
const hydrostaticDays: readonly NonStandardDay[] = ['tropical', 'polar'];

/** A piece of a column in which the temperature of the day and that of the standard day are both linear. */
interface Piece {
  readonly fromM: number;
  readonly temperatureK: number;
  readonly lapseKM: number;
  readonly standardK: number;
  readonly standardLapseKM: number;
  /** Geopotential height of its lower end. */
  readonly heightM: number;
}

const days = new Map<NonStandardDay, Day>();

/** One of the four days. Its column is the same everywhere and always. */
export function nonStandardDay(name: NonStandardDay): Day {
  const known = days.get(name);
  if (known) return known;
  const made = makeDay(name);
  days.set(name, made);
  return made;
}

function makeDay(name: NonStandardDay): Day {
  const hydrostatic = hydrostaticDays.includes(name);
  const pieces = piecesOf(rankine[name]);
  const starts = Float64Array.from(pieces, (piece) => piece.fromM);
  const topM = thousandFeet[thousandFeet.length - 1] * 304.8;
  const standard = newStandardPoint();
  return {
    description: {
      kind: 'non-standard',
      title: `MIL-STD-210A ${name} day`,
      attribution: [],
      continuedBy: [],
      hydrostatic,
    },
    levelsM: [],
    steady: true,
    timesS: [],
    covers: 'any place and time, 0 to 100000 ft of pressure altitude',
    sample(_latitudeRad, _longitudeRad, pressureAltitudeM, _timeS, air) {
      const altitude = withinRange(pressureAltitudeM, 0, topM, air);
      standardPoint(altitude, standard);
      const piece = pieces[pieceAt(starts, altitude)];
      const past = altitude - piece.fromM;
      const temperature = piece.temperatureK + piece.lapseKM * past;
      const geopotential = hydrostatic ? piece.heightM + thickness(piece, past) : altitude;
      const stretch = fillAir(air, standard, temperature, geopotential);
      clear(air);
      air.upward[TEMPERATURE] = piece.lapseKM;
      air.upward[HEIGHT] = stretch * stretch * (hydrostatic ? temperature / standard.temperatureK : 1);
    },
  };
}

/** The rows of a day, cut at the layers of the standard atmosphere too. */
function piecesOf(degR: readonly number[]): Piece[] {
  const rows = thousandFeet.map((value) => value * 304.8);
  const top = rows[rows.length - 1];
  const nodes = [...rows, ...layerBaseM.filter((base) => base > 0 && base < top)].sort((a, b) => a - b);
  const pieces: Piece[] = [];
  let heightM = 0;
  for (let i = 0; i + 1 < nodes.length; i++) {
    const fromM = nodes[i];
    const row = rows.findLastIndex((altitude) => altitude <= fromM);
    const lapseKM = (degR[row + 1] - degR[row]) / 1.8 / (rows[row + 1] - rows[row]);
    const piece = {
      fromM,
      temperatureK: degR[row] / 1.8 + lapseKM * (fromM - rows[row]),
      lapseKM,
      standardK: standardTemperature(fromM),
      standardLapseKM: layerLapseKM[standardLayer(fromM)],
      heightM,
    };
    pieces.push(piece);
    heightM += thickness(piece, nodes[i + 1] - fromM);
  }
  return pieces;
}

/** Integral of (T + L x)/(Ts + Ls x) from the lower end of a piece, in geopotential metres. */
function thickness(piece: Piece, pastM: number): number {
  const { temperatureK, lapseKM, standardK, standardLapseKM } = piece;
  if (standardLapseKM === 0) return (pastM * (temperatureK + 0.5 * lapseKM * pastM)) / standardK;
  const ratio = lapseKM / standardLapseKM;
  const rest = (temperatureK - ratio * standardK) / standardLapseKM;
  return ratio * pastM + rest * Math.log1p((standardLapseKM * pastM) / standardK);
}

function pieceAt(starts: Float64Array, altitudeM: number): number {
  let piece = starts.length - 1;
  while (piece > 0 && starts[piece] > altitudeM) piece--;
  return piece;
}

function clear(air: Air): void {
  air.windEastMS = 0;
  air.windNorthMS = 0;
  air.upward.fill(0);
  air.eastward.fill(0);
  air.northward.fill(0);
  air.perSecond.fill(0);
}
