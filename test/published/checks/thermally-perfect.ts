/** Thermally perfect dry air: coefficients, properties, total temperature and pressure. */
import { totalTemperatureConstantCp } from '../../../src/core/air/airdata.ts';
import { pressureRatio } from '../../../src/core/air/compressible.ts';
import { dryAir, molarGasConstantGlenn } from '../../../src/core/air/glenn.ts';
import { quickTotalTemperature } from '../../../src/core/air/quick-total.ts';
import { speedOfSound } from '../../../src/core/air/standard.ts';
import {
  enthalpy,
  entropy,
  heatRatio,
  machOfTotalTemperature,
  mixtureGasConstant,
  soundSpeedOfMixture,
  specificHeat,
  staticTemperature,
  temperatureOfEnthalpy,
  temperatureOfEntropy,
  totalPressureRatio,
  totalTemperature,
} from '../../../src/core/air/thermally-perfect.ts';
import { PublishedTable } from './csv.ts';
import { type CheckResult, printedTo, Tally } from './tally.ts';

const letters = ['a1', 'a2', 'a3', 'a4', 'a5', 'a6', 'a7', 'b1', 'b2'];

export function checkGlennCoefficients(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'nasa-glenn-coefficients');
  table.column('heatOfFormation');
  const tally = new Tally(table.name);
  for (const row of table.rows) {
    const name = row.text('species');
    const low = row.need('lowTemperature');
    const high = row.need('highTemperature');
    const species = dryAir.find((candidate) => candidate.name === name);
    const coefficients = letters.map((letter) => row.raw(letter) ?? Number.NaN);
    const where = `${name} from ${low} K`;
    if (species) {
      const held = low < 1000 ? species.cold : species.hot;
      tally.relative('molar mass', row.raw('molarMass'), () => species.molarMass, where);
      letters.forEach((_, i) => {
        const published = coefficients[i];
        tally.add(
          'coefficient',
          'relative',
          published,
          () => held[i],
          published === 0 ? 1 : published,
          where,
        );
      });
      // h(298.15 K) = heat of formation: a check of the coefficients against one another.
      if (low < 298.15 && high > 298.15) {
        const heat = () => molarGasConstantGlenn * 298.15 * enthalpyOverRT(held, 298.15);
        tally.absolute('heat of formation', 'J/mol', row.raw('heatOfFormation'), heat, where);
      }
    } else if (name === 'Air') {
      // The report's own mixture, fitted from 300 K, against the mixture made of the four species.
      for (const t of [low, (low + 2 * high) / 3, high - 1e-6]) {
        tally.relative(
          'cp of Air',
          heatOverR(coefficients, t),
          () => specificHeat(t) / mixtureGasConstant,
          `${t} K`,
        );
      }
      tally.relative('mixture molar mass', row.raw('molarMass'), () => molarMassOfMixture(), where);
      tally.absolute(
        'heat of formation of Air',
        'J/mol',
        row.raw('heatOfFormation'),
        formationOfMixture,
        where,
      );
    }
  }
  return tally.results(
    {
      coefficient: { mean: 0, max: 1e-15, reason: 'copied' },
      'molar mass': { mean: 0, max: 1e-15, reason: 'copied' },
      'heat of formation': {
        mean: 0.5,
        max: 1,
        reason: 'the fit meets the heat of formation to about 1 J/mol',
      },
      'cp of Air': {
        mean: 1e-8,
        max: 2e-8,
        reason: 'the same mixture, its coefficients printed with 9 digits',
      },
      'mixture molar mass': printedTo(9),
      'heat of formation of Air': { mean: 1e-3, max: 1e-3, reason: 'the file prints 0.001 J/mol' },
    },
    table,
  );
}

function heatOverR(c: readonly number[], t: number): number {
  return c[0] / t ** 2 + c[1] / t + c[2] + c[3] * t + c[4] * t ** 2 + c[5] * t ** 3 + c[6] * t ** 4;
}

function enthalpyOverRT(c: readonly number[], t: number): number {
  const powers = c[2] + (c[3] * t) / 2 + (c[4] * t ** 2) / 3 + (c[5] * t ** 3) / 4 + (c[6] * t ** 4) / 5;
  return -c[0] / t ** 2 + (c[1] * Math.log(t)) / t + powers + c[7] / t;
}

function molarMassOfMixture(): number {
  return (1000 * molarGasConstantGlenn) / mixtureGasConstant;
}

function formationOfMixture(): number {
  return dryAir.reduce((sum, species) => {
    return sum + species.moleFraction * molarGasConstantGlenn * 298.15 * enthalpyOverRT(species.cold, 298.15);
  }, 0);
}

