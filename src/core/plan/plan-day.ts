/** The day of a plan: weather, magnetic north, light, the body outside, the fuel of the day, and the section along the route. */
import type { DayGap } from '../air/day.ts';
import type { Light } from '../earth/light.ts';
import type { Compass } from '../earth/magnetic.ts';

export interface PlanWeather {
  readonly title: string;
  /** Time of the analysis or start of the forecast run, ISO 8601; null on a standard or offset day. */
  readonly run: string | null;
  /** What the sortie says the weather stands for, where it is not the weather of its date. */
  readonly standsFor: string | null;
  readonly continuedBy: readonly string[];
  /** How far a temperature offset held beyond the data may be off, for each edge that is held. */
  readonly gaps: readonly WeatherGap[];
  readonly attribution: readonly string[];
}

/** An edge of the weather beyond which its temperature offset was held, and how far the flight went there. */
export interface WeatherGap extends DayGap {
  readonly edgePa: number;
  /** Furthest pressure altitude from the edge that was flown; 0 where the flight stayed within the data. */
  readonly flownBeyondM: number;
  /** Standard deviation of the temperature there; null where the data are too thin to tell. */
  readonly spreadK: number | null;
}

/** Magnetic north of the sortie. */
export interface PlanMagnetic {
  /** "WMM2025", the model of the take-off's date. */
  readonly edition: string;
  /** On the first line from the runway. */
  readonly takeOff: CourseAt;
}

/** One direction over the ground by both norths; magnetic is null outside the years of the model. */
export interface CourseAt {
  readonly courseDeg: number;
  readonly magneticDeg: number | null;
  /** Whether a compass is good there, poor ('caution') or useless ('blackout'). */
  readonly compass: Compass | null;
}

export interface PlanLight {
  readonly start: Light;
  /** Every change of the light on the way, in order. */
  readonly changes: readonly PlanLightChange[];
  /** Dip of the horizon at the greatest height of the flight, as it is seen through the air. */
  readonly horizon: {
    readonly timeS: number;
    readonly geometricHeightM: number;
    readonly dipDeg: number;
  };
}

/** The sky at an event; null outside the years of the almanac's formulas. */
export interface EventLight {
  readonly light: Light | null;
  /** Of the sun's centre above the horizontal, without refraction, and its true bearing. */
  readonly sunElevationDeg: number | null;
  readonly sunBearingDeg: number | null;
}

/** What the pressure outside would do to a body without a suit. */
export interface PlanBody {
  /** Pressure of water vapour at 37 degC, and the pressure altitude of it. */
  readonly boilingPressurePa: number;
  readonly boilingAltitudeM: number;
  /** Time above that altitude, and the least pressure outside on the way. */
  readonly aboveS: number;
  readonly leastPressurePa: number;
}

export interface PlanLightChange {
  readonly timeS: number;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly geometricHeightM: number;
  readonly from: Light;
  readonly to: Light;
  readonly brighter: boolean;
}

/** The fuel at its temperature of the day: what full tanks hold by mass and by volume. */
export interface FuelToday {
  readonly grade: string;
  readonly temperatureK: number;
  readonly densityKgM3: number;
  readonly density15KgM3: number;
  /** True where the sortie gives a measured density; otherwise it is the deck's for the grade. */
  readonly measured: boolean;
  /** What full tanks hold today: of each tank its capacity by mass, or what its volume holds. */
  readonly fullKg: number;
  /** The same with the lightest and the heaviest fuel of the grade; where the density was measured both are `fullKg`. */
  readonly fullFromKg: number;
  readonly fullToKg: number;
  /** By mass, as the deck states it, and how far today's is short of it, as a part of it. */
  readonly capacityKg: number;
  readonly shortFraction: number;
  /** All tanks to where they are filled, the room for expansion left. */
  readonly tankVolumeM3: number;
  readonly fullVolumeM3: number;
  readonly takeOffKg: number;
  readonly takeOffVolumeM3: number;
}

/** The weather along the track as flown: a column for each time, at the place of that time, a row for each altitude. */
export interface Section {
  readonly timeS: readonly number[];
  readonly pressureAltitudeM: readonly number[];
  /** Of each column the rows upward; null where the weather has no data and is not continued. */
  readonly temperatureOffsetK: readonly (readonly number[])[];
  /** From behind, along the course flown there. */
  readonly windAlongMS: readonly (readonly number[])[];
  /** From the left. */
  readonly windAcrossMS: readonly (readonly number[])[];
  /** First tropopause of each column, pressure altitude; null where there is none between 500 and 50 hPa. */
  readonly tropopauseM: readonly number[];
  /** The range of the weather in words. */
  readonly covers: string;
}
