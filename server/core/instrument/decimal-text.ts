/** Numbers as the settings of a sketch take them: a decimal point, no exponent, no blanks. */

/**
 * A number to so many significant digits, without closing zeros.
 * For instance 4.8828125 to 8 digits is "4.8828125", 0.1 is "0.1".
 */
export function decimalText(value: number, digits: number): string {
  if (value === 0) return '0';
  const rounded = Number(value.toPrecision(digits));
  const firstPlace = Math.floor(Math.log10(Math.abs(rounded)));
  const text = rounded.toFixed(Math.min(Math.max(digits - 1 - firstPlace, 0), 100));
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

/**
 * The worth of a count. Eight digits are exact to 5 parts in 10⁸, a thousandth of what the best
 * resistor brings.
 */
export function scaleText(scale: number): string {
  return decimalText(scale, 8);
}

/** A standard uncertainty: two digits (GUM 7.2.6). */
export function uncertaintyText(uncertainty: number): string {
  return decimalText(uncertainty, 2);
}
