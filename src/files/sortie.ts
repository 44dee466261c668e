/** Sorties: from a file to what the core flies, with the deck and the weather it names. */
import type { Day } from '../core/air/day.ts';
import { nonStandardDay } from '../core/air/mil-std-210a.ts';
import { offsetDay, standardDay } from '../core/air/offset-day.ts';
import type { Aircraft } from '../core/aircraft/aircraft.ts';
import { type Area, prepareArea } from '../core/earth/area.ts';
import { fuelToday } from '../core/plan/fuel-today.ts';
import type { FuelToday } from '../core/plan/plan.ts';
import type { Base, Leg, Sortie, Step, Tanker } from '../core/plan/sortie.ts';
import { OutsideRange } from '../core/quantities/errors.ts';
import { readQuantity } from '../core/quantities/values.ts';
import { readRules, readSteps } from './check-rules.ts';
import type { Faults } from './faults.ts';
import { crewTimes } from './sortie-crew.ts';
import { type SortieFile, sortieSchema } from './sortie-schema.ts';
import { envelopeOf, flightOf, waiversOf } from './sortie-tanker.ts';
import { tankerFuel } from './tanker-fuel.ts';
import { type Path, readYaml, type YamlFile } from './yaml.ts';

export interface ReadSortie {
  readonly file: SortieFile;
  readonly place: YamlFile<SortieFile>['place'];
}

/** Reads the text of a sortie; null, with every fault collected, where it cannot be used. */
export function readSortieFile(text: string, name: string, faults: Faults): ReadSortie | null {
  const { value, place } = readYaml(text, name, sortieSchema, faults);
  return value ? { file: value, place } : null;
}

/** Puts names in a sortie file together with what they name; faults are collected, and the result is null where there are any. */
export function compileSortie(
  read: ReadSortie,
  aircraft: Aircraft,
  run: string | null,
  faults: Faults,
  areas: readonly Area[] = [],
): Sortie | null {
  const before = faults.faults.length;
  const compiled = new Compiler(read, aircraft, faults).compile(run, areas);
  return faults.faults.length > before ? null : compiled;
}

/** A level turn steeper than this has a load factor above 11. */
const steepestBankRad = (85 * Math.PI) / 180;

/** No runway in use is steeper by far; a slope in degrees or per mille would be. */
const steepestRunway = 0.1;

class Compiler {
  private readonly read: ReadSortie;
  private readonly aircraft: Aircraft;
  private readonly faults: Faults;
  private readonly bases: Base[];
  private readonly tankers: Tanker[];

  constructor(read: ReadSortie, aircraft: Aircraft, faults: Faults) {
    this.read = read;
    this.aircraft = aircraft;
    this.faults = faults;
    const { file } = read;
    this.bases = file.bases.map((base, i) => this.baseOf(base, i));
    this.tankers = file.tankers.map((tanker, i) => {
      const { fuels, load, faults: wrong } = tankerFuel(tanker, aircraft);
      const tell = (path: Path, message: string) => this.fault(['tankers', i, ...path], message);
      for (const { key, message } of wrong) tell(key, message);
      return {
        name: tanker.name,
        ...tanker.at,
        courseRad: tanker.course,
        bankRad: tanker.bank,
        pressureAltitudeM: tanker.altitude,
        calibratedAirspeedMS: tanker.calibratedAirspeed,
        maximumMach: tanker.maximumMach,
        maximumCalibratedAirspeedMS: tanker.maximumCalibratedAirspeed ?? null,
        waivers: waiversOf(tanker, tell),
        envelope: envelopeOf(tanker, tell),
        offloadKg: fuels.reduce((sum, fuel) => sum + (fuel.burnable ? fuel.offloadKg : 0), 0),
        fuels,
        carries: load,
        flight: flightOf(tanker, (name, path) => this.base(name, ['tankers', i, ...path]), tell),
        rateKgS: tanker.rate,
      };
    });
  }

