/** Where GRIB bytes come from, and how its numbers stand in them: big-endian, signs as magnitude. Offsets count from 0. */

/** A file or an array of bytes, read piece by piece so that a large file need not be held. */
export interface ByteSource {
  readonly size: number;
  /** The bytes [from, to); valid until the next call. */
  read(from: number, to: number): Uint8Array;
}

/** A source over bytes in memory. */
export function bytesOf(bytes: Uint8Array): ByteSource {
  return { size: bytes.length, read: (from, to) => bytes.subarray(from, to) };
}

/** A fault of a GRIB file, with the number of its message from 1; 0 where the whole file is meant. */
export class GribError extends Error {
  readonly messageNumber: number;
  readonly reason: string;

  constructor(messageNumber: number, reason: string) {
    super(messageNumber === 0 ? reason : `message ${messageNumber}: ${reason}`);
    this.name = 'GribError';
    this.messageNumber = messageNumber;
    this.reason = reason;
  }
}

/** One section of a message: its numbers by octet, counted from 1 as in the WMO Manual on Codes. */
export class Section {
  readonly bytes: Uint8Array;
  private readonly view: DataView;
  private readonly messageNumber: number;

  constructor(bytes: Uint8Array, messageNumber: number) {
    this.bytes = bytes;
    this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.messageNumber = messageNumber;
  }

  get number(): number {
    return this.bytes[4];
  }

  /** Unsigned number of one to four octets. */
  unsigned(octet: number, octets: 1 | 2 | 3 | 4): number {
    this.require(octet, octets);
    let value = 0;
    for (let i = 0; i < octets; i++) value = value * 256 + this.bytes[octet - 1 + i];
    return value;
  }

  /** Number whose first bit is its sign (regulation 92.1.5). */
  signed(octet: number, octets: 1 | 2 | 4): number {
    const value = this.unsigned(octet, octets);
    const sign = 2 ** (8 * octets - 1);
    return value >= sign ? sign - value : value;
  }

  /** IEEE 754 single. */
  real(octet: number): number {
    this.require(octet, 4);
    return this.view.getFloat32(octet - 1);
  }

  /** A `GribError` of this section's message. */
  fault(reason: string): GribError {
    return new GribError(this.messageNumber, reason);
  }

  private require(octet: number, octets: number): void {
    if (octet - 1 + octets <= this.bytes.length) return;
    throw this.fault(`section ${this.number} ends at octet ${this.bytes.length}, ${octet} is needed`);
  }
}

/** Reads numbers of any count of bits, from the first bit of the first byte on. */
export class BitReader {
  private readonly bytes: Uint8Array;
  private at = 0;
  private readonly end: number;

  constructor(bytes: Uint8Array) {
    if (bytes.length >= 2 ** 28) throw new RangeError(`${bytes.length} octets of data; up to 2^28 are read`);
    this.bytes = bytes;
    this.end = bytes.length * 8;
  }

  /** Unsigned number of 0 to 32 bits; throws `RangeError` past the end. */
  take(count: number): number {
    if (count > 24) return this.take(count - 16) * 65536 + this.take(16);
    const from = this.at;
    if (from + count > this.end) throw new RangeError('the data end too soon');
    if (count === 0) return 0;
    this.at = from + count;
    const { bytes } = this;
    const first = from >> 3;
    const word = (bytes[first] << 24) | (bytes[first + 1] << 16) | (bytes[first + 2] << 8) | bytes[first + 3];
    return (word << (from & 7)) >>> (32 - count);
  }

  /** The count of 0 bits before the next 1, which is read too. */
  zeros(): number {
    const start = this.at;
    while (this.at < this.end) {
      const rest = this.bytes[this.at >> 3] & (0xff >> (this.at & 7));
      if (rest !== 0) {
        const one = (this.at & ~7) + Math.clz32(rest) - 24;
        this.at = one + 1;
        return one - start;
      }
      this.at = (this.at & ~7) + 8;
    }
    throw new RangeError('the data end too soon');
  }

  /** Goes on to the next whole byte. */
  align(): void {
    this.at = (this.at + 7) & ~7;
  }
}
