import { evidenceTypes } from '../evidence/evidence-types.ts';
import { nearestName } from '../records/nearest-name.ts';
import { placeOf, type RecordOf } from '../records/record.ts';
import { rawDataOf } from '../submission/raw-data-of.ts';
import { contentOf, type RowContent } from '../submission/submission-rows.ts';
import { type CheckContext, type Draft, defineCheck } from './check.ts';

interface Fault {
  readonly at?: string | number;
  readonly field: string;
  readonly message: string;
  readonly hint: string;
}

const kinds = ['document', 'record', 'file', 'raw_data'] as const;

/** The document is written for each record of a type, and `for` names others; or it is not, and `for` names some. */
const faultOfFor = (content: RowContent, { graph }: CheckContext): Fault | undefined => {
  const document = content.document === undefined ? undefined : graph.recordOf('document', content.document);
  if (!document || content.for === undefined) return undefined;
  const each = document.fields.for_each;
  if (!each)
    return {
      field: 'for',
      message: `names records for ${document.id}, which is not written for each record of a type`,
      hint: 'Leave "for" out.',
    };
  const at = content.for.findIndex((id) => {
    const record = graph.record(id);
    return (
      record !== undefined &&
      (record.type !== each.type ||
        record.status === 'retired' ||
        (each.status !== undefined && !each.status.some((status) => status === record.status)))
    );
  });
  return at < 0
    ? undefined
    : {
        field: 'for',
        at,
        message: `asks for ${document.id} for ${content.for[at]}, for which it is not written`,
        hint: `Name records of the type ${each.type}${each.status ? ` with the status ${each.status.join(' or ')}` : ' that are not retired'}.`,
      };
};

const faultOf = (content: RowContent, context: CheckContext): Fault | undefined => {
  const { graph, files } = context;
  const named = kinds.filter((kind) => content[kind] !== undefined);
  if (named.length !== 1)
    return {
      field: named[0] ?? 'where',
      message:
        named.length === 0 ? 'names nothing that could be handed in' : `names ${named.join(' and ')} at once`,
      hint: `Give each entry one of ${kinds.join(', ')}.`,
    };
  const { file, raw_data: type } = content;
  if (file !== undefined && !files.has(file)) {
    const near = nearestName(file, [...files.keys()]);
    return {
      field: 'file',
      message: `names the file "${file}", which is not in the technical file`,
      hint: near ? `Did you mean "${near}"?` : 'Write its path from plinth.yaml, with forward slashes.',
    };
  }
  if (type !== undefined && !graph.types.has(type)) {
    const near = nearestName(type, [...graph.types.keys()]);
    return {
      field: 'raw_data',
      message: `asks for the raw data of "${type}", which is no record type`,
      hint: near ? `Did you mean "${near}"?` : 'Name a record type, for example verification-record.',
    };
  }
  if (type !== undefined && rawDataOf(type, graph, files).length === 0)
    return {
      field: 'raw_data',
      message: `asks for the raw data of ${type}, and no record of the type has any`,
      hint: 'Name a record type with raw data, for example verification-record.',
    };
  return faultOfFor(content, context);
};

const judge = (submission: RecordOf<'submission'>, context: CheckContext): readonly Draft[] =>
  contentOf(submission).flatMap(({ content, clause, path }) => {
    const fault = faultOf(content, context);
    return fault
      ? [
          {
            place: placeOf(submission, ...path, fault.field, ...(fault.at === undefined ? [] : [fault.at])),
            message: `${submission.id}: row ${clause} ${fault.message}`,
            hint: fault.hint,
            records: [submission.id],
          },
        ]
      : [];
  });

export const submissionContentWrong = defineCheck({
  code: 'submission-content-wrong',
  level: 'error',
  title: 'A submission names something that cannot be handed in',
  basis: 'common practice, no source',
  explain:
    'A row of a submission names a file that is not in the technical file, or raw data of a record type that has none, or a copy of a document for a record for which it is not written, or nothing at all, or several things in one entry. Nothing would lie in the folder where the index says that it does.\n\nA link that leads nowhere is read as evidence that does not exist.\n\nCorrect the entry. Files are named by their path from plinth.yaml; those outside of the technical file cannot be handed in.',
  awaits: evidenceTypes,
  examines: 'submissions',
  subjects: ({ graph }) =>
    graph.recordsOf('submission').filter((submission) => submission.status !== 'retired'),
  judge,
});
