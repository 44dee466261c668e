/**
 * One engine of Sandmartin: a single-spool afterburning turbojet with variable nozzle, its cycle solved at each flight
 * condition. Station numbers follow SAE ARP 755 (2 engine face, 3 compressor exit, 4 turbine inlet, 5 turbine exit,
 * 7 nozzle entry, 8 throat, 9 exit).
 *
 * Compressor: transonic speed lines are taken as vertical, so that corrected speed alone sets corrected flow. Choked
 * turbine guide vanes then give the pressure ratio, and the variable nozzle takes what the turbine leaves:
 *   W4 sqrt(T4)/p4 = constant  ->  pi_c = W2c/W2c_d sqrt((T4/T2)/(T4/T2)_d) (1 + f) ... pi_d.
 * Limits: corrected speed (aerodynamic), mechanical speed, turbine-inlet temperature, and T4/T2 (surge margin).
 * Efficiencies are polytropic where named so. Method: Mattingly and others, Aircraft Engine Design, 2nd ed., chapters 4
 * and 5 (from memory). All values of this engine are notional.
 */
import { gasConstant } from '../../../src/core/quantities/constants.ts';
import {
  enthalpy,
  entropyAtPressure,
  gammaOf,
  gasConstantOf,
  temperatureOfEnthalpy,
  temperatureOfEntropy,
} from './gas.ts';
import { greatestSupply, inletDrag, recovery } from './inlet.ts';

export const design = {
  /** Corrected flow at corrected speed 1, kg/s at 288.15 K and 101 325 Pa. */
  flowKgS: 128,
  pressureRatio: 8.4,
  /** T4/T2 of the design point, and the greatest allowed. */
  temperatureRatio: 4.6,
  turbineInletK: 1480,
  /** Mechanical speed limit over the speed that gives corrected speed 1 at 288.15 K. */
  mechanicalSpeed: 1.19,
  /** W2c = W2c_d Nc^exponent. */
  flowExponent: 1.25,
  compressorEfficiency: 0.885,
  /** eta_c = eta_d - fall (1 - Nc)^2. */
  compressorEfficiencyFall: 0.25,
  burnerEfficiency: 0.985,
  burnerPressure: 0.95,
  turbineEfficiency: 0.88,
  mechanicalEfficiency: 0.985,
  /** Pressure at nozzle entry over turbine exit, and what burning takes from it besides. */
  pipePressure: 0.955,
  afterburnerPressure: 0.965,
  afterburnerEfficiency: 0.91,
  minimumAfterburnerK: 1560,
  maximumAfterburnerK: 1900,
  /** Gross thrust over that of an ideal, fully expanded jet. */
  nozzleCoefficient: 0.975,
  /** Fuel-air ratio of the burner at the design point. */
  fuelAir: 0.0215,
  /** Of idle: corrected speed, and turbine-inlet temperature at 288.15 K, that grows with theta^exponent. */
  idleSpeed: 0.47,
  idleTurbineInletK: 784,
  idleTemperatureExponent: 0.36,
  /** Of part power: speed over that of military, temperature on the way from idle to military. */
  partSpeed: 0.88,
  partTemperature: 0.55,
  /** Lower heating value, J/kg. */
  heatingValue: 43.0e6,
} as const;

export const settings = ['idle', 'part', 'military', 'minimumAfterburner', 'maximumAfterburner'] as const;
export type Setting = (typeof settings)[number];

export interface EngineResult {
  /** Net thrust less the drag of the inlet. */
  thrustN: number;
  fuelFlowKgS: number;
  /** Corrected speed over that of the design point. */
  correctedSpeed: number;
  turbineInletK: number;
  nozzleThroatM2: number;
}

/** The lesser of two numbers near 1 with the corner rounded: the engine's control passes from limit to limit over 4 %. */
function blendedMinimum(a: number, b: number): number {
  return (a + b - Math.hypot(a - b, 0.04)) / 2;
}

/** Corrected speed and T4 of a setting at an engine-face temperature. */
function schedule(setting: Setting, faceK: number): { speed: number; turbineInletK: number } {
  const theta = faceK / 288.15;
  const greatest = blendedMinimum(1, design.mechanicalSpeed / Math.sqrt(theta));
  const hottest =
    design.turbineInletK * blendedMinimum(1, (design.temperatureRatio * faceK) / design.turbineInletK);
  const coolest = design.idleTurbineInletK * theta ** design.idleTemperatureExponent;
  if (setting === 'idle') return { speed: design.idleSpeed * greatest ** 0.3, turbineInletK: coolest };
  if (setting === 'part') {
    const turbineInletK = coolest + design.partTemperature * (hottest - coolest);
    return { speed: design.partSpeed * greatest, turbineInletK };
  }
  return { speed: greatest, turbineInletK: hottest };
}

function compressorEfficiency(speed: number): number {
  return design.compressorEfficiency - design.compressorEfficiencyFall * (1 - speed) ** 2;
}

/** The fuel-air ratio that lifts one kg of gas of ratio f and enthalpy h to a temperature. */
function fuelToReach(temperatureK: number, enthalpyJKg: number, fuelAir: number, efficiency: number): number {
  let total = fuelAir + 0.02;
  for (let i = 0; i < 50; i++) {
    const wanted = enthalpy(temperatureK, total);
    const added = ((1 + fuelAir) * (wanted - enthalpyJKg)) / (efficiency * design.heatingValue - wanted);
    const next = fuelAir + added;
    if (Math.abs(next - total) < 1e-10) return next;
    total = next;
  }
  throw new Error(`no fuel-air ratio reaches ${temperatureK} K`);
}

