import type { RelatedPlace } from '../findings/finding.ts';
import { placeOf, type TechnicalRecord } from '../records/record.ts';
import { compareContent } from './compare-records.ts';
import type { ValueChange } from './compare-values.ts';
import type { ParagraphChange } from './compare-words.ts';

const mostPlaces = 6;
const mostWords = 60;

const quoted = (text: string): string => {
  const plain = text.replace(/\s+/g, ' ').trim();
  return plain.length > mostWords ? `"${plain.slice(0, mostWords)} …"` : `"${plain}"`;
};

const valueWords = ({ label, before, after, demand }: ValueChange): string => {
  const now =
    before === undefined
      ? `${after} is new`
      : after === undefined
        ? `${before} is gone`
        : `${before} → ${after}`;
  return `${label}: ${now}${demand === undefined ? '' : ` (${demand})`}`;
};

const bodyWords = ({ runs }: ParagraphChange): string => {
  const of = (kind: 'added' | 'removed'): string =>
    runs
      .filter((run) => run.kind === kind)
      .map((run) => run.text.trim())
      .filter((text) => text !== '')
      .join(' … ');
  const gone = of('removed');
  const put = of('added');
  return gone === ''
    ? `${quoted(put)} is new`
    : put === ''
      ? `${quoted(gone)} is gone`
      : `${quoted(gone)} → ${quoted(put)}`;
};

/** The differences between two contents of a record, each in a few words. */
export const contentChangeWords = (
  before: TechnicalRecord,
  after: TechnicalRecord,
  informative?: ReadonlySet<string>,
): readonly string[] => {
  const { fields, body } = compareContent(before, after, informative);
  return [...fields.map(valueWords), ...body.map((change) => `text: ${bodyWords(change)}`)];
};

/** What changed in a record since an earlier content, each difference at its place as it is now. */
export const describeContentChange = (
  before: TechnicalRecord,
  after: TechnicalRecord,
  informative?: ReadonlySet<string>,
): readonly RelatedPlace[] => {
  const { fields, body } = compareContent(before, after, informative);
  const all: readonly RelatedPlace[] = [
    ...fields.map((change) => ({
      place: placeOf(after, ...change.path),
      message: `${after.id} since then: ${valueWords(change)}`,
    })),
    ...body.map((change) => ({
      place: { file: after.file, line: change.line, column: 1 },
      message: `${after.id} since then: ${bodyWords(change)}`,
    })),
  ];
  const rest = all.length - mostPlaces;
  const first = all.slice(0, mostPlaces);
  const last = first.at(-1);
  return rest > 0 && last
    ? [...first.slice(0, -1), { ...last, message: `${last.message}; and ${rest} more differences` }]
    : first;
};
