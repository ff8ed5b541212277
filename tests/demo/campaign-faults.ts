import { parseYaml, splitFrontMatter } from '../../src/records/front-matter.ts';
import type { TechnicalRecord } from '../../src/records/record.ts';
import type { RecordType } from '../../src/records/schema-set.ts';

/** A fault of the campaign: one edit of one file, and the code that must be found on the record. */
export interface CampaignFault {
  readonly name: string;
  readonly code: string;
  /** Record that the finding is mainly about; undefined where the file no longer gives one. */
  readonly record: string | undefined;
  readonly file: string;
  readonly edit: (text: string) => string;
  /** A new file instead of an edit. */
  readonly adds?: { readonly path: string; readonly text: string };
}

/** Which state of the demonstration file a fault is planted in. */
export type Base = 'signed' | 'unsigned';

const front = (text: string): { readonly yaml: string; readonly body: string } => {
  const split = splitFrontMatter(text);
  if (typeof split === 'string') throw new Error('the demonstration file is not sound');
  return split;
};

const joined = (yaml: string, body: string): string => `---\n${yaml}---\n${body}`;

/** Front matter without one top-level field and what belongs to it. */
export const withoutField = (text: string, field: string): string => {
  const { yaml, body } = front(text);
  return joined(yaml.replace(new RegExp(`^${field}:.*\\n(?: .*\\n|- .*\\n)*`, 'm'), ''), body);
};

const withField = (text: string, line: string): string => {
  const { yaml, body } = front(text);
  return joined(`${yaml}${line}\n`, body);
};

/** The value of a top-level field that stands on one line. */
const withValue = (text: string, field: string, value: string): string => {
  const { yaml, body } = front(text);
  return joined(yaml.replace(new RegExp(`^${field}: .*$`, 'm'), `${field}: ${value}`), body);
};

const inBody = (text: string, words: string): string => {
  const { yaml, body } = front(text);
  return joined(yaml, `${body.replace(/\n+$/, '')}\n\n${words}\n`);
};

const offsetOf = (text: string, line: number, column: number): number =>
  text
    .split('\n')
    .slice(0, line - 1)
    .reduce((sum, each) => sum + each.length + 1, 0) +
  column -
  1;

/** Replaces the id that a link names, at its place. */
const withTarget = (
  text: string,
  record: TechnicalRecord,
  path: readonly (string | number)[],
  id: string,
): string => {
  const yaml = parseYaml(record.file, front(text).yaml, 2);
  const place = yaml.place(path);
  const at = offsetOf(text, place.line, place.column);
  const old = /^"?[A-Z]{2,4}-[A-Za-z0-9.-]*[A-Za-z0-9]"?/.exec(text.slice(at))?.[0];
  if (old === undefined) throw new Error(`no id at ${record.file}:${place.line}:${place.column}`);
  return text.slice(0, at) + id + text.slice(at + old.length);
};

/** Faults that a record of any type can have, planted in the file without approvals so that nothing else lapses. */
export const faultsOfEveryType = (
  record: TechnicalRecord,
  type: RecordType,
  ids: ReadonlyMap<string, string>,
): readonly CampaignFault[] => {
  const { id, file } = record;
  const fault = (
    name: string,
    code: string,
    edit: (text: string) => string,
    about: string | undefined = id,
  ): CampaignFault => ({ name: `${id}: ${name}`, code, record: about, file, edit });
  const required = (type.schema.required ?? []).filter((field) => field in record.fields);
  const own = required.find((field) => !['id', 'type', 'title', 'status'].includes(field));
  const link = record.links[0];
  const other =
    link && [...ids].find(([, kind]) => !link.allowed.includes('*') && !link.allowed.includes(kind));
  const heading = type.headings[0];
  return [
    fault('has no title', 'missing-field', (text) => withoutField(text, 'title')),
    ...(own ? [fault(`has no ${own}`, 'missing-field', (text) => withoutField(text, own))] : []),
    fault('has a field that nobody knows', 'unknown-field', (text) => withField(text, 'colour: blue')),
    fault('has a status that is none', 'wrong-value', (text) => withValue(text, 'status', 'aproved')),
    fault('states its title twice', 'duplicate-key', (text) => withField(text, 'title: Once more')),
    fault('is of no known type', 'unknown-type', (text) => withValue(text, 'type', `${record.type}s`)),
    fault('names a record in its text that does not exist', 'unknown-id-in-prose', (text) =>
      inBody(text, 'See DI-98 for the reason.'),
    ),
    fault('still has a placeholder', 'placeholder-left', (text) => inBody(text, 'To be written: TBD.')),
    fault(
      'has a bracket that is not closed',
      'broken-front-matter',
      (text) => withField(text, 'x: [a, b'),
      undefined,
    ),
    fault('has no front matter', 'missing-front-matter', (text) => front(text).body || 'Words.\n', undefined),
    ...(link
      ? [
          fault('links to a record that does not exist', 'unknown-link-target', (text) =>
            withTarget(text, record, link.path, 'UN-98'),
          ),
        ]
      : []),
    ...(link && other
      ? [
          fault(`links to a record of another type (${other[0]})`, 'wrong-link-target-type', (text) =>
            withTarget(text, record, link.path, other[0]),
          ),
        ]
      : []),
    ...(heading
      ? [
          fault(`has no section ${heading}`, 'missing-heading', (text) =>
            text.replace(new RegExp(`^## ${heading}$`, 'm'), '## Something else'),
          ),
        ]
      : []),
    {
      ...fault('is there twice', 'duplicate-id', (text) => text),
      adds: { path: `copies/${id}.md`, text: '' },
    },
  ];
};

