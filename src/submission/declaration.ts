import type { TraceGraph } from '../graph/trace-graph.ts';
import type { Project } from '../records/project.ts';
import type { ClauseTables } from '../regulation/clause-tables.ts';

type Declaration = NonNullable<Project['fields']['declaration']>;

/** A part of an item that may be left out with a reason. */
export type DeclarationPart = NonNullable<Declaration['left_out']>[number]['what'];

/** One part of an item of the declaration. */
export type DeclarationValue =
  | {
      readonly kind: 'stated';
      readonly name: string;
      readonly text: string;
      readonly origin: string;
      readonly record?: string;
    }
  | { readonly kind: 'left out'; readonly name: string; readonly reason: string }
  | {
      readonly kind: 'missing';
      readonly name: string;
      readonly part: DeclarationPart | 'intended_purpose';
      readonly hint: string;
    }
  /** What only the person who signs can say. */
  | { readonly kind: 'open'; readonly name: string };

/** One of the ten items of Annex IV. */
export interface DeclarationItem {
  readonly clause: string;
  readonly title: string;
  readonly values: readonly DeclarationValue[];
}

export interface DeclarationContext {
  readonly project: Project;
  readonly graph: TraceGraph;
  readonly clauseTables: ClauseTables;
}

const stated = (name: string, text: string, origin: string, record?: string): DeclarationValue => ({
  kind: 'stated',
  name,
  text,
  origin,
  ...(record === undefined ? {} : { record }),
});

/** The class by the classification record that is in force, where the file has such records. */
const riskClass = (graph: TraceGraph): { readonly text: string; readonly record: string } | undefined => {
  const found = graph.recordsOf('classification').filter((record) => record.status !== 'retired');
  const record = found.find((each) => each.status === 'approved') ?? found[0];
  return record
    ? {
        text: `class ${record.fields.class}, rule ${record.fields.relied_on} of Annex VIII`,
        record: record.id,
      }
    : undefined;
};

/**
 * The ten items of the EU declaration of conformity (Regulation (EU) 2017/745, Annex IV) as far as the technical file
 * holds them. Place, date, name and signature are always open: a person signs, nothing else does.
 */
export const declarationItems = ({
  project,
  graph,
  clauseTables,
}: DeclarationContext): readonly DeclarationItem[] => {
  const { device, phrases = {}, declaration = {} } = project.fields;
  const leftOut = new Map((declaration.left_out ?? []).map(({ what, reason }) => [what, reason]));
  const at = (field: string): string => `plinth.yaml, ${field}`;
  /** The value, or the reason why it is left out, or that it is missing. */
  const part = (
    what: DeclarationPart,
    name: string,
    value: { readonly text: string; readonly record?: string } | undefined,
    origin = at(`declaration.${what}`),
  ): DeclarationValue => {
    if (value) return stated(name, value.text, value.record ?? origin, value.record);
    const reason = leftOut.get(what);
    return reason === undefined
      ? {
          kind: 'missing',
          name,
          part: what,
          hint: `Add ${origin.startsWith('plinth.yaml, ') ? `"${origin.slice(13)}" to plinth.yaml` : origin}, or say under "declaration.left_out" of plinth.yaml why it is left out.`,
        }
      : { kind: 'left out', name, reason };
  };
  const optional = (text: string | undefined): { readonly text: string } | undefined =>
    text === undefined ? undefined : { text };
  const representative = declaration.authorised_representative;
  const body = declaration.notified_body;
  const purpose = Object.hasOwn(phrases, 'intended_purpose') ? phrases['intended_purpose'] : undefined;
  const byClause: Readonly<Record<string, readonly DeclarationValue[]>> = {
    '1': [
      stated('Maker', device.maker, at('device.maker')),
      part('address', 'Address', optional(declaration.address)),
      part('srn', 'Single registration number', optional(declaration.srn)),
      part(
        'authorised_representative',
        'Authorised representative',
        representative && {
          text: [representative.name, representative.address, representative.srn]
            .filter((each) => each !== undefined)
            .join(', '),
        },
      ),
    ],
    '2': [
      stated(
        'Responsibility',
        `To be declared on signing: issued under the sole responsibility of ${device.maker}.`,
        'fixed text',
      ),
    ],
    '3': [part('basic_udi_di', 'Basic UDI-DI', optional(device.basic_udi_di), at('device.basic_udi_di'))],
    '4': [
      stated('Name', device.name, at('device.name')),
      ...(device.code === undefined ? [] : [stated('Code', device.code, at('device.code'))]),
      ...(device.identifiers ?? []).map(({ level, gtin }) =>
        stated(`Identifier, ${level}`, gtin, at('device.identifiers')),
      ),
      purpose === undefined
        ? {
            kind: 'missing',
            name: 'Intended purpose',
            part: 'intended_purpose',
            hint: 'Add "phrases.intended_purpose" to plinth.yaml.',
          }
        : stated('Intended purpose', purpose, at('phrases.intended_purpose')),
    ],
    '5': [part('risk_class', 'Class', riskClass(graph), 'a record of type classification')],
    '6': [
      stated(
        'Statement',
        'To be declared on signing: that the device is in conformity with Regulation (EU) 2017/745 and with the other law named here.',
        'fixed text',
      ),
      part('other_law', 'Other law of the Union', optional(declaration.other_law?.join('; '))),
    ],
    '7': [
      part(
        'common_specifications',
        'Common specifications',
        optional(declaration.common_specifications?.join('; ')),
      ),
    ],
    '8': [
      part(
        'notified_body',
        'Notified body',
        body && {
          text: [body.name, body.procedure, body.certificate ?? 'no certificate yet'].join(', '),
        },
      ),
      // Annex IV 8 asks for name and identification number. Without a body there is no number to ask for.
      ...(body
        ? [
            part(
              'notified_body_number',
              'Identification number of the notified body',
              optional(body.number),
              at('declaration.notified_body.number'),
            ),
          ]
        : []),
    ],
    '9': [part('additional', 'Additional information', optional(declaration.additional))],
    '10': [
      { kind: 'open', name: 'Place and date' },
      { kind: 'open', name: 'Name and function' },
      stated('On behalf of', device.maker, at('device.maker')),
      { kind: 'open', name: 'Signature' },
    ],
  };
  const table = clauseTables.inUse('eu-mdr-annex-4');
  return (table?.rows ?? []).map(({ clause, title }) => ({
    clause,
    title,
    values: Object.hasOwn(byClause, clause) ? (byClause[clause] ?? []) : [],
  }));
};
