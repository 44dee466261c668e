/**
 * A measured column: levels as reported, some without pressure, temperature, height or wind, made into one column.
 *
 * Air is taken as dry: reported heights rest on virtual temperature and stand up to some 10 m above the integration of dry air
 * over 32 km; where they are reported they hold. Not a number means not reported.
 */
import { gasConstant, standardGravity } from '../quantities/constants.ts';
import { pressureAltitudeOf } from './standard.ts';

/** One level as reported; NaN where a value is missing. Winds say where the air goes to. */
export interface SoundingLevel {
  readonly pressurePa: number;
  /** Geopotential height. */
  readonly heightM: number;
  readonly temperatureK: number;
  readonly windEastMS: number;
  readonly windNorthMS: number;
}

export interface Sounding {
  /** Where it was taken, in words: a station or a file. */
  readonly station: string;
  /** Nominal time, seconds since 1970; NaN where the file says none. */
  readonly timeS: number;
  readonly latitudeRad: number;
  readonly longitudeRad: number;
  readonly levels: readonly SoundingLevel[];
}

/** A column without holes, lowest level first. */
export interface Column {
  readonly pressuresPa: Float64Array;
  /** Geopotential heights. */
  readonly heightsM: Float64Array;
  readonly temperaturesK: Float64Array;
  readonly windsEastMS: Float64Array;
  readonly windsNorthMS: Float64Array;
  /** Where the lowest or the highest wind is held, in words; printed with all that is made from the column. */
  readonly windHeld: readonly string[];
  /** What was filled or left out, in sentences. */
  readonly remarks: readonly string[];
}

/** A sounding from which no column can be made. */
export class SoundingError extends Error {
  readonly quantity: string;

  constructor(quantity: string, message: string) {
    super(message);
    this.name = 'SoundingError';
    this.quantity = quantity;
  }
}

/** R/g0, m/K. */
const scale = gasConstant / standardGravity;
/** A wind-only level nearer than this to a level with temperature makes no level of its own, m. */
const apartM = 30;
/** The lowest and the highest wind hold no further than this, m. */
const windReachM = 2000;

interface Node {
  readonly pressurePa: number;
  readonly temperatureK: number;
  heightM: number;
  windEastMS: number;
  windNorthMS: number;
}

interface Wind {
  readonly heightM: number;
  readonly windEastMS: number;
  readonly windNorthMS: number;
}

/**
 * The column of a sounding. Missing heights follow from hydrostatic integration; a missing wind is linear in height between the
 * nearest winds, those of levels without pressure among them, and such levels become levels of the column, at the pressure that
 * belongs to their height. Throws `SoundingError` where there are fewer than two levels with temperature, or no wind.
 */
export function columnOf(sounding: Sounding): Column {
  const remarks: string[] = [];
  const nodes = thermalNodes(sounding.levels, remarks);
  fillHeights(nodes, remarks);
  const winds = windsOf(sounding.levels, nodes, remarks);
  if (winds.length === 0) throw new SoundingError('wind', `${sounding.station}: the sounding has no wind`);
  const all = [...nodes, ...windNodes(nodes, winds)].sort((a, b) => b.pressurePa - a.pressurePa);
  for (const node of all) {
    if (Number.isNaN(node.windEastMS)) Object.assign(node, windAt(winds, node.heightM));
  }
  const kept = withinWinds(all, winds, remarks);
  const column = (key: keyof Node) => Float64Array.from(kept, (node) => node[key]);
  return {
    pressuresPa: column('pressurePa'),
    heightsM: column('heightM'),
    temperaturesK: column('temperatureK'),
    windsEastMS: column('windEastMS'),
    windsNorthMS: column('windNorthMS'),
    windHeld: windHeld(kept, winds),
    remarks,
  };
}

/** Thickness [m] of a layer of dry air between two pressures [Pa], its mean temperature [K] that of its ends. */
export function thicknessM(
  lowPa: number,
  highPa: number,
  lowTemperatureK: number,
  highTemperatureK: number,
): number {
  return scale * 0.5 * (lowTemperatureK + highTemperatureK) * Math.log(lowPa / highPa);
}

/** Levels with pressure and temperature, lowest first, each pressure once. */
function thermalNodes(levels: readonly SoundingLevel[], remarks: string[]): Node[] {
  const nodes: Node[] = [];
  const sorted = levels
    .filter(({ pressurePa, temperatureK }) => !Number.isNaN(pressurePa + temperatureK))
    .sort((a, b) => b.pressurePa - a.pressurePa);
  for (const level of sorted) {
    if (nodes.at(-1)?.pressurePa !== level.pressurePa) nodes.push({ ...level });
    else remarks.push(`two levels at ${level.pressurePa / 100} hPa: the first one is used`);
  }
  if (nodes.length < 2) {
    throw new SoundingError(
      'levels',
      `${nodes.length} levels with pressure and temperature where two are needed`,
    );
  }
  return nodes;
}

function fillHeights(nodes: readonly Node[], remarks: string[]): void {
  let highest = Number.NEGATIVE_INFINITY;
  for (const node of nodes) {
    if (node.heightM <= highest) {
      remarks.push(
        `height ${node.heightM} m at ${node.pressurePa / 100} hPa is not above that of the level below: left out`,
      );
      node.heightM = Number.NaN;
    } else if (!Number.isNaN(node.heightM)) highest = node.heightM;
  }
  let known = nodes.findIndex((node) => !Number.isNaN(node.heightM));
  if (known < 0) {
    known = 0;
    nodes[0].heightM = pressureAltitudeOf(nodes[0].pressurePa);
    remarks.push('no heights: the lowest level is put at the height of its pressure in the standard day');
  }
  for (let i = known - 1; i >= 0; i--) nodes[i].heightM = nodes[i + 1].heightM - between(nodes, i);
  for (let i = known; i + 1 < nodes.length; i = known) {
    known = nodes.findIndex((node, k) => k > i && !Number.isNaN(node.heightM));
    if (known < 0) known = nodes.length;
    bridge(nodes, i, known);
  }
}