/** Faults of approvals, planted in the signed file. */
export const approvalFaults = (record: TechnicalRecord): readonly CampaignFault[] => {
  const { id, file } = record;
  const approvals = record.fields['approvals'] as readonly { readonly date: string }[] | undefined;
  if (!approvals || approvals.length === 0) return [];
  const fault = (name: string, code: string, edit: (text: string) => string): CampaignFault => ({
    name: `${id}: ${name}`,
    code,
    record: id,
    file,
    edit,
  });
  return [
    fault('was changed after its approval', 'approval-lapsed', (text) => inBody(text, 'One more sentence.')),
    fault('has another title than was approved', 'approval-lapsed', (text) =>
      withValue(text, 'title', 'Another title'),
    ),
    // An unsigned decision on a risk that needs one is told of once, at the risk.
    ...(record.type === 'benefit-risk'
      ? []
      : [
          fault('counts as approved without an approval', 'approval-missing', (text) =>
            withoutField(text, 'approvals'),
          ),
        ]),
    fault('was approved on a day to come', 'approval-date-later', (text) =>
      text.replace(/^( {4}date: )\d{4}-\d{2}-\d{2}$/m, '$12027-01-15'),
    ),
  ];
};

/** Faults of results, each in the file without approvals. */
export const resultFaults = (record: TechnicalRecord): readonly CampaignFault[] => {
  const { id, file } = record;
  const result = record.fields['result'];
  if (result !== 'pass' && result !== 'fail') return [];
  const fault = (name: string, code: string, edit: (text: string) => string): CampaignFault => ({
    name: `${id}: ${name}`,
    code,
    record: id,
    file,
    edit,
  });
  return [
    fault('states the contrary of its data', 'stated-result-differs', (text) =>
      withValue(text, 'result', result === 'pass' ? 'fail' : 'pass'),
    ),
    ...('data' in record.fields
      ? [
          fault('names a data file that is not there', 'data-file-missing', (text) =>
            text.replace(/^( {2}file: )\S+$/m, '$1data/none.csv'),
          ),
          fault('names the digest of other data', 'raw-data-changed', (text) =>
            text.replace(
              /^( {2}sha256: ")[0-9a-f]/m,
              (_, lead: string) => `${lead}${text.includes(`${lead}0`) ? '1' : '0'}`,
            ),
          ),
          fault('was done before its protocol was approved', 'period-reversed', (text) =>
            text.replace(/^( {2}to: )\d{4}/m, '$12024'),
          ),
        ]
      : []),
  ];
};

/** Protocols whose acceptance asks for less than the design input does. */
export const protocolFaults = (record: TechnicalRecord): readonly CampaignFault[] => {
  const { id, file } = record;
  const acceptance = record.fields['acceptance'] as
    | readonly { readonly lower?: number; readonly upper?: number }[]
    | undefined;
  const loose = acceptance?.[0];
  const about = { record: id, file };
  return [
    ...(loose?.lower !== undefined && loose.lower > 0
      ? [
          {
            ...about,
            name: `${id}: accepts half of the lower limit`,
            code: 'acceptance-looser-than-input',
            edit: (text: string) => text.replace(/^( {4}lower: )\S+$/m, `$1${(loose.lower ?? 0) / 2}`),
          },
        ]
      : loose?.upper !== undefined && loose.upper > 0
        ? [
            {
              ...about,
              name: `${id}: accepts twice the upper limit`,
              code: 'acceptance-looser-than-input',
              edit: (text: string) => text.replace(/^( {4}upper: )\S+$/m, `$1${(loose.upper ?? 0) * 2}`),
            },
          ]
        : []),
    ...(loose
      ? [
          {
            ...about,
            name: `${id}: judges a characteristic that no input knows`,
            code: 'acceptance-unknown-characteristic',
            edit: (text: string) => text.replace(/^( {2}- characteristic: ).+$/m, '$1colour of the handle'),
          },
        ]
      : []),
  ];
};
