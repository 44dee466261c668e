/** Faults of a value, kept as data; the sentence is made from them. */

/** A text that is not a value of the quantity asked for. */
export class QuantityError extends Error {
  readonly quantity: string;
  readonly text: string;
  readonly reason: string;
  readonly allowed: readonly string[];

  /** `quantity` in words, the `text` as given, the `reason` without a full stop, what is `allowed` instead. */
  constructor(quantity: string, text: string, reason: string, allowed: readonly string[] = []) {
    const help = allowed.length > 0 ? `; write ${listWithOr(allowed)}` : '';
    super(`${quantity} "${text}": ${reason}${help}`);
    this.name = 'QuantityError';
    this.quantity = quantity;
    this.text = text;
    this.reason = reason;
    this.allowed = allowed;
  }
}

/** A number outside the range in which a formula or a table holds. */
export class OutsideRange extends Error {
  readonly quantity: string;
  readonly value: number;
  readonly unit: string;
  readonly minimum: number;
  readonly maximum: number;
  readonly where: string;

  /** `where` names the formula, table or file the range belongs to. */
  constructor(
    quantity: string,
    value: number,
    unit: string,
    minimum: number,
    maximum: number,
    where: string,
  ) {
    const unitText = unit === '1' ? '' : ` ${unit}`;
    // Eight digits, so that a bound which came from another unit reads as it was meant.
    const [is, low, high] = [value, minimum, maximum].map((number) => Number(number.toPrecision(8)));
    super(`${quantity} ${is}${unitText} is outside ${low} to ${high}${unitText} of ${where}`);
    this.name = 'OutsideRange';
    this.quantity = quantity;
    this.value = value;
    this.unit = unit;
    this.minimum = minimum;
    this.maximum = maximum;
    this.where = where;
  }
}

function listWithOr(items: readonly string[]): string {
  if (items.length < 2) return items.join('');
  return `${items.slice(0, -1).join(', ')} or ${items[items.length - 1]}`;
}
