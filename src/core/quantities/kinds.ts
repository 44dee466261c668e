/**
 * Soft kinds: tags by meaning for numbers that share a unit and are easily confused. A plain number goes into any of them;
 * one kind never goes into another. Arithmetic drops the tag.
 */
declare const kind: unique symbol;
export type Kind<K extends string> = number & { readonly [kind]?: K };

export type Mach = Kind<'Mach'>;
export type CalibratedAirspeed = Kind<'calibrated airspeed'>;
export type EquivalentAirspeed = Kind<'equivalent airspeed'>;
export type TrueAirspeed = Kind<'true airspeed'>;
export type GroundSpeed = Kind<'ground speed'>;
export type PressureAltitude = Kind<'pressure altitude'>;
export type GeopotentialHeight = Kind<'geopotential height'>;
export type GeometricHeight = Kind<'geometric height'>;
export type StaticTemperature = Kind<'static temperature'>;
export type TotalTemperature = Kind<'total temperature'>;
export type StaticPressure = Kind<'static pressure'>;
export type TotalPressure = Kind<'total pressure'>;
