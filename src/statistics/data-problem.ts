/** Why no number can be given, when the data are the cause. */
export interface DataProblem {
  readonly ok: false;
  readonly problem:
    | 'too-few-values'
    | 'too-many-values'
    | 'non-finite-value'
    | 'not-positive'
    | 'no-spread'
    | 'unbalanced'
    | 'uneven-censoring'
    | 'out-of-order'
    | 'no-bound'
    | 'no-slope';
  /** A phrase for a reader, lower case, no full stop. */
  readonly reason: string;
}

/** A computed value, or the reason why the data do not allow it. */
export type Computed<T> = { readonly ok: true; readonly value: T } | DataProblem;

/**
 * A value that could be computed.
 *
 * Source: no formula; it wraps a result.
 */
export function computed<T>(value: T): Computed<T> {
  return { ok: true, value };
}

/**
 * Why a value could not be computed, in words for the reader of a report.
 *
 * Source: no formula; it wraps a reason.
 */
export function dataProblem(problem: DataProblem['problem'], reason: string): DataProblem {
  return { ok: false, problem, reason };
}

/**
 * The first problem of a sample, or undefined when it can be used: too few or too many values, a value that is not a
 * finite number (named by its place, counted from 1), or, where asked, all values equal.
 *
 * Source: no formula; a precondition on data.
 */
export function findDataProblem(
  values: readonly number[],
  needs: { readonly minimum: number; readonly maximum?: number; readonly spread?: boolean },
): DataProblem | undefined {
  const bad = values.findIndex((value) => !Number.isFinite(value));
  if (bad >= 0)
    return dataProblem('non-finite-value', `value ${bad + 1} of ${values.length} is ${values[bad]}`);
  if (values.length < needs.minimum)
    return dataProblem(
      'too-few-values',
      `${values.length} value${values.length === 1 ? '' : 's'}, at least ${needs.minimum} needed`,
    );
  if (needs.maximum !== undefined && values.length > needs.maximum)
    return dataProblem('too-many-values', `${values.length} values, at most ${needs.maximum} allowed`);
  if (needs.spread && values.every((value) => value === values[0]))
    return dataProblem('no-spread', `all ${values.length} values are ${values[0]}`);
  return undefined;
}

/**
 * The first value that is not greater than 0, named by its place, counted from 1; for methods that take logarithms.
 *
 * Source: no formula; a precondition on data.
 */
export function findNotPositive(values: readonly number[]): DataProblem | undefined {
  const place = values.findIndex((value) => value <= 0);
  if (place < 0) return undefined;
  return dataProblem(
    'not-positive',
    `value ${place + 1} of ${values.length} is ${values[place]}; only values above 0 have a logarithm`,
  );
}
