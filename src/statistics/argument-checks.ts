/**
 * Preconditions on arguments. A confidence of 1.2 is a mistake of the caller, not a property of the data:
 * these throw. What the data can cause is a `DataProblem` (data-problem.ts) and is returned.
 */

/**
 * Throws a RangeError unless 0 < value < 1.
 *
 * Source: no formula; a precondition.
 */
export function requireOpenProbability(name: string, value: number): void {
  if (!(value > 0 && value < 1))
    throw new RangeError(`${name} is ${value}; it must lie between 0 and 1, both excluded`);
}

/**
 * Throws a RangeError unless 0 <= value <= 1.
 *
 * Source: no formula; a precondition.
 */
export function requireProbability(name: string, value: number): void {
  if (!(value >= 0 && value <= 1))
    throw new RangeError(`${name} is ${value}; it must lie between 0 and 1, both included`);
}

/**
 * Throws a RangeError unless value is a safe integer of at least `minimum`.
 *
 * Source: no formula; a precondition.
 */
export function requireCount(name: string, value: number, minimum: number): void {
  if (!Number.isSafeInteger(value) || value < minimum)
    throw new RangeError(`${name} is ${value}; it must be a whole number of at least ${minimum}`);
}

/**
 * Throws a RangeError unless value is finite and greater than 0.
 *
 * Source: no formula; a precondition.
 */
export function requirePositive(name: string, value: number): void {
  if (!(value > 0 && Number.isFinite(value)))
    throw new RangeError(`${name} is ${value}; it must be a finite number greater than 0`);
}

/**
 * Throws a RangeError unless value is finite and not negative.
 *
 * Source: no formula; a precondition.
 */
export function requireNonNegative(name: string, value: number): void {
  if (!(value >= 0 && Number.isFinite(value)))
    throw new RangeError(`${name} is ${value}; it must be a finite number that is not negative`);
}

/**
 * Throws a RangeError unless value is a finite number.
 *
 * Source: no formula; a precondition.
 */
export function requireFinite(name: string, value: number): void {
  if (!Number.isFinite(value)) throw new RangeError(`${name} is ${value}; it must be a finite number`);
}
