/** The part that is used of the OpenJPEG build, which brings no types. */
declare module '@cornerstonejs/codec-openjpeg/decode' {
  export interface J2KDecoder {
    /** Room for a codestream of so many bytes. */
    getEncodedBuffer(length: number): Uint8Array;
    decode(): void;
    /** All 0 where the codestream could not be decoded. */
    getFrameInfo(): {
      width: number;
      height: number;
      bitsPerSample: number;
      componentCount: number;
      isSigned: boolean;
    };
    /** One byte a sample up to 8 bits, else two, the low one first. */
    getDecodedBuffer(): Uint8ClampedArray;
    delete(): void;
  }

  export interface OpenJpeg {
    readonly J2KDecoder: new () => J2KDecoder;
  }

  export default function load(module: {
    print: (text: string) => void;
    printErr: (text: string) => void;
  }): Promise<OpenJpeg>;
}