  compile(run: string | null, areas: readonly Area[]): Sortie {
    const { file } = this.read;
    const { identity } = this.aircraft;
    const { tail, fuel, fuelTemperature = null, fuelDensity = null } = file.aircraft;
    if (identity.tails.length > 0 && !identity.tails.includes(tail)) {
      this.fault(['aircraft', 'tail'], `the deck is valid for ${identity.tails.join(', ')}, not for ${tail}`);
    }
    const loaded = {
      tail,
      fuelKg: fuel,
      fuelTemperatureK: fuelTemperature,
      fuelDensityKgM3: fuelDensity,
    };
    this.checkFuel(loaded);
    if (!(file.takeOff.from <= file.takeOff.time && file.takeOff.time <= file.takeOff.to)) {
      this.fault(['takeOff', 'time'], 'the take-off is not between "from" and "to"');
    }
    return {
      title: file.title,
      invented: file.invented,
      aircraft: loaded,
      weather: { run, standsFor: 'file' in file.weather ? (file.weather.standsFor ?? null) : null },
      takeOff: {
        base: this.base(file.takeOff.base, ['takeOff', 'base']),
        timeS: file.takeOff.time,
        fromS: file.takeOff.from,
        toS: file.takeOff.to,
        wind: this.wind(),
      },
      bases: this.bases,
      tankers: this.tankers,
      areas: areas.map(prepareArea),
      corridorHalfWidthM: file.areas?.halfWidth ?? 0,
      legs: file.legs.map((leg, i) => this.leg(leg, i)),
      landingReserveKg: file.reserves.landing,
      approach: { fuelKg: file.reserves.approach.fuel, timeS: file.reserves.approach.time },
      pads: this.pads(),
      checks: readRules(file.checks, this.aircraft.schedules, (path, message) => this.fault(path, message)),
      checklist: readSteps(file.checklist, file.legs, (path, message) => this.fault(path, message)),
      manoeuvres: this.manoeuvres(),
      crew: crewTimes(file, (path, message) => this.fault(path, message)),
      ladderEveryS: file.ladder.every,
      grid: { fuelKg: file.altitudeGrid.fuel, temperatureOffsetK: file.altitudeGrid.temperatureOffset },
    };
  }

  /** Fuel at take-off, and what is asked of a tanker, against what the tanks hold today by mass and by volume. */
  private checkFuel(loaded: Sortie['aircraft']): void {
    const { fuelKg, fuelTemperatureK, fuelDensityKgM3 } = loaded;
    if (fuelDensityKgM3 !== null && fuelTemperatureK === null) {
      this.fault(['aircraft', 'fuelDensity'], 'a measured density needs "fuelTemperature" beside it');
      return;
    }
    try {
      const today = fuelToday(this.aircraft, loaded);
      const fullKg = today?.fullKg ?? this.aircraft.balance.fuelCapacityKg;
      const held = today === null ? `${fullKg} kg` : heldToday(today);
      const check = (askedKg: number, path: Path) => {
        if (askedKg > fullKg) this.fault(path, `${askedKg} kg is more than the tanks hold, ${held}`);
      };
      check(fuelKg, ['aircraft', 'fuel']);
      this.read.file.legs.forEach(({ refuel }, i) => {
        if (refuel && refuel.take !== 'full') check(refuel.take, ['legs', i, 'refuel', 'take']);
      });
    } catch (error) {
      if (!(error instanceof OutsideRange)) throw error;
      const key = error.quantity === 'fuel temperature' ? 'fuelTemperature' : 'fuelDensity';
      this.fault(['aircraft', key], error.message);
    }
  }

  private fault(path: Path, message: string): void {
    this.faults.add(this.read.place(path), path.map(String).join('.'), message);
  }

  /** One of a list by its name; a fault names what there is. */
  private named<T extends { readonly name: string }>(
    list: readonly T[],
    name: string,
    what: string,
    path: Path,
  ): T {
    const found = list.find((item) => item.name === name);
    if (!found)
      this.fault(
        path,
        `there is no ${what} "${name}"; there are ${list.map((item) => item.name).join(', ')}`,
      );
    return found ?? list[0];
  }

