/**
 * SVG as text, without a document: the same in Node and in a browser. Lengths are in units of the drawing's viewBox.
 */

export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** Text made safe for element content and attribute values. */
export function escapeXml(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');
}

/** An element; children are markup already, attributes are escaped here and numbers kept to a hundredth. */
export function element(name: string, attributes: Attributes, ...children: readonly string[]): string {
  let open = `<${name}`;
  for (const [key, value] of Object.entries(attributes)) {
    if (value === undefined) continue;
    open += ` ${key}="${typeof value === 'number' ? hundredth(value) : escapeXml(value)}"`;
  }
  return children.length === 0 ? `${open}/>` : `${open}>${children.join('')}</${name}>`;
}

/** A length to a hundredth of a unit, as short as it goes. */
export function hundredth(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`a drawing has no place for ${value}`);
  const rounded = Math.round(value * 100) / 100;
  return Object.is(rounded, -0) ? '0' : String(rounded);
}

export function translate(x: number, y: number): string {
  return `translate(${hundredth(x)} ${hundredth(y)})`;
}
