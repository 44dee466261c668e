/**
 * The one table of quantities. Headers, charts, messages, schemas and the keys of JSON and CSV files are taken from it.
 *
 * A key ends in its SI unit (`fuelKg`), angles in Deg because files carry degrees; `siUnit` is the unit held in memory
 * (radians for angles).
 */
import type { Dimension } from './units.ts';

export interface Quantity {
  readonly key: string;
  readonly symbol: string;
  /** In words, as a message or a header begins it. */
  readonly name: string;
  readonly dimension: Dimension;
  readonly siUnit: string;
  /** Unit shown where the aircraft's gauges do not say otherwise, and decimals in it. */
  readonly displayUnit: string;
  readonly decimals: number;
  /** The soft kind, where the unit is shared with confusable quantities. */
  readonly kind: string | null;
  /** SI values that can be at all; null where every number can. */
  readonly range: readonly [number, number] | null;
  readonly sentence: string;
}

type Row = [
  key: string,
  symbol: string,
  name: string,
  dimension: Dimension,
  siUnit: string,
  displayUnit: string,
  decimals: number,
  kind: string | null,
  range: [number, number] | null,
  sentence: string,
];

const positive: [number, number] = [0, Infinity];
const turn = Math.PI * 2;

// biome-ignore format: one line a quantity
const rows: readonly Row[] = [
  ['mach', 'M', 'Mach', 'mach', '1', 'Mach', 3, 'Mach', [0, 10], 'True airspeed over the local speed of sound with gamma 1.4.'],
  ['calibratedAirspeedMS', 'VC', 'calibrated airspeed', 'speed', 'm/s', 'KCAS', 0, 'calibrated airspeed', positive, 'Sea-level standard speed of the same impact pressure.'],
  ['equivalentAirspeedMS', 'VE', 'equivalent airspeed', 'speed', 'm/s', 'KEAS', 0, 'equivalent airspeed', positive, 'Sea-level standard speed of the same dynamic pressure.'],
  ['trueAirspeedMS', 'V', 'true airspeed', 'speed', 'm/s', 'KTAS', 0, 'true airspeed', positive, 'Speed through the air.'],
  ['groundSpeedMS', 'VG', 'ground speed', 'speed', 'm/s', 'kt GS', 0, 'ground speed', positive, 'Horizontal speed over the Earth.'],
  ['windSpeedMS', 'W', 'wind speed', 'speed', 'm/s', 'kt', 0, 'wind', null, 'Speed of the air over the Earth.'],
  ['windEastMS', 'WE', 'wind to the east', 'speed', 'm/s', 'kt', 0, 'wind', null, 'Eastward component of the wind, positive where the air goes east.'],
  ['windNorthMS', 'WN', 'wind to the north', 'speed', 'm/s', 'kt', 0, 'wind', null, 'Northward component of the wind, positive where the air goes north.'],
  ['climbRateMS', 'dh/dt', 'rate of climb', 'vertical speed', 'm/s', 'ft/min', 0, 'rate of climb', null, 'Rate of change of pressure altitude.'],
  ['speedOfSoundMS', 'a', 'speed of sound', 'speed', 'm/s', 'kt', 1, 'speed of sound', positive, 'sqrt(1.4 R T).'],
  ['pressureAltitudeM', 'Hp', 'pressure altitude', 'length', 'm', 'ft', 0, 'pressure altitude', null, 'Geopotential height at which the standard atmosphere has the same pressure.'],
  ['geopotentialHeightM', 'H', 'geopotential height', 'length', 'm', 'ft', 0, 'geopotential height', null, 'Geopotential over standard gravity.'],
  ['geometricHeightM', 'h', 'geometric height', 'length', 'm', 'ft', 0, 'geometric height', null, 'Height above mean sea level or the ellipsoid.'],
  ['energyHeightM', 'hE', 'energy height', 'length', 'm', 'ft', 0, 'energy height', null, 'Height plus V^2/2g: the height a zoom without loss would reach.'],
  ['distanceM', 's', 'distance', 'length', 'm', 'nm', 1, 'distance', null, 'Distance along the ellipsoid.'],
  ['rangeM', 'R', 'range', 'length', 'm', 'nm', 0, 'distance', positive, 'Distance that can be flown.'],
  ['lengthM', 'l', 'length', 'length', 'm', 'm', 2, 'length', null, 'A length of the aircraft or the ground.'],
  ['armM', 'x', 'arm', 'length', 'm', 'm', 2, 'length', null, 'Distance aft of the datum of the deck, or to the right of the centre line.'],
  ['radiusM', 'r', 'turn radius', 'length', 'm', 'nm', 1, 'distance', positive, 'Radius of a turn over the ground.'],
  ['areaM2', 'S', 'area', 'area', 'm2', 'm2', 1, null, positive, 'Reference area of the wing.'],
  ['volumeM3', 'vol', 'volume', 'volume', 'm3', 'L', 0, null, positive, 'Volume of a tank or of fuel.'],
  ['timeS', 't', 'time', 'time', 's', 'min', 1, null, null, 'Time from the start.'],
  ['durationS', 'dt', 'duration', 'time', 's', 'min', 1, null, positive, 'Length of time.'],
  ['latitudeDeg', 'phi', 'latitude', 'angle', 'rad', 'deg', 4, null, [-turn / 4, turn / 4], 'Geodetic latitude, WGS 84, north positive.'],
  ['longitudeDeg', 'lambda', 'longitude', 'angle', 'rad', 'deg', 4, null, [-turn, turn], 'Longitude, WGS 84, east positive.'],
  ['courseDeg', 'chi', 'true course', 'angle', 'rad', 'deg', 1, null, [-turn, turn], 'Direction over the ground from true north, clockwise.'],
  ['headingDeg', 'psi', 'true heading', 'angle', 'rad', 'deg', 1, null, [-turn, turn], 'Direction of the nose from true north, clockwise.'],
  ['bankDeg', 'mu', 'bank', 'angle', 'rad', 'deg', 1, null, [-turn / 4, turn / 4], 'Bank, positive to the right.'],
  ['angleOfAttackDeg', 'alpha', 'angle of attack', 'angle', 'rad', 'deg', 1, null, [-turn / 4, turn / 4], 'Angle of the body axis to the airspeed.'],
  ['pathAngleDeg', 'gamma', 'path angle', 'angle', 'rad', 'deg', 1, null, [-turn / 4, turn / 4], 'Angle of the flight path above the horizontal.'],
  ['angleDeg', 'angle', 'angle', 'angle', 'rad', 'deg', 1, null, null, 'An angle.'],
  ['perAnglePerRad', 'd/da', 'slope against angle', 'per angle', '1/rad', '1/rad', 3, null, null, 'Change of a coefficient for each radian.'],
  ['rollRateDegS', 'p', 'roll rate', 'angular rate', 'rad/s', 'deg/s', 1, null, null, 'Rate of change of bank.'],
  ['turnRateDegS', 'chi dot', 'turn rate', 'angular rate', 'rad/s', 'deg/s', 2, null, null, 'Rate of change of course.'],
  ['temperatureK', 'T', 'static temperature', 'temperature', 'K', 'degC', 1, 'static temperature', positive, 'Temperature of the undisturbed air.'],
  ['totalTemperatureK', 'Tt', 'total temperature', 'temperature', 'K', 'degC', 1, 'total temperature', positive, 'Temperature of air brought to rest without loss of heat, thermally perfect.'],
  ['inletTemperatureK', 'Ti', 'inlet temperature', 'temperature', 'K', 'degC', 0, 'indicated temperature', positive, 'Inlet temperature as the gauge reads it, with the recovery of its probe.'],
  ['fuelTemperatureK', 'Tf', 'fuel temperature', 'temperature', 'K', 'degC', 0, null, positive, 'Temperature of the fuel.'],
  ['temperatureOffsetK', 'dT', 'temperature offset', 'temperature difference', 'K', 'K', 1, null, null, 'Static temperature less that of the standard atmosphere at the same pressure altitude.'],
  ['pressurePa', 'p', 'static pressure', 'pressure', 'Pa', 'hPa', 2, 'static pressure', positive, 'Pressure of the undisturbed air.'],
  ['totalPressurePa', 'pt', 'total pressure', 'pressure', 'Pa', 'hPa', 1, 'total pressure', positive, 'Pressure of air brought to rest without loss, thermally perfect.'],
  ['dynamicPressurePa', 'q', 'dynamic pressure', 'pressure', 'Pa', 'kPa', 2, 'dynamic pressure', positive, 'rho V^2 / 2.'],
  ['impactPressurePa', 'qc', 'impact pressure', 'pressure', 'Pa', 'kPa', 2, 'impact pressure', positive, 'Pitot less static pressure.'],
  ['densityKgM3', 'rho', 'density', 'density', 'kg/m3', 'kg/m3', 4, null, positive, 'Density of the air.'],
  ['fuelDensityKgM3', 'rhoF', 'fuel density', 'density', 'kg/m3', 'kg/m3', 0, null, positive, 'Density of the fuel.'],
  ['viscosityPaS', 'mu', 'viscosity', 'viscosity', 'Pa s', 'Pa s', 8, null, positive, 'Dynamic viscosity of the air.'],
  ['massKg', 'm', 'mass', 'mass', 'kg', 'kg', 0, null, positive, 'Mass of the whole aircraft.'],
  ['fuelKg', 'F', 'fuel', 'mass', 'kg', 'kg', 0, null, null, 'Mass of fuel.'],
  ['fuelFlowKgS', 'f', 'fuel flow', 'mass flow', 'kg/s', 'kg/min', 0, null, positive, 'Rate at which fuel is burnt.'],
  ['fuelRateKgS', 'f', 'rate of transfer', 'mass flow', 'kg/s', 'kg/min', 0, null, positive, 'Rate at which fuel is passed or dumped.'],
  ['airFlowKgS', 'w', 'air flow', 'mass flow', 'kg/s', 'kg/s', 1, null, positive, 'Rate at which air passes an engine.'],
  ['fuelPerDistanceKgM', 'f/V', 'fuel for distance', 'fuel per distance', 'kg/m', 'kg/nm', 2, null, positive, 'Fuel burnt for each unit of distance.'],
  ['brakeEnergyJ', 'E', 'brake energy', 'energy', 'J', 'MJ', 1, null, positive, 'Work of the wheel brakes in one stop.'],
  ['thrustN', 'T', 'thrust', 'force', 'N', 'kN', 1, null, null, 'Net thrust.'],
  ['dragN', 'D', 'drag', 'force', 'N', 'kN', 1, null, null, 'Force along the airspeed, backward.'],
  ['liftN', 'L', 'lift', 'force', 'N', 'kN', 1, null, null, 'Force normal to the airspeed.'],
  ['specificFuelKgNS', 'sfc', 'specific fuel consumption', 'thrust-specific fuel flow', 'kg/(N s)', 'kg/(N h)', 3, null, positive, 'Fuel flow for each newton of thrust.'],
  ['accelerationMS2', 'a', 'acceleration', 'acceleration', 'm/s2', 'm/s2', 2, null, null, 'Rate of change of speed.'],
  ['onsetPerS', 'n dot', 'onset of load factor', 'rate', '1/s', '1/s', 2, null, null, 'Rate of change of load factor.'],
  ['specificExcessPowerMS', 'Ps', 'specific excess power', 'vertical speed', 'm/s', 'ft/min', 0, 'specific excess power', null, 'Rate of change of energy height.'],
  ['loadFactor', 'n', 'load factor', 'ratio', '1', 'g', 2, null, null, 'Lift over weight.'],
  ['liftCoefficient', 'CL', 'lift coefficient', 'ratio', '1', '1', 3, null, null, 'Lift over dynamic pressure and reference area.'],
  ['dragCoefficient', 'CD', 'drag coefficient', 'ratio', '1', '1', 4, null, null, 'Drag over dynamic pressure and reference area.'],
  ['cgFraction', 'xCG', 'centre of gravity', 'ratio', '1', '%', 1, null, null, 'Centre of gravity as a fraction of the mean chord.'],
  ['recovery', 'r', 'recovery', 'ratio', '1', '1', 3, null, [0, 1], 'Total pressure behind the inlet over that ahead, or recovery factor of a probe.'],
  ['frictionCoefficient', 'mu', 'friction coefficient', 'ratio', '1', '1', 3, null, [0, 1], 'Friction along the runway over the weight on the wheels.'],
  ['fraction', 'x', 'fraction', 'ratio', '1', '%', 1, null, null, 'A number without a unit.'],
  ['power', 'power', 'power', 'ratio', '1', '1', 2, null, null, 'Place on the ladder of power settings.'],
];

/** Every quantity, by key. */
export const quantities: ReadonlyMap<string, Quantity> = new Map(
  rows.map(([key, symbol, name, dimension, siUnit, displayUnit, decimals, kind, range, sentence]) => [
    key,
    { key, symbol, name, dimension, siUnit, displayUnit, decimals, kind, range, sentence },
  ]),
);

/** The quantity of a key; a key that is not in the table is a fault of the program. */
export function quantity(key: string): Quantity {
  const found = quantities.get(key);
  if (!found) throw new Error(`the table of quantities has no key "${key}"`);
  return found;
}
