/** Writes GRIB 2 messages by the definition of WMO FM 92, one field each, values as IEEE singles (data template 5.4). */

export interface GribMessage {
  readonly parameter: 't' | 'u' | 'v' | 'gh' | 'z';
  readonly hPa: number;
  /** Forecast time from the run of 2020-03-01 00 UTC. */
  readonly hours?: number;
  readonly member?: number;
  /** End of an interval from the forecast time on, hours from the run, and what its values are (code table 4.10). */
  readonly interval?: { readonly toHours: number; readonly statistic: number };
  readonly grid: GribGrid;
  /** In the order of the grid's scan. */
  readonly values: ArrayLike<number>;
}

export interface GribGrid {
  readonly columns: number;
  readonly rows: number;
  /** Degrees of the first and last point in the order of the file. */
  readonly latitudesDeg: readonly [number, number];
  readonly longitudesDeg: readonly [number, number];
  /** Flag table 3.4. */
  readonly scan: number;
}

const parameters = { t: [0, 0], u: [2, 2], v: [2, 3], z: [3, 4], gh: [3, 5] } as const;

export function writeGrib(messages: readonly GribMessage[]): Uint8Array {
  return Uint8Array.from(messages.flatMap(messageOf));
}

/** `value` in so many octets, big-endian, a negative one with its first bit set. */
function octets(count: number, value: number): number[] {
  const magnitude = Math.abs(Math.round(value));
  const out = Array.from({ length: count }, (_, i) => Math.floor(magnitude / 256 ** (count - 1 - i)) % 256);
  if (value < 0) out[0] |= 0x80;
  return out;
}

function section(number: number, content: number[]): number[] {
  return [...octets(4, content.length + 5), number, ...content];
}

function messageOf(message: GribMessage): number[] {
  const { grid, values } = message;
  const points = grid.columns * grid.rows;
  const date = (hours: number) => [...octets(2, 2020), 3, 1 + Math.floor(hours / 24), hours % 24, 0, 0];
  const body = [
    ...section(1, [...octets(2, 98), 0, 0, 2, 0, 1, ...date(0), 0, 1]),
    ...section(3, [0, ...octets(4, points), 0, 0, 0, 0, ...gridOctets(grid)]),
    ...section(4, productOctets(message, date)),
    ...section(5, [...octets(4, points), 0, 4, 1]),
    ...section(6, [255]),
    ...section(7, Array.from(new Uint8Array(bigEndian(values)))),
    ...[0x37, 0x37, 0x37, 0x37],
  ];
  return [0x47, 0x52, 0x49, 0x42, 0, 0, 0, 2, ...octets(8, body.length + 16), ...body];
}

function gridOctets({ columns, rows, latitudesDeg, longitudesDeg, scan }: GribGrid): number[] {
  const angle = (degrees: number) => octets(4, degrees * 1e6);
  const none = octets(4, 0xffffffff);
  return [
    ...[6, ...Array(15).fill(0), ...octets(4, columns), ...octets(4, rows), ...octets(4, 0), ...none],
    ...[...angle(latitudesDeg[0]), ...angle(longitudesDeg[0]), 0],
    ...[...angle(latitudesDeg[1]), ...angle(longitudesDeg[1]), ...none, ...none, scan],
  ];
}

function productOctets(message: GribMessage, date: (hours: number) => number[]): number[] {
  const { parameter, hPa, hours = 0, member, interval } = message;
  const template = (member === undefined ? 0 : 1) + (interval ? (member === undefined ? 8 : 10) : 0);
  const surface = [100, 0, ...octets(4, hPa * 100), 255, 0, ...octets(4, 0)];
  const ensemble = member === undefined ? [] : [3, member, 20];
  const span = interval
    ? [
        ...date(interval.toHours),
        1,
        ...octets(4, 0),
        interval.statistic,
        2,
        1,
        ...octets(4, 0),
        1,
        ...octets(4, 0),
      ]
    : [];
  return [
    ...[0, 0, 0, template, ...parameters[parameter], 2, 0, 0, 0, 0, 0, 1, ...octets(4, hours)],
    ...[...surface, ...ensemble, ...span],
  ];
}

function bigEndian(values: ArrayLike<number>): ArrayBuffer {
  const view = new DataView(new ArrayBuffer(4 * values.length));
  for (let i = 0; i < values.length; i++) view.setFloat32(4 * i, values[i]);
  return view.buffer;
}
