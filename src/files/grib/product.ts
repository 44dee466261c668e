/** What a field is: sections 1 and 4 of a GRIB 2 message. */
import { showTime } from '../../core/quantities/time.ts';
import type { Section } from './bytes.ts';
import type { RawField } from './messages.ts';

/** The quantities that a day is made of, by discipline, category and number (code tables 0.0, 4.1, 4.2). */
export type Parameter = 't' | 'u' | 'v' | 'gh' | 'z';

const parameters: Readonly<Record<string, Parameter>> = {
  '0.0.0': 't',
  '0.2.2': 'u',
  '0.2.3': 'v',
  '0.3.4': 'z',
  '0.3.5': 'gh',
};

export const parameterUnits: Readonly<Record<Parameter, string>> = {
  t: 'K',
  u: 'm/s',
  v: 'm/s',
  gh: 'gpm',
  z: 'm2/s2',
};

export interface Product {
  readonly parameter: Parameter;
  readonly pressurePa: number;
  /** Start of the run, seconds since 1970. */
  readonly runS: number;
  /** The moment for which it holds; of an average, the middle of its interval. */
  readonly validS: number;
  /** Perturbation number of an ensemble; null where the field is of no ensemble. */
  readonly member: number | null;
  /** Whether it is the average over an interval, not the value of a moment. */
  readonly average: boolean;
}

/** Where the octets of a product definition template stand that templates 4.0, 4.1, 4.8 and 4.11 do not share. */
interface Layout {
  readonly member: number | null;
  /** First octet of the end of the interval; null for a moment. */
  readonly interval: number | null;
}

const layouts: Readonly<Record<number, Layout>> = {
  0: { member: null, interval: null },
  1: { member: 36, interval: null },
  8: { member: null, interval: 35 },
  11: { member: 36, interval: 38 },
};

const isobaric = 100;
const noSurface = 255;
const average = 0;
const missingOctet = 255;

/**
 * The product of a field; null where a day has no use for it: another quantity, no pressure level, a layer, a greatest
 * or accumulated value. Throws `GribError` for a wanted quantity on a template that is not read.
 */
export function productOf(field: RawField): Product | null {
  const { product, discipline } = field;
  const parameter = parameters[`${discipline}.${product.unsigned(10, 1)}.${product.unsigned(11, 1)}`];
  if (parameter === undefined) return null;
  const template = product.unsigned(8, 2);
  const layout = layouts[template];
  // Octets 10 and 11 stand in every template, the surface of octet 23 in those up to 15.
  if (template <= 15 && product.unsigned(23, 1) !== isobaric) return null;
  if (layout === undefined) {
    throw product.fault(`product template 4.${template} of ${parameter}; 4.0, 4.1, 4.8 and 4.11 are read`);
  }
  if (product.unsigned(29, 1) !== noSurface) return null;
  const runS = timeAt(field.identification, 13);
  const times =
    layout.interval === null ? momentOf(product, runS) : intervalOf(product, runS, layout.interval);
  if (times === null) return null;
  return {
    parameter,
    pressurePa: scaled(product, 24),
    runS,
    validS: times,
    member: layout.member === null ? null : memberOf(product, layout.member),
    average: layout.interval !== null,
  };
}

/** A product in words, such as "u at 500 hPa, 2011-01-15T12:00Z". */
export function productText({
  parameter,
  pressurePa,
  validS,
  member,
}: Omit<Product, 'runS' | 'average'>): string {
  const of = member === null ? '' : ` of member ${member}`;
  return `${parameter}${of} at ${pressurePa / 100} hPa, ${showTime(validS)}`;
}

function momentOf(product: Section, runS: number): number {
  return runS + product.signed(19, 4) * unitOf(product, 18);
}

/** The middle of the interval from the forecast time to the end; null where the values are no averages. */
function intervalOf(product: Section, runS: number, end: number): number | null {
  if (product.unsigned(end + 12, 1) !== average) return null;
  return (momentOf(product, runS) + timeAt(product, end)) / 2;
}

function memberOf(product: Section, octet: number): number {
  const number = product.unsigned(octet, 1);
  if (number === missingOctet) throw product.fault('is of an ensemble and does not say which member');
  return number;
}

/** Scale factor of one octet and value of four: value / 10^factor. */
function scaled(section: Section, octet: number): number {
  const factor = section.signed(octet, 1);
  const value = section.unsigned(octet + 1, 4);
  return factor > 0 ? value / 10 ** factor : value * 10 ** -factor;
}

/** Seconds of the unit of time in code table 4.4; months and years have no fixed length. */
const secondsOf: Readonly<Record<number, number>> = {
  0: 60,
  1: 3600,
  2: 86400,
  10: 3 * 3600,
  11: 6 * 3600,
  12: 12 * 3600,
  13: 1,
};

function unitOf(product: Section, octet: number): number {
  const unit = product.unsigned(octet, 1);
  const seconds = secondsOf[unit];
  if (seconds === undefined) throw product.fault(`unit of time ${unit} of code table 4.4 is not read`);
  return seconds;
}

/** Seven octets: year, month, day, hour, minute, second; as seconds since 1970. */
function timeAt(section: Section, octet: number): number {
  const year = section.unsigned(octet, 2);
  const [month, day, hour, minute, second] = [2, 3, 4, 5, 6].map((i) => section.unsigned(octet + i, 1));
  const milliseconds = Date.UTC(year, month - 1, day, hour, minute, second);
  const back = new Date(milliseconds);
  if (
    back.getUTCMonth() !== month - 1 ||
    back.getUTCDate() !== day ||
    hour > 23 ||
    minute > 59 ||
    second > 60
  ) {
    const text = `${year}-${month}-${day} ${hour}:${minute}:${second}`;
    throw section.fault(`section ${section.number} has the time ${text}, which is not in the calendar`);
  }
  return milliseconds / 1000;
}