  private baseOf({ name, at, elevation, runway }: SortieFile['bases'][number], index: number): Base {
    if (runway === undefined) return { name, ...at, elevationM: elevation, runway: null };
    const { course, length, slope, condition } = runway;
    const path = ['bases', index, 'runway'];
    if (!(length > 0)) this.fault([...path, 'length'], `a runway of ${length} m has no length`);
    if (!(Math.abs(slope) <= steepestRunway)) {
      const [written, most] = [slope, steepestRunway].map(
        (fraction) => `${Number((100 * fraction).toFixed(3))} %`,
      );
      this.fault([...path, 'slope'], `a slope of ${written} is outside -${most} to ${most} of a runway`);
    }
    return {
      name,
      ...at,
      elevationM: elevation,
      runway: { name: runway.name, courseRad: course, lengthM: length, slopeFraction: slope, condition },
    };
  }

  private manoeuvres(): Sortie['manoeuvres'] {
    const { loadFactors, banks, push, clearance, heldTo } = this.read.file.manoeuvres;
    const path = ['manoeuvres'];
    loadFactors.forEach((value, i) => {
      if (!(value > 0)) this.fault([...path, 'loadFactors', i], 'a load factor here is above 0 g');
    });
    banks.forEach((value, i) => {
      if (!(value >= 0 && value < steepestBankRad))
        this.fault([...path, 'banks', i], 'a bank here is from 0 to less than 85 deg');
    });
    if (push && !(push.loadFactor < 1 && push.hold >= 0)) {
      this.fault([...path, 'push'], 'a pusher lowers the load factor below 1 g, for a time not below 0');
    }
    if (!(clearance >= 0)) this.fault([...path, 'clearance'], 'a clearance is not below 0');
    heldTo.forEach(({ loadFactor }, i) => {
      if (!(loadFactor > 1))
        this.fault([...path, 'heldTo', i, 'loadFactor'], 'what is held to is above 1 g, level flight');
    });
    return {
      loadFactors,
      banksRad: banks,
      push: push ? { loadFactor: push.loadFactor, holdS: push.hold } : null,
      clearanceM: clearance,
      heldTo: heldTo.map(({ fuelFrom, ...rest }) => ({ fromFuelKg: fuelFrom, ...rest })),
    };
  }

  private wind(): Sortie['takeOff']['wind'] {
    const { wind } = this.read.file.takeOff;
    if (wind === undefined) return null;
    if (!(wind.speed >= 0)) this.fault(['takeOff', 'wind', 'speed'], 'a wind speed is not below 0');
    return { fromRad: wind.from, speedMS: wind.speed };
  }

  private base(name: string, path: Path): Base {
    return this.named(this.bases, name, 'base', path);
  }

  private power(name: string | undefined, path: Path): number {
    const { names, descent } = this.aircraft.propulsion;
    if (name === undefined) return descent;
    const index = names.indexOf(name);
    if (index < 0) this.fault(path, `the deck has no power "${name}"; it has ${names.join(', ')}`);
    return index;
  }

  /** It counts above Mach 1, where the deck states the lowest. */
  private descentPower(name: string | undefined, path: Path): number {
    const { names, descent } = this.aircraft.propulsion;
    const index = this.power(name, path);
    if (index >= 0 && index < descent)
      this.fault(path, `${name} is below ${names[descent]}, the lowest that the deck allows above Mach 1`);
    return index;
  }

  private leg(leg: SortieFile['legs'][number], index: number): Leg {
    const path = ['legs', index];
    return {
      name: leg.name,
      through: leg.through.map(({ name, at, bank }) => ({ name, ...at, bankRad: bank })),
      fly: leg.fly.map((step, i) => this.step(step, [...path, 'fly', i])),
      end: this.end(leg, index),
    };
  }

  private end(leg: SortieFile['legs'][number], index: number): Leg['end'] {
    const path = ['legs', index];
    const last = index === this.read.file.legs.length - 1;
    if (leg.refuel && leg.land === undefined) {
      const { tanker, take, noContact } = leg.refuel;
      return {
        kind: 'contact',
        tanker: this.named(this.tankers, tanker, 'tanker', [...path, 'refuel', 'tanker']),
        takeKg: take,
        worstCase: {
          name: `No contact with ${tanker}`,
          base: this.base(noContact.divert, [...path, 'refuel', 'noContact', 'divert']),
          mach: noContact.mach,
          pressureAltitudeM: noContact.altitude,
          climbCalibratedAirspeedMS: noContact.climb,
          descentEquivalentAirspeedMS: noContact.descent,
        },
      };
    }
    if (leg.refuel || leg.land === undefined) this.fault(path, 'a leg ends with either "refuel" or "land"');
    else if (!last) this.fault([...path, 'land'], 'only the last leg lands');
    return { kind: 'landing', base: this.base(leg.land ?? this.bases[0]?.name ?? '', [...path, 'land']) };
  }

