/** A whole number as a double; throws where it would lose its last digits. */
export function wholeNumber(value: bigint, column: string): number {
  const number = Number(value);
  if (Number.isSafeInteger(number)) return number;
  throw new Error(`column ${column} holds ${value}; whole numbers beyond 2^53 do not fit: cast to DOUBLE in the query`);
}

/** A decimal, given as its digits and the number of places among them, as the nearest double. */
export function decimalNumber(digits: bigint, places: number, column: string): number {
  return places === 0 ? wholeNumber(digits, column) : Number(digits) / 10 ** places;
}

/** The error for a type that has no plain form outside the engine. */
export function undecodable(column: string, type: string): Error {
  return new Error(`column ${column} is ${type}; only numbers and text leave the engine: cast it in the query`);
}