/** Compressor and burner: pressure ratio, T3, h3 and fuel-air ratio that fit together, by repeated substitution. */
function compress(t2: number, t4: number, correctedFlow: number, speed: number) {
  const s2 = entropyAtPressure(t2, 0);
  let fuelAir: number = design.fuelAir;
  let ratio: number = design.pressureRatio;
  let t3 = t2;
  let h3 = enthalpy(t2, 0);
  for (let i = 0; i < 60; i++) {
    const before = ratio;
    ratio =
      design.pressureRatio *
      (correctedFlow / design.flowKgS) *
      Math.sqrt(t4 / t2 / design.temperatureRatio) *
      ((1 + fuelAir) / (1 + design.fuelAir));
    const s3 = s2 + (gasConstantOf(0) * Math.log(ratio)) / compressorEfficiency(speed);
    t3 = temperatureOfEntropy(s3, 0, t3);
    h3 = enthalpy(t3, 0);
    fuelAir = fuelToReach(t4, h3, 0, design.burnerEfficiency);
    if (Math.abs(ratio - before) < 1e-10) break;
  }
  return { ratio, t3, h3, fuelAir };
}

/** Turbine: gives the compressor's work; T5, h5 and p5/p4. */
function expand(t4: number, fuelAir: number, workJKg: number) {
  const h5 = enthalpy(t4, fuelAir) - workJKg / ((1 + fuelAir) * design.mechanicalEfficiency);
  const t5 = temperatureOfEnthalpy(h5, fuelAir, t4 - workJKg / 1150);
  const fall = (entropyAtPressure(t5, fuelAir) - entropyAtPressure(t4, fuelAir)) / gasConstantOf(fuelAir);
  return { t5, h5, ratio: Math.exp(fall / design.turbineEfficiency) };
}

/** Afterburner and pipe: T7, fuel-air ratio of both burners, p7/p5. */
function reheat(setting: Setting, t5: number, h5: number, fuelAir: number) {
  if (setting !== 'minimumAfterburner' && setting !== 'maximumAfterburner') {
    return { t7: t5, total: fuelAir, ratio: design.pipePressure };
  }
  const t7 = setting === 'minimumAfterburner' ? design.minimumAfterburnerK : design.maximumAfterburnerK;
  const total = fuelToReach(t7, h5, fuelAir, design.afterburnerEfficiency);
  return { t7, total, ratio: design.pipePressure * design.afterburnerPressure };
}

/**
 * Net installed thrust and fuel flow of one engine at a Mach, static pressure [Pa], static temperature [K], setting; with less than the
 * inlet's recovery where a ratio is given.
 */
export function engine(
  mach: number,
  pressurePa: number,
  temperatureK: number,
  setting: Setting,
  recoveryRatio = 1,
): EngineResult {
  const speed = mach * Math.sqrt(1.4 * gasConstant * temperatureK);
  const density = pressurePa / (gasConstant * temperatureK);
  const h2 = enthalpy(temperatureK, 0) + (speed * speed) / 2;
  const t2 = temperatureOfEnthalpy(h2, 0, temperatureK * (1 + 0.2 * mach * mach));
  const rise = entropyAtPressure(t2, 0) - entropyAtPressure(temperatureK, 0);
  const p2 = pressurePa * Math.exp(rise / gasConstantOf(0)) * recovery(mach) * recoveryRatio;

  const chosen = schedule(setting, t2);
  const perCorrected = p2 / 101325 / Math.sqrt(t2 / 288.15);
  let correctedFlow = design.flowKgS * chosen.speed ** design.flowExponent;
  // Above Mach 1.3 the inlet's supply may be what limits the flow.
  if (mach > 1.3)
    correctedFlow = Math.min(correctedFlow, greatestSupply(mach, speed, density) / perCorrected);
  const flow = correctedFlow * perCorrected;

  const t4 = chosen.turbineInletK;
  const compressor = compress(t2, t4, correctedFlow, chosen.speed);
  const turbine = expand(t4, compressor.fuelAir, compressor.h3 - h2);
  const burnt = reheat(setting, turbine.t5, turbine.h5, compressor.fuelAir);
  const p7 = p2 * compressor.ratio * design.burnerPressure * turbine.ratio * burnt.ratio;

  const exhaust = flow * (1 + burnt.total);
  const nozzle = jet(burnt.t7, burnt.total, p7 / pressurePa);
  const drag = inletDrag(mach, speed, density, flow);
  return {
    thrustN: exhaust * nozzle.speedMS * design.nozzleCoefficient - flow * speed - drag,
    fuelFlowKgS: flow * burnt.total,
    correctedSpeed: chosen.speed,
    turbineInletK: t4,
    nozzleThroatM2: (exhaust * nozzle.throatPerFlow) / p7,
  };
}

/** Ideal exit speed [m/s], and throat area times total pressure over mass flow [m/s]. */
function jet(t7: number, fuelAir: number, expansion: number): { speedMS: number; throatPerFlow: number } {
  if (expansion <= 1) throw new Error(`nozzle pressure ratio ${expansion} drives no jet`);
  const r = gasConstantOf(fuelAir);
  const t9 = temperatureOfEntropy(
    entropyAtPressure(t7, fuelAir) - r * Math.log(expansion),
    fuelAir,
    t7 / expansion ** 0.23,
  );
  const speedMS = Math.sqrt(2 * (enthalpy(t7, fuelAir) - enthalpy(t9, fuelAir)));
  const gamma = gammaOf(t7, fuelAir);
  const critical = ((gamma + 1) / 2) ** (gamma / (gamma - 1));
  if (expansion < critical) return { speedMS, throatPerFlow: (r * t9 * expansion) / speedMS };
  const choked = Math.sqrt((r * t7) / gamma) * ((gamma + 1) / 2) ** ((gamma + 1) / (2 * (gamma - 1)));
  return { speedMS, throatPerFlow: choked };
}