  private step(step: SortieFile['legs'][number]['fly'][number], path: Path): Step {
    if ('climb' in step) return this.climb(step.climb, [...path, 'climb']);
    if ('pushover' in step) {
      const { power, mach, push, angle, pull, bottom } = step.pushover;
      if (!(angle < 0))
        this.fault([...path, 'pushover', 'angle'], 'the path angle of a pushover is negative');
      return {
        kind: 'pushover',
        power: this.power(power, [...path, 'pushover', 'power']),
        mach,
        loadFactor: push,
        angleRad: angle,
        pullLoadFactor: pull,
        bottomM: bottom,
      };
    }
    if ('cruise' in step) return { kind: 'cruise', ...step.cruise };
    const { power, equivalentAirspeed, level } = step.descend;
    return {
      kind: 'descend',
      power: this.descentPower(power, [...path, 'descend', 'power']),
      equivalentAirspeedMS: equivalentAirspeed,
      levelM: level,
    };
  }

  private climb(
    step: Extract<SortieFile['legs'][number]['fly'][number], { climb: unknown }>['climb'],
    path: Path,
  ): Step {
    const { calibratedAirspeed, equivalentAirspeed, bleed, mach, to, levelOff } = step;
    if ((calibratedAirspeed === undefined) === (equivalentAirspeed === undefined)) {
      this.fault(path, 'a climb has either "calibratedAirspeed" or "equivalentAirspeed"');
    }
    if (bleed && equivalentAirspeed === undefined) {
      this.fault([...path, 'bleed'], '"bleed" goes with "equivalentAirspeed"');
    }
    return {
      kind: 'climb',
      power: this.power(step.power, [...path, 'power']),
      speed:
        equivalentAirspeed === undefined
          ? { kind: 'CAS', valueMS: calibratedAirspeed ?? 0 }
          : { kind: 'EAS', valueMS: equivalentAirspeed },
      bleed: bleed ? { breakMach: bleed.above, slopeMS: bleed.perMach } : null,
      mach,
      to,
      levelOffLoadFactor: levelOff,
    };
  }

  /** Pads by the key of the limit, each in the unit of the limit's quantity. */
  private pads(): Record<string, number> {
    const pads: Record<string, number> = {};
    for (const [key, text] of Object.entries(this.read.file.pads)) {
      const limit = this.aircraft.limits.find((candidate) => candidate.key === key);
      if (!limit) {
        const keys = this.aircraft.limits.map((candidate) => candidate.key).join(', ');
        this.fault(['pads', key], `the deck has no limit "${key}"; it has ${keys}`);
        continue;
      }
      try {
        pads[key] = readQuantity(
          text,
          limit.quantity.endsWith('emperatureK') ? 'temperatureOffsetK' : limit.quantity,
        );
      } catch (error) {
        this.fault(['pads', key], (error as Error).message);
      }
    }
    return pads;
  }
}

/** "35000 kg today: 46 m3 of 782.1 kg/m3 at 40 degC (38500 kg by mass)". */
function heldToday({ fullKg, capacityKg, tankVolumeM3, densityKgM3, temperatureK }: FuelToday): string {
  const fuel = `${densityKgM3.toFixed(1)} kg/m3 at ${Number((temperatureK - 273.15).toFixed(1))} degC`;
  return `${Math.floor(fullKg)} kg today: ${tankVolumeM3.toFixed(2)} m3 of ${fuel} (${capacityKg} kg by mass)`;
}

/** The day of a sortie that needs no file; null where it names one. */
export function plainDay(file: SortieFile): Day | null {
  if ('day' in file.weather) {
    const { day } = file.weather;
    return day === 'standard' ? standardDay : nonStandardDay(day);
  }
  return 'offset' in file.weather ? offsetDay(file.weather.offset) : null;
}
