/** A strict reader of the small part of XML that drawings use: elements, double-quoted attributes, text, five entities. */

export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: XmlElement[];
  text: string;
}

const TOKEN = /<\/([\w:-]+)>|<([\w:-]+)((?: [\w:-]+="[^"<]*")*)(\/?)>|([^<]+)/y;

/** The root element; throws with the place where the text stops being well-formed. */
export function readXml(source: string): XmlElement {
  const root: XmlElement = { name: '', attributes: {}, children: [], text: '' };
  const open = [root];
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < source.length) {
    const at = TOKEN.lastIndex;
    const match = TOKEN.exec(source);
    if (match === null) throw new Error(`not well-formed at ${at}: ${source.slice(at, at + 60)}`);
    const [, closed, opened, attributes, empty, text] = match;
    const parent = open[open.length - 1];
    if (closed !== undefined) {
      if (open.length === 1 || parent.name !== closed)
        throw new Error(`</${closed}> closes <${parent.name}>`);
      open.pop();
    } else if (opened !== undefined) {
      const element: XmlElement = { name: opened, attributes: read(attributes), children: [], text: '' };
      parent.children.push(element);
      if (empty === '') open.push(element);
    } else {
      parent.text += unescaped(text);
    }
  }
  if (open.length !== 1 || root.children.length !== 1) throw new Error('an element is left open');
  return root.children[0];
}

/** Every element below, the root too. */
export function all(root: XmlElement): readonly XmlElement[] {
  return [root, ...root.children.flatMap(all)];
}

function read(source: string): Record<string, string> {
  const found: Record<string, string> = {};
  for (const [, key, value] of source.matchAll(/ ([\w:-]+)="([^"]*)"/g)) {
    if (key in found) throw new Error(`attribute ${key} stands twice`);
    found[key] = unescaped(value);
  }
  return found;
}

const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" };

function unescaped(text: string): string {
  return text.replace(/&([^;]{0,6};?)/g, (whole, body: string) => {
    const character = ENTITIES[body.slice(0, -1)];
    if (!body.endsWith(';') || character === undefined) throw new Error(`"${whole}" is no entity`);
    return character;
  });
}
