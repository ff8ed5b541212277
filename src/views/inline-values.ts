import type { Inline } from '../document/model.ts';
import { sameCharacteristic } from '../evidence/limit-comparison.ts';
import { valueText } from '../evidence/number-text.ts';
import type { EvidenceResult, NamedValue } from '../evidence/result.ts';
import { nearestName } from '../records/nearest-name.ts';
import { nothing, reference, text, verdictText } from './cells.ts';
import { fieldValue } from './field-values.ts';
import type { ViewContext } from './view.ts';

/** A value, or why there is none. */
export type InlineOutcome =
  | { readonly inlines: readonly Inline[] }
  | { readonly message: string; readonly hint: string };

type Attributes = Readonly<Record<string, string>>;

const missing = (message: string, name: string, known: readonly string[]): InlineOutcome => {
  const near = nearestName(name, known);
  return {
    message,
    hint: near
      ? `Did you mean "${near}"?`
      : known.length > 0
        ? `Use one of: ${known.slice(0, 20).join(', ')}.`
        : 'Remove it.',
  };
};

const valueOf = (
  label: string,
  attributes: Attributes,
  { evidence, graph, each }: ViewContext,
): InlineOutcome => {
  const [named = '', ...rest] = label.split('/').map((part) => part.trim());
  const id = named === 'each' && each ? each.id : named;
  const result = evidence.get(id);
  if (!result)
    return graph.record(id)
      ? {
          message: `${id} carries no evidence`,
          hint: 'Name a verification record, validation record, analysis or test method with a study.',
        }
      : missing(`there is no record ${id}`, id, [...evidence.keys()]);
  const key = rest.at(-1) ?? 'verdict';
  if (key === 'verdict') return { inlines: [verdictText(result.verdict)] };
  if (key === 'reason') return { inlines: [text(result.reason)] };
  if (key === 'units') return { inlines: [text(String(result.unitCount))] };
  const values = valuesOf(result, rest.length > 1 ? rest[0] : undefined);
  const value = values.find((each) => each.key === key);
  if (!value)
    return missing(`${id} has no value "${key}"`, key, [
      'verdict',
      'reason',
      'units',
      ...values.map((each) => each.key),
    ]);
  const digits = attributes['digits'] === undefined ? value.decimals : Number(attributes['digits']);
  if (!Number.isInteger(digits) || digits < 0 || digits > 15)
    return {
      message: `digits is "${attributes['digits']}"`,
      hint: 'Write a whole number from 0 to 15.',
    };
  return { inlines: [text(valueText({ ...value, decimals: digits }))] };
};

const valuesOf = (result: EvidenceResult, characteristic: string | undefined): readonly NamedValue[] =>
  characteristic === undefined
    ? (result.characteristics[0]?.values ?? [])
    : (result.characteristics.find((each) => sameCharacteristic(each.limits.characteristic, characteristic))
        ?.values ?? []);

const kinds: Readonly<
  Record<string, (label: string, attributes: Attributes, context: ViewContext) => InlineOutcome>
> = {
  value: valueOf,
  phrase: (label, _, { project }) => {
    const phrases = project.fields.phrases ?? {};
    const phrase = Object.hasOwn(phrases, label) ? phrases[label] : undefined;
    return phrase === undefined
      ? missing(`plinth.yaml has no wording "${label}"`, label, Object.keys(phrases))
      : { inlines: [text(phrase)] };
  },
  claim: (label, _, { graph }) => {
    const claim = graph.recordOf('claim', label);
    return claim
      ? { inlines: [text(claim.fields.wording)] }
      : missing(
          `there is no claim ${label}`,
          label,
          graph.recordsOf('claim').map(({ id }) => id),
        );
  },
  count: (label, _, { graph }) =>
    graph.types.has(label)
      ? {
          inlines: [
            text(
              String(
                [...graph.records.values()].filter(
                  (record) => record.type === label && record.status !== 'retired',
                ).length,
              ),
            ),
          ],
        }
      : missing(`unknown record type "${label}"`, label, [...graph.types.keys()]),
  device: (label, _, { project }) => {
    const device = project.fields.device as Readonly<Record<string, unknown>>;
    const value = Object.hasOwn(device, label) ? device[label] : undefined;
    return typeof value === 'string'
      ? { inlines: [text(value)] }
      : missing(`plinth.yaml has no device ${label}`, label, Object.keys(device));
  },
  each: (label, _, { graph, each }) => {
    if (!each)
      return {
        message: 'this document is not written for each record of a type',
        hint: 'Add "for_each" to its front matter, or name a record.',
      };
    if (label === 'id') return { inlines: [reference(each.id)] };
    const fields = graph.types.get(each.type)?.fields ?? [];
    if (!fields.includes(label)) return missing(`a ${each.type} has no field "${label}"`, label, fields);
    const inlines = fieldValue(each, graph, label);
    return { inlines: inlines.length > 0 ? inlines : [nothing('not stated')] };
  },
  title: (named, _, { graph, each }) => {
    const label = named === 'each' && each ? each.id : named;
    const record = graph.record(label);
    return record
      ? { inlines: [reference(label), text(` ${record.title}`)] }
      : missing(`there is no record ${label}`, label, [...graph.records.keys()]);
  },
};

/** The value of an inline directive; undefined where the name is none of ours, so that the text stays as it is. */
export const inlineValue = (
  name: string,
  label: string,
  attributes: Attributes,
  context: ViewContext,
): InlineOutcome | undefined => {
  if (!Object.hasOwn(kinds, name)) return undefined;
  const known = name === 'value' ? ['digits'] : [];
  const unknown = Object.keys(attributes).find((each) => !known.includes(each));
  return unknown === undefined
    ? kinds[name]?.(label.trim(), attributes, context)
    : {
        message: `:${name} has no setting "${unknown}"`,
        hint: known.length > 0 ? `Use ${known.join(', ')}, or take it away.` : 'Take it away.',
      };
};

/** What to write instead of a name that is no inline value's. */
export const inlineHint = (name: string): string => {
  const near = nearestName(name, Object.keys(kinds));
  return near === undefined ? `Use one of: ${Object.keys(kinds).join(', ')}.` : `Did you mean ":${near}"?`;
};
