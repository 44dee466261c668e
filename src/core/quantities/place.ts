/** Positions on WGS 84: "45.5,-85" (latitude, longitude), "48.1N 80.0W", "48 06 30N 080 00 00W". */
import { QuantityError } from './errors.ts';

const allowed = ['"45.5,-85"', '"48.1N 80.0W"', '"48 06 30N 080 00 00W"'];
const degree = Math.PI / 180;

export interface Position {
  readonly latitudeRad: number;
  readonly longitudeRad: number;
}

/** Latitude and longitude of a text; throws `QuantityError`. */
export function readPosition(text: string, name = 'position'): Position {
  const clean = text.trim().replaceAll('\u2212', '-');
  const plain = /^([+-]?\d+(?:\.\d+)?)\s*,\s*([+-]?\d+(?:\.\d+)?)$/.exec(clean);
  const lettered = /^([\d .:°'′"″]+)([NS])[ ,]+([\d .:°'′"″]+)([EW])$/i.exec(clean);
  let latitude: number;
  let longitude: number;
  if (plain) {
    latitude = Number(plain[1]);
    longitude = Number(plain[2]);
  } else if (lettered) {
    latitude = sexagesimal(lettered[1], text, name) * (lettered[2].toUpperCase() === 'S' ? -1 : 1);
    longitude = sexagesimal(lettered[3], text, name) * (lettered[4].toUpperCase() === 'W' ? -1 : 1);
  } else {
    throw new QuantityError(name, text, 'is not a latitude and a longitude', allowed);
  }
  if (Math.abs(latitude) > 90) throw new QuantityError(name, text, 'latitude must be -90 to 90 deg');
  if (Math.abs(longitude) > 180) throw new QuantityError(name, text, 'longitude must be -180 to 180 deg');
  return { latitudeRad: latitude * degree, longitudeRad: longitude * degree };
}

function sexagesimal(digits: string, text: string, name: string): number {
  const parts = digits.split(/[ :°'′"″]+/).filter((part) => part !== '');
  const whole = parts.slice(0, -1).every((part) => /^\d+$/.test(part));
  const numbers = parts.map(Number);
  if (parts.length < 1 || parts.length > 3 || !whole || numbers.some(Number.isNaN)) {
    throw new QuantityError(name, text, 'is not degrees, minutes and seconds', allowed);
  }
  const [degrees, minutes = 0, seconds = 0] = numbers;
  if (minutes >= 60 || seconds >= 60) {
    throw new QuantityError(name, text, 'minutes and seconds must be below 60', allowed);
  }
  return degrees + minutes / 60 + seconds / 3600;
}

/** A position as "48.1000N 080.0000W". */
export function showPosition(place: Position, decimals = 4): string {
  const latitude = place.latitudeRad / degree;
  const longitude = place.longitudeRad / degree;
  const north = Math.abs(latitude).toFixed(decimals);
  const east = Math.abs(longitude).toFixed(decimals);
  const width = decimals > 0 ? decimals + 1 : 0;
  return `${north.padStart(2 + width, '0')}${latitude < 0 ? 'S' : 'N'} ${east.padStart(3 + width, '0')}${longitude < 0 ? 'W' : 'E'}`;
}
