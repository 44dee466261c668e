/** Changes of single values in a YAML text that leave every other character as it is. */
import { isScalar, parseDocument, type Scalar } from 'yaml';

/** The text with another value at a path such as "legs.1.through.0.at"; a value that is not there yet is added. */
export function setScalar(text: string, path: string, value: string): string {
  const keys = path.split('.').map((key) => (/^\d+$/.test(key) ? Number(key) : key));
  const document = parseDocument(text);
  const node = document.getIn(keys, true);
  if (isScalar(node) && node.range) {
    const [start, end] = node.range;
    return text.slice(0, start) + written(node, value) + text.slice(end);
  }
  document.setIn(keys, value);
  return document.toString({ lineWidth: 0 });
}

/** In the quotes of the old value, or in new ones where the value could be read as something else. */
function written({ type }: Scalar, value: string): string {
  if (type === 'QUOTE_DOUBLE') return JSON.stringify(value);
  if (type === 'QUOTE_SINGLE') return `'${value.replaceAll("'", "''")}'`;
  return /^[\w.+-][\w .+/-]*$/.test(value) ? value : JSON.stringify(value);
}
