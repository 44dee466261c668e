/**
 * A PDF whose streams are compressed by the same code everywhere. The library alone takes what Node or the browser brings, whose
 * bytes differ from one to the other and from version to version.
 */
import { zlibSync } from 'fflate';
import PDFDocument from 'pdfkit';

export class CompressedDocument extends PDFDocument {
  constructor(options: PDFKit.Options) {
    super({ ...options, compress: false });
  }

  override ref(data?: PDFKit.Data): PDFKit.Reference {
    const ref = super.ref(data);
    const finalize = ref.finalize.bind(ref);
    ref.finalize = () => {
      if (ref.buffer.length > 0 && ref.data.Filter === undefined) {
        ref.buffer = [zlibSync(joined(ref.buffer))];
        ref.data.Filter = 'FlateDecode';
      }
      finalize();
    };
    return ref;
  }
}

export function joined(chunks: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    all.set(chunk, at);
    at += chunk.length;
  }
  return all;
}
