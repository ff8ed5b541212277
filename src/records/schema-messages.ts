import type { ErrorObject } from 'ajv';
import { nearestName } from './nearest-name.ts';

export interface SchemaFault {
  /** Path in the front matter. */
  readonly path: readonly (string | number)[];
  readonly code: 'unknown-field' | 'missing-field' | 'wrong-value';
  readonly message: string;
  readonly hint?: string;
  /** The place to show: the key rather than the value. */
  readonly atKey: boolean;
}

/** Steps of a JSON pointer and the value that it leads to. A step into a list is a number, into a group a name. */
const follow = (pointer: string, root: unknown): { path: (string | number)[]; actual: unknown } => {
  const path: (string | number)[] = [];
  let actual = root;
  for (const part of pointer.split('/').slice(1)) {
    const name = part.replace(/~1/g, '/').replace(/~0/g, '~');
    const step = Array.isArray(actual) ? Number(name) : name;
    path.push(step);
    actual =
      actual !== null && typeof actual === 'object' && Object.hasOwn(actual, step)
        ? (actual as Record<string | number, unknown>)[step]
        : undefined;
  }
  return { path, actual };
};

const shown = (value: unknown): string => {
  const text =
    typeof value === 'number' && !Number.isFinite(value)
      ? String(value)
      : value === null
        ? 'empty'
        : (JSON.stringify(value) ?? String(value));
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
};

const typeWords: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  integer: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'a group of fields',
};

/** Names of scores that failure mode tables are often multiplied from. Nothing here is accepted by them. */
const scoreNames: ReadonlySet<string> = new Set([
  'rpn',
  'risk_priority_number',
  'priority',
  'criticality_score',
  'occurrence',
  'occurrence_score',
  'detection',
  'detection_score',
  'severity_score',
]);

