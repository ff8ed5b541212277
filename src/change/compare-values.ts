import { withUnit } from '../records/units.ts';

/** Path of a value in a record's front matter or in plinth.yaml. */
export type ValuePath = readonly (string | number)[];

/** Plain data with a way to tell how a number was written. */
export interface WrittenValue {
  readonly value: unknown;
  readonly written: (path: ValuePath) => string | undefined;
}

/** One value that differs between two states. */
export interface ValueChange {
  /** For people, items of lists by what names them: `limits[tip retention force].lower`. */
  readonly label: string;
  readonly kind: 'added' | 'removed' | 'changed';
  /** As written, with the unit that stands beside a number; undefined where there was none. */
  readonly before?: string;
  readonly after?: string;
  /** For limits and tolerances: whether the new value demands more or less of the device. */
  readonly demand?: 'tighter' | 'looser';
  /** Where the value stands in the later state; in the earlier one for a value that was removed. */
  readonly path: ValuePath;
}

/** Fields that name an item of a list, the first that all items have, each with another value. */
const namingFields = [
  'id',
  'characteristic',
  'name',
  'record',
  'output',
  'clause',
  'certificate',
  'unit',
  'severity',
  'class',
  'band',
  'table',
  'level',
  'group',
  'task',
];

/** What a larger number means for the device under each field name. */
const demandOfLarger: Readonly<Record<string, 'tighter' | 'looser'>> = {
  lower: 'tighter',
  upper: 'looser',
  plus: 'looser',
  minus: 'looser',
  confidence: 'tighter',
  reliability: 'tighter',
  size: 'tighter',
  lots: 'tighter',
  accept: 'looser',
};

type Item = Readonly<Record<string, unknown>>;

const isGroup = (value: unknown): value is Item =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const namesOf = (list: readonly unknown[], field: string): readonly string[] | undefined => {
  const names = list.map((item) => (isGroup(item) ? item[field] : undefined));
  if (!names.every((name) => typeof name === 'string') || new Set(names).size < names.length)
    return undefined;
  return names as readonly string[];
};

/** A name for every item, by which the items of two lists are paired. */
const pairingNames = (
  before: readonly unknown[],
  after: readonly unknown[],
): { readonly before: readonly string[]; readonly after: readonly string[] } | undefined => {
  for (const field of namingFields) {
    const left = namesOf(before, field);
    const right = namesOf(after, field);
    if (left && right) return { before: left, after: right };
  }
  return undefined;
};

const isPlain = (value: unknown): boolean => value === null || typeof value !== 'object';

/** Plain values that repeat are told apart by counting: `a`, `a (2)`. */
const countedNames = (list: readonly unknown[]): readonly string[] => {
  const seen = new Map<string, number>();
  return list.map((value) => {
    const name = String(value);
    const count = (seen.get(name) ?? 0) + 1;
    seen.set(name, count);
    return count === 1 ? name : `${name} (${count})`;
  });
};

const shown = (value: unknown): string => {
  if (Array.isArray(value)) return value.map(shown).join(', ');
  if (isGroup(value))
    return Object.entries(value)
      .map(([name, inner]) => `${name}: ${shown(inner)}`)
      .join('; ');
  return String(value);
};

/**
 * Every value that differs, in the order of the later state and then what is gone. Items of lists are paired by what
 * names them, so that an item put in front does not make all others look changed; plain items by their value.
 */
export const compareValues = (before: WrittenValue, after: WrittenValue): readonly ValueChange[] => {
  const changes: ValueChange[] = [];
  const textOf = (side: WrittenValue, value: unknown, path: ValuePath, parent: unknown): string => {
    if (typeof value !== 'number') return shown(value);
    const unit = isGroup(parent) && typeof parent['unit'] === 'string' ? parent['unit'] : '1';
    return withUnit(side.written(path) ?? String(value), unit);
  };
  const leaf = (
    label: string,
    left: { readonly value: unknown; readonly path: ValuePath; readonly parent: unknown } | undefined,
    right: { readonly value: unknown; readonly path: ValuePath; readonly parent: unknown } | undefined,
  ): void => {
    const field = String((right ?? left)?.path.at(-1) ?? '');
    const demand =
      typeof left?.value === 'number' && typeof right?.value === 'number' && left.value !== right.value
        ? demandOf(field, right.value > left.value)
        : undefined;
    changes.push({
      label,
      kind: left === undefined ? 'added' : right === undefined ? 'removed' : 'changed',
      ...(left === undefined ? {} : { before: textOf(before, left.value, left.path, left.parent) }),
      ...(right === undefined ? {} : { after: textOf(after, right.value, right.path, right.parent) }),
      ...(demand === undefined ? {} : { demand }),
      path: (right ?? left)?.path ?? [],
    });
  };
  const walk = (
    left: unknown,
    right: unknown,
    label: string,
    leftPath: ValuePath,
    rightPath: ValuePath,
    leftParent: unknown,
    rightParent: unknown,
  ): void => {
    if (isGroup(left) && isGroup(right)) {
      for (const name of new Set([...Object.keys(right), ...Object.keys(left)])) {
        const inner = label === '' ? name : `${label}.${name}`;
        const inLeft = Object.hasOwn(left, name);
        const inRight = Object.hasOwn(right, name);
        if (inLeft && inRight)
          walk(left[name], right[name], inner, [...leftPath, name], [...rightPath, name], left, right);
        else if (inRight)
          leaf(inner, undefined, { value: right[name], path: [...rightPath, name], parent: right });
        else leaf(inner, { value: left[name], path: [...leftPath, name], parent: left }, undefined);
      }
      return;
    }
    if (Array.isArray(left) && Array.isArray(right)) {
      const plain = left.every(isPlain) && right.every(isPlain);
      const names = plain
        ? { before: countedNames(left), after: countedNames(right) }
        : (pairingNames(left, right) ?? {
            before: left.map((_, index) => String(index + 1)),
            after: right.map((_, index) => String(index + 1)),
          });
      for (const [index, name] of names.after.entries()) {
        const other = names.before.indexOf(name);
        const inner = plain ? label : `${label}[${name}]`;
        const path = [...rightPath, index];
        if (other === -1) leaf(inner, undefined, { value: right[index], path, parent: right });
        else walk(left[other], right[index], inner, [...leftPath, other], path, left, right);
      }
      for (const [index, name] of names.before.entries())
        if (!names.after.includes(name))
          leaf(
            plain ? label : `${label}[${name}]`,
            { value: left[index], path: [...leftPath, index], parent: left },
            undefined,
          );
      return;
    }
    if (left === right) return;
    leaf(
      label,
      { value: left, path: leftPath, parent: leftParent },
      { value: right, path: rightPath, parent: rightParent },
    );
  };
  walk(before.value, after.value, '', [], [], undefined, undefined);
  return changes;
};

const demandOf = (field: string, isLarger: boolean): 'tighter' | 'looser' | undefined => {
  const larger = Object.hasOwn(demandOfLarger, field) ? demandOfLarger[field] : undefined;
  if (larger === undefined || isLarger) return larger;
  return larger === 'tighter' ? 'looser' : 'tighter';
};
