/** Images as packings: data templates 5.40 (JPEG 2000) and 5.41 (PNG) of GRIB 2. Their decoders load when first needed. */
import type { OpenJpeg } from '@cornerstonejs/codec-openjpeg/decode';
import { BitReader } from './bytes.ts';
import type { Packing } from './packing.ts';

let openJpeg: Promise<OpenJpeg> | null = null;

function loadOpenJpeg(): Promise<OpenJpeg> {
  const silent = () => undefined;
  openJpeg ??= import('@cornerstonejs/codec-openjpeg/decode').then((module) =>
    module.default({ print: silent, printErr: silent }),
  );
  return openJpeg;
}

/** Whole numbers of a JPEG 2000 codestream of one component of up to 16 bits, which is what the decoder holds. */
export async function unpackJpeg2000(
  data: Uint8Array,
  { section, count, bits }: Packing,
): Promise<Float64Array> {
  if (bits === 0) return new Float64Array(count);
  if (bits > 16) throw section.fault(`JPEG 2000 values of ${bits} bits; up to 16 are read`);
  const codestream = Uint8Array.from(data);
  const { J2KDecoder } = await loadOpenJpeg();
  const decoder = new J2KDecoder();
  try {
    decoder.getEncodedBuffer(codestream.length).set(codestream);
    decoder.decode();
    const { width, height, bitsPerSample, componentCount, isSigned } = decoder.getFrameInfo();
    if (width * height !== count) {
      throw section.fault(`a JPEG 2000 image of ${width} x ${height} points for ${count} values`);
    }
    if (componentCount !== 1 || isSigned || bitsPerSample > 16) {
      const kind = `${componentCount} components of ${bitsPerSample} ${isSigned ? 'signed' : 'unsigned'} bits`;
      throw section.fault(`a JPEG 2000 image of ${kind}; one of up to 16 unsigned bits is read`);
    }
    const bytes = decoder.getDecodedBuffer();
    if (bitsPerSample <= 8) return Float64Array.from(bytes.subarray(0, count));
    return Float64Array.from({ length: count }, (_, i) => bytes[2 * i] + 256 * bytes[2 * i + 1]);
  } finally {
    decoder.delete();
  }
}

/** Whole numbers of a PNG image: grey samples, or the bytes of a colour as one number, of 1 to 32 bits. */
export async function unpackPng(data: Uint8Array, { section, count, bits }: Packing): Promise<Float64Array> {
  if (bits === 0) return new Float64Array(count);
  const file = Uint8Array.from(data);
  const { decode } = await import('fast-png');
  const image = decode(file);
  const { width, height, depth, channels } = image;
  if (width * height !== count) {
    throw section.fault(`a PNG image of ${width} x ${height} points for ${count} values`);
  }
  // Some writers pad the values to a whole depth of PNG and still say the bits of the values.
  const stored = depth * channels;
  if (image.palette || stored < bits || stored > 32 || (channels > 1 && depth !== 8)) {
    const kind = image.palette ? 'a palette' : `${channels} x ${depth} bits`;
    throw section.fault(`a PNG image of ${kind} a point for values of ${bits} bits`);
  }
  if (image.data instanceof Uint16Array) return Float64Array.from(image.data);
  const reader = new BitReader(Uint8Array.from(image.data));
  const values = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    if (i % width === 0) reader.align();
    values[i] = reader.take(stored);
  }
  return values;
}
