/**
 * Constants with their source. SI.
 *
 * USSA 1976: US Standard Atmosphere 1976, NOAA-S/T 76-1562, Table 2 (the same values as ISO 2533:1975).
 * WGS 84: NGA.STND.0036 (formerly NIMA TR8350.2), defining parameters.
 */

/** Universal gas constant of USSA 1976, J/(kmol K); not the CODATA value. */
const universalGas1976 = 8314.32;
/** Molar mass of air at sea level, USSA 1976, kg/kmol. */
const molarMassOfAir1976 = 28.9644;

/**
 * Specific gas constant of air, USSA 1976: universal constant over molar mass, 287.053072 J/(kg K). ISO 2533 states
 * 287.05287, which goes with 28.964420 kg/kmol; the difference of 7e-7 is below the digits that either prints.
 */
export const gasConstant = universalGas1976 / molarMassOfAir1976;
/** Ratio of specific heats by the air-data convention, USSA 1976. */
export const gammaAir = 1.4;
/** Standard acceleration of free fall, m/s2 (3rd CGPM, 1901; USSA 1976). */
export const standardGravity = 9.80665;
/** Sea-level pressure of USSA 1976, Pa. */
export const seaLevelPressure = 101325;
/** Sea-level temperature of USSA 1976, K. */
export const seaLevelTemperature = 288.15;
/** Sea-level density of USSA 1976, p/(R T): 1.22499916 kg/m3. */
export const seaLevelDensity = seaLevelPressure / (gasConstant * seaLevelTemperature);
/** Sea-level speed of sound of USSA 1976, sqrt(gamma R T): 340.294108 m/s. */
export const seaLevelSpeedOfSound = Math.sqrt(gammaAir * gasConstant * seaLevelTemperature);
/** Effective Earth radius that turns geopotential into geometric height in USSA 1976, m. */
export const geopotentialRadius = 6356766;
/** Sutherland's law in USSA 1976: beta, kg/(s m K^0.5). */
export const sutherlandBeta = 1.458e-6;
/** Sutherland's law in USSA 1976: S, K. */
export const sutherlandTemperature = 110.4;

/** Equatorial radius of WGS 84, m. */
export const equatorialRadius = 6378137;
/** Flattening of WGS 84. */
export const flattening = 1 / 298.257223563;
/** Gravitational constant times mass of the Earth with its atmosphere, WGS 84, m3/s2. */
export const gravitationalParameter = 3.986004418e14;
/** Rotation rate of the Earth, WGS 84, rad/s. */
export const earthRate = 7.292115e-5;