/** Integrates heights from a level with one to the next with one (or beyond the end), to which the thicknesses are fitted. */
function bridge(nodes: readonly Node[], from: number, to: number): void {
  let sum = 0;
  for (let i = from; i < to && i + 1 < nodes.length; i++) sum += between(nodes, i);
  const fit = to < nodes.length ? (nodes[to].heightM - nodes[from].heightM) / sum : 1;
  for (let i = from + 1; i < to; i++) nodes[i].heightM = nodes[i - 1].heightM + fit * between(nodes, i - 1);
}

function between(nodes: readonly Node[], low: number): number {
  const [a, b] = [nodes[low], nodes[low + 1]];
  return thicknessM(a.pressurePa, b.pressurePa, a.temperatureK, b.temperatureK);
}

/** All winds by height, each height once, lowest first. */
function windsOf(levels: readonly SoundingLevel[], nodes: readonly Node[], remarks: string[]): Wind[] {
  const winds: Wind[] = nodes.filter((node) => !Number.isNaN(node.windEastMS + node.windNorthMS));
  let beyond = 0;
  for (const level of levels) {
    const thermal = !Number.isNaN(level.pressurePa + level.temperatureK);
    if (thermal || Number.isNaN(level.windEastMS + level.windNorthMS)) continue;
    const heightM = Number.isNaN(level.heightM) ? heightAt(nodes, level.pressurePa) : level.heightM;
    if (heightM >= nodes[0].heightM && heightM <= nodes[nodes.length - 1].heightM)
      winds.push({ ...level, heightM });
    else beyond++;
  }
  if (beyond > 0) remarks.push(`${beyond} winds stand beyond the levels with temperature and are left out`);
  winds.sort((a, b) => a.heightM - b.heightM);
  return winds.filter((wind, i) => i === 0 || wind.heightM > winds[i - 1].heightM);
}

/** Height of a pressure, linear in ln p; NaN beyond the column. */
function heightAt(nodes: readonly Node[], pressurePa: number): number {
  const above = nodes.findIndex((node) => node.pressurePa <= pressurePa);
  if (above < 1) return above === 0 && nodes[0].pressurePa === pressurePa ? nodes[0].heightM : Number.NaN;
  const [low, high] = [nodes[above - 1], nodes[above]];
  const part = Math.log(low.pressurePa / pressurePa) / Math.log(low.pressurePa / high.pressurePa);
  return low.heightM + part * (high.heightM - low.heightM);
}

/** Levels of the column made of winds that stand well apart from the levels with temperature. */
function windNodes(nodes: readonly Node[], winds: readonly Wind[]): Node[] {
  const made: Node[] = [];
  for (const wind of winds) {
    const above = nodes.findIndex((node) => node.heightM >= wind.heightM);
    if (above < 1) continue;
    const [low, high] = [nodes[above - 1], nodes[above]];
    const fromLow = wind.heightM - low.heightM;
    if (fromLow < apartM || high.heightM - wind.heightM < apartM) continue;
    const part = fromLow / (high.heightM - low.heightM);
    made.push({
      ...wind,
      pressurePa: low.pressurePa * (high.pressurePa / low.pressurePa) ** part,
      temperatureK: low.temperatureK + part * (high.temperatureK - low.temperatureK),
    });
  }
  return made;
}

/** The wind at a height, linear between the nearest; the first or last beyond their ends. */
function windAt(winds: readonly Wind[], heightM: number): Pick<Node, 'windEastMS' | 'windNorthMS'> {
  const above = winds.findIndex((wind) => wind.heightM >= heightM);
  if (above <= 0) {
    const { windEastMS, windNorthMS } = winds.at(above) as Wind;
    return { windEastMS, windNorthMS };
  }
  const [low, high] = [winds[above - 1], winds[above]];
  const part = (heightM - low.heightM) / (high.heightM - low.heightM);
  return {
    windEastMS: low.windEastMS + part * (high.windEastMS - low.windEastMS),
    windNorthMS: low.windNorthMS + part * (high.windNorthMS - low.windNorthMS),
  };
}

/** Says where levels of a column stand beyond the last wind. */
function windHeld(nodes: readonly Node[], winds: readonly Wind[]): string[] {
  const [low, high] = [winds[0].heightM, winds[winds.length - 1].heightM];
  const said: string[] = [];
  if (nodes[0].heightM < low) said.push(`wind: held below ${Math.round(low)} m`);
  if (nodes[nodes.length - 1].heightM > high) said.push(`wind: held above ${Math.round(high)} m`);
  return said;
}

/** Leaves out the ends of a column that stand further from the last wind than it holds. */
function withinWinds(nodes: readonly Node[], winds: readonly Wind[], remarks: string[]): Node[] {
  const lowest = winds[0].heightM - windReachM;
  const highest = winds[winds.length - 1].heightM + windReachM;
  const kept = nodes.filter(({ heightM }) => heightM >= lowest && heightM <= highest);
  const lost = nodes.length - kept.length;
  if (lost > 0) {
    remarks.push(`${lost} levels stand more than ${windReachM} m beyond the last wind and are left out`);
  }
  if (kept.length < 2)
    throw new SoundingError('wind', 'fewer than two levels with temperature have a wind near');
  return kept;
}
