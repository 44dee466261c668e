/** US Standard Atmosphere 1976: layers, rows by geometric and by pressure altitude. Sources in the heads of the files. */
import {
  density,
  dynamicViscosity,
  geometricFromGeopotential,
  geopotentialFromGeometric,
  layerBaseM,
  layerLapseKM,
  pressureAltitudeOf,
  speedOfSound,
  standardLayer,
  standardPressure,
  standardTemperature,
} from '../../../src/core/air/standard.ts';
import { PublishedTable } from './csv.ts';
import { type CheckResult, printedTo, Tally } from './tally.ts';

export function checkLayers(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'us-standard-atmosphere-1976-layers');
  const tally = new Tally(table.name);
  for (const row of table.rows) {
    const base = row.need('baseGeopotential');
    const name = `${base} m`;
    tally.relative('base pressure', row.si('basePressure'), () => standardPressure(base), name);
    tally.absolute('base temperature', 'K', row.si('baseTemperature'), () => standardTemperature(base), name);
    tally.absolute('lapse', 'K/m', row.si('lapse'), () => layerLapseKM[standardLayer(base)], name);
    tally.absolute('layer base', 'm', base, () => layerBaseM[row.number - 1], name);
  }
  return tally.results(
    {
      'base pressure': printedTo(8),
      'base temperature': { mean: 1e-9, max: 1e-9, reason: 'sum of exact products' },
      lapse: { mean: 0, max: 0, reason: 'definition' },
      'layer base': { mean: 0, max: 0, reason: 'definition' },
    },
    table,
  );
}

export function checkByGeometric(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'us-standard-atmosphere-1976');
  const tally = new Tally(table.name);
  for (const row of table.rows) {
    const geometric = row.need('geometricAltitude');
    const name = `${geometric} m (${row.text('table')})`;
    // In the standard atmosphere geopotential and pressure altitude are one.
    const height = (): number => geopotentialFromGeometric(geometric);
    const temperature = () => standardTemperature(height());
    const pressure = () => standardPressure(height());
    const computed = {
      Temperature: temperature,
      Pressure: pressure,
      Density: () => density(pressure(), temperature()),
      SpeedOfSound: () => speedOfSound(temperature()),
      Viscosity: () => dynamicViscosity(temperature()),
    };
    const geopotential = row.si('geopotentialAltitude');
    tally.absolute('geopotential', 'm', geopotential, height, name);
    if (geopotential !== null) {
      tally.absolute('geometric', 'm', geometric, () => geometricFromGeopotential(geopotential), name);
    }
    for (const [quantity, compute] of Object.entries(computed)) {
      const column = quantity[0].toLowerCase() + quantity.slice(1);
      tally.relative(column, row.si(column), compute, name);
      tally.relative(`published${quantity}`, row.si(`published${quantity}`), compute, name);
    }
  }
  const nine = printedTo(9);
  const table5 = {
    mean: 4e-5,
    max: 8e-5,
    reason:
      'the manuals print 5 or 6 digits, some cells 3e-5 (ICAO, ISO) or 8e-5 (PDAS) off their own definition',
  };
  return tally.results(
    {
      geopotential: { mean: 5e-5, max: 1.1e-4, reason: 'nine printed digits, 0.0001 m at 10 to 85 km' },
      geometric: { mean: 5e-5, max: 1.2e-4, reason: 'the inverse of the same' },
      temperature: nine,
      pressure: nine,
      density: nine,
      speedOfSound: nine,
      viscosity: nine,
      publishedTemperature: table5,
      publishedPressure: table5,
      publishedDensity: table5,
      publishedSpeedOfSound: table5,
      publishedViscosity: table5,
    },
    table,
  );
}

export function checkByPressureAltitude(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'pressure-altitude');
  const tally = new Tally(table.name);
  const seaLevel = { pressure: 101325, temperature: 288.15 };
  for (const row of table.rows) {
    const altitude = row.need('pressureAltitude');
    const name = `${row.text('pressureAltitude')} ft`;
    const pressure = () => standardPressure(altitude);
    const temperature = () => standardTemperature(altitude);
    tally.absolute('geopotential', 'm', row.si('geopotential'), () => altitude, name);
    tally.relative('temperature', row.si('temperature'), temperature, name);
    const published = row.si('pressure [Pa]');
    tally.relative('pressure', published, pressure, name);
    tally.relative('pressure in lbf/ft2', row.si('pressure [lbf/ft2]'), pressure, name);
    if (published !== null) {
      tally.absolute('altitude of pressure', 'm', altitude, () => pressureAltitudeOf(published), name);
    }
    tally.relative('delta', row.si('delta'), () => pressure() / seaLevel.pressure, name);
    tally.relative('theta', row.si('theta'), () => temperature() / seaLevel.temperature, name);
    const ratio = () => ((pressure() / seaLevel.pressure) * seaLevel.temperature) / temperature();
    tally.relative('sigma', row.si('sigma'), ratio, name);
    tally.relative('speedOfSound', row.si('speedOfSound'), () => speedOfSound(temperature()), name);
  }
  const eight = printedTo(8);
  return tally.results(
    {
      geopotential: { mean: 1e-6, max: 1e-4, reason: 'exact foot, printed to 0.0001 m' },
      'altitude of pressure': {
        mean: 4e-5,
        max: 1e-4,
        reason: 'inverse of a pressure of 9 digits: scale height times 5e-9',
      },
      temperature: { mean: 2e-7, max: 3e-7, reason: 'printed to 0.0001 K' },
      pressure: eight,
      'pressure in lbf/ft2': eight,
      delta: eight,
      theta: eight,
      sigma: eight,
      speedOfSound: eight,
    },
    table,
  );
}
