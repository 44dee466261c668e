/** The part of pdfkit 0.20.2 that the cards use; the package carries no types. Lengths are points. */
declare namespace PDFKit {
  interface TextOptions {
    readonly features: readonly string[] | undefined;
    readonly lineBreak: boolean;
    readonly baseline: 'alphabetic';
  }

  interface Options {
    readonly size: readonly [number, number];
    readonly margin: number;
    readonly autoFirstPage: boolean;
    readonly lang: string;
    readonly displayTitle: boolean;
    readonly font: null;
    readonly info: Readonly<Record<string, string | Date>>;
    readonly compress?: boolean;
  }

  type Data = Record<string, unknown>;

  /** An object of the file with its stream, which is written when it is final. */
  interface Reference {
    readonly data: Data;
    buffer: Uint8Array[];
    finalize(): void;
  }

  interface Document {
    ref(data?: Data): Reference;
    addPage(): Document;
    registerFont(name: string, source: Uint8Array): Document;
    font(name: string): Document;
    fontSize(size: number): Document;
    widthOfString(text: string, options: TextOptions): number;
    fillColor(colour: string): Document;
    text(text: string, x: number, y: number, options: TextOptions): Document;
    lineWidth(width: number): Document;
    moveTo(x: number, y: number): Document;
    lineTo(x: number, y: number): Document;
    rect(x: number, y: number, width: number, height: number): Document;
    circle(x: number, y: number, radius: number): Document;
    path(d: string): Document;
    save(): Document;
    restore(): Document;
    translate(x: number, y: number): Document;
    scale(factor: number): Document;
    dash(lengths: readonly number[]): Document;
    lineJoin(style: 'round'): Document;
    stroke(colour: string): Document;
    fill(colour: string): Document;
    on(event: 'data', listener: (chunk: Uint8Array) => void): Document;
    on(event: 'end', listener: () => void): Document;
    on(event: 'error', listener: (error: Error) => void): Document;
    end(): void;
  }
}

declare module 'pdfkit' {
  const PDFDocument: new (options: PDFKit.Options) => PDFKit.Document;
  export default PDFDocument;
}