const nameOf = (path: readonly (string | number)[]): string =>
  path.length === 0
    ? 'the front matter'
    : path
        .map((step) => (typeof step === 'number' ? `[${step + 1}]` : step))
        .join('.')
        .replace(/\.\[/g, '[');

/**
 * What a validator's errors mean, in words that name the actual and the expected value. `written` gives a number as
 * it stands in the file: 1.10 and 007 lose digits when they are read.
 */
export const explainSchemaErrors = (
  errors: readonly ErrorObject[],
  value: unknown,
  fieldsAt: (path: readonly (string | number)[]) => readonly string[],
  written: (path: readonly (string | number)[]) => string | undefined = () => undefined,
): readonly SchemaFault[] => {
  const faults: SchemaFault[] = [];
  for (const error of errors) {
    const { path, actual } = follow(error.instancePath, value);
    const name = nameOf(path);
    switch (error.keyword) {
      case 'additionalProperties':
      case 'unevaluatedProperties': {
        const field = String(error.params['additionalProperty'] ?? error.params['unevaluatedProperty']);
        const known = fieldsAt(path);
        // Where a field is faulty, the validator also calls its neighbours unknown.
        if (error.keyword === 'unevaluatedProperties' && known.includes(field)) break;
        const near = nearestName(field, known);
        faults.push({
          path: [...path, field],
          code: 'unknown-field',
          message: `unknown field "${field}"${path.length > 0 ? ` in ${name}` : ''}`,
          hint: scoreNames.has(field.toLowerCase())
            ? 'Remove it: scores and their products are not kept. Acceptability goes by severity and probability of harm; estimate them in the risk and name it under "risks".'
            : near
              ? `Did you mean "${near}"?`
              : known.length > 0
                ? `Use one of: ${known.join(', ')}.`
                : 'Remove it.',
          atKey: true,
        });
        break;
      }
      case 'required': {
        const field = String(error.params['missingProperty']);
        faults.push({
          path,
          code: 'missing-field',
          message: `the field "${field}" is missing${path.length > 0 ? ` in ${name}` : ''}`,
          hint: `Add "${field}".`,
          atKey: true,
        });
        break;
      }
      case 'type': {
        const wanted = [error.params['type']].flat().map(String);
        const hint =
          wanted.includes('string') && typeof actual === 'number'
            ? `Put it in quotes: "${written(path) ?? actual}".`
            : wanted.includes('array')
              ? 'Write it as a list: [a, b].'
              : undefined;
        faults.push({
          path,
          code: 'wrong-value',
          message: `${name} is ${shown(actual)}, expected ${wanted.map((type) => typeWords[type] ?? type).join(' or ')}`,
          ...(hint ? { hint } : {}),
          atKey: false,
        });
        break;
      }
      case 'enum': {
        const allowed = (error.params['allowedValues'] as unknown[]).map(String);
        const near = nearestName(String(actual), allowed);
        faults.push({
          path,
          code: 'wrong-value',
          message: `${name} is ${shown(actual)}, expected one of: ${allowed.join(', ')}`,
          hint: near ? `Did you mean "${near}"?` : 'Use one of them.',
          atKey: false,
        });
        break;
      }
      case 'const':
        // The type is what the schema was chosen by.
        if (path.length === 1 && path[0] === 'type') break;
        faults.push({
          path,
          code: 'wrong-value',
          message: `${name} is ${shown(actual)}, expected ${shown(error.params['allowedValue'])}`,
          atKey: false,
        });
        break;
      case 'pattern': {
        // An empty text is reported as empty; that it has no form as well says nothing more.
        if (actual === '') break;
        const hint = /d\{4\}/.test(String(error.params['pattern']))
          ? 'Write a date as 2026-06-01.'
          : /\[0-9\]\{4\}\(/.test(String(error.params['pattern']))
            ? 'Write the day of the publication as 2026-06-01, its month as 2026-06 or its year as 2026.'
            : /0-9a-f/.test(String(error.params['pattern']))
              ? 'A digest has 64 hexadecimal digits.'
              : name === 'id'
                ? 'Write it as the prefix of the type, a hyphen and a number, such as UN-01.'
                : undefined;
        faults.push({
          path,
          code: 'wrong-value',
          message: `${name} is ${shown(actual)}, which does not have the expected form`,
          ...(hint ? { hint } : {}),
          atKey: false,
        });
        break;
      }
      case 'minItems':
        faults.push({
          path,
          code: 'wrong-value',
          message: `${name} ${
            Array.isArray(actual) && actual.length > 0 ? `has ${actual.length}` : 'is an empty list'
          }, expected at least ${error.params['limit']}`,
          hint: 'Add an entry.',
          atKey: false,
        });
        break;
      case 'minLength':
        faults.push({
          path,
          code: 'wrong-value',
          message:
            actual === ''
              ? `${name} is empty`
              : `${name} is shorter than ${error.params['limit']} characters`,
          hint: 'Write the text; an optional field may also be removed.',
          atKey: false,
        });
        break;
      case 'uniqueItems':
        faults.push({
          path: [...path, Number(error.params['i'])],
          code: 'wrong-value',
          message: `${name} names the same entry twice`,
          atKey: false,
        });
        break;
      case 'if':
        // What is wrong with the branch that holds has its own error.
        break;
      case 'false schema':
        faults.push({
          path,
          code: 'unknown-field',
          message: `${name} does not go together with the other fields that stand beside it`,
          hint: 'Keep one of the two.',
          atKey: true,
        });
        break;
      default:
        faults.push({
          path,
          code: 'wrong-value',
          message: `${name} is ${shown(actual)}: ${error.message ?? error.keyword}`,
          atKey: false,
        });
    }
  }
  // unevaluatedProperties also complains of fields that another fault has made unreadable: keep one message for each place.
  const seen = new Set<string>();
  return faults.filter((fault) => {
    const key = JSON.stringify([fault.path, fault.code, fault.message]);
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
};