export function checkThermallyPerfect(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'thermally-perfect-air');
  const tally = new Tally(table.name);
  for (const row of table.rows) {
    const t = row.need('temperature');
    const name = `${t} K`;
    tally.relative('cp/R', row.si('cp/R'), () => specificHeat(t) / mixtureGasConstant, name);
    tally.relative('cp', row.si('cp'), () => specificHeat(t), name);
    tally.relative('gamma', row.si('gamma'), () => heatRatio(t), name);
    tally.relative('speedOfSound', row.si('speedOfSound'), () => soundSpeedOfMixture(t), name);
    const h = row.si('h-h298');
    const s = row.si('s-s298');
    tally.absolute('enthalpy', 'J/kg', h, () => enthalpy(t), name);
    tally.absolute('entropy', 'J/(kg K)', s, () => entropy(t), name);
    if (h !== null) tally.absolute('temperature of enthalpy', 'K', t, () => temperatureOfEnthalpy(h), name);
    if (s !== null) tally.absolute('temperature of entropy', 'K', t, () => temperatureOfEntropy(s), name);
  }
  const nine = printedTo(9);
  return tally.results(
    {
      'cp/R': nine,
      cp: nine,
      gamma: nine,
      speedOfSound: printedTo(8),
      enthalpy: { mean: 5e-3, max: 1e-2, reason: 'the file prints 9 digits of kJ/kg' },
      entropy: { mean: 5e-6, max: 1e-5, reason: 'the file prints 9 digits' },
      'temperature of enthalpy': { mean: 5e-6, max: 1e-5, reason: 'inverse of a value of 9 digits' },
      'temperature of entropy': { mean: 5e-6, max: 1e-5, reason: 'inverse of a value of 9 digits' },
    },
    table,
  );
}

export function checkTotalTemperature(directory: string): CheckResult[] {
  const table = new PublishedTable(directory, 'total-temperature');
  const tally = new Tally(table.name);
  for (const row of table.rows) {
    const mach = row.need('mach');
    const t = row.need('temperature');
    const name = `M ${mach} at ${t} K`;
    const constant = () => totalTemperatureConstantCp(mach, t);
    const mixture = () => totalTemperature(t, mach * soundSpeedOfMixture(t));
    const airDataTotal = () => totalTemperature(t, mach * speedOfSound(t));
    const published = row.si('totalTemperatureAirData');
    tally.relative('gamma', row.si('gamma'), () => heatRatio(t), name);
    tally.relative('totalTemperatureConstantCp', row.si('totalTemperatureConstantCp'), constant, name);
    tally.relative('totalTemperature', row.si('totalTemperature'), mixture, name);
    tally.absolute('difference', 'K', row.si('difference'), () => mixture() - constant(), name);
    const ratio = () => totalPressureRatio(t, mixture());
    tally.relative('totalPressureRatio', row.si('totalPressureRatio'), ratio, name);
    const constantRatio = () => 1 / pressureRatio(mach);
    tally.relative(
      'totalPressureRatioConstantCp',
      row.si('totalPressureRatioConstantCp'),
      constantRatio,
      name,
    );
    tally.relative('totalTemperatureAirData', published, airDataTotal, name);
    const airDataRatio = () => totalPressureRatio(t, airDataTotal());
    tally.relative('totalPressureRatioAirData', row.si('totalPressureRatioAirData'), airDataRatio, name);
    tally.absolute('totalTemperature1135', 'K', row.si('totalTemperature1135'), airDataTotal, name);
    const quick = () => quickTotalTemperature(t, mach * speedOfSound(t));
    tally.absolute('quick total temperature', 'K', published, quick, name);
    if (published === null) continue;
    tally.absolute('static of total', 'K', t, () => staticTemperature(published, mach), name);
    tally.absolute('Mach of total', 'Mach', mach, () => machOfTotalTemperature(t, published), name);
  }
  const eight = printedTo(8);
  return tally.results(
    {
      gamma: eight,
      totalTemperatureConstantCp: eight,
      totalTemperature: eight,
      difference: { mean: 2e-5, max: 1e-4, reason: 'the file prints 6 digits, at most 1e-4 K' },
      totalPressureRatio: eight,
      totalPressureRatioConstantCp: eight,
      totalTemperatureAirData: eight,
      totalPressureRatioAirData: eight,
      totalTemperature1135: {
        mean: 0.3,
        max: 0.45,
        reason: 'independent model: one oscillator for air, cp 3.5 R below it, against the mixture',
      },
      'quick total temperature': {
        mean: 3e-6,
        max: 1e-5,
        reason: 'the file prints 8 digits; interpolation 1e-6 K',
      },
      'static of total': { mean: 4e-6, max: 1e-5, reason: 'inverse of a value of 8 digits' },
      'Mach of total': { mean: 7e-8, max: 1.5e-7, reason: 'inverse of a value of 8 digits' },
    },
    table,
  );
}
