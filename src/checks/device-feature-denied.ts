import type { RelatedPlace } from '../findings/finding.ts';
import { legalRows, placeOfRow } from '../graph/legal-rows.ts';
import type { TraceGraph } from '../graph/trace-graph.ts';
import { placeOf } from '../records/record.ts';
import { isOfSymbolTable, labelSymbols } from '../regulation/label-symbols.ts';
import { type Draft, defineCheck } from './check.ts';

type Feature = 'sterile' | 'measuring function';

interface Denial {
  readonly feature: Feature;
  readonly record: string;
  readonly text: string;
  readonly place: Draft['place'];
  readonly level?: 'warning';
  readonly hint: string;
}

const table = 'eu-mdr-annex-1';

const deniesSterile = [
  /\b(?:device|product|applicator|instrument|it)\b[^.;]{0,30}\bis\s(?:not|never)\s(?:(?:supplied|delivered|sold|provided|placed on the market)\s)?(?:as\s)?sterile\b(?!\s(?:barrier|field|packag))/i,
  /\b(?:device|product|applicator|instrument|it)\b[^.;]{0,30}\bis\s(?:(?:supplied|delivered|sold|provided|placed on the market)\s)?(?:as\s)?(?:a\s)?(?:non-?sterile|unsterile)\b/i,
];

const deniesMeasuring =
  /\b(?:no|not|neither|nor|without)\b[^.;]{0,40}\bmeasuring function\b(?!\s(?:but|except|other))/i;

/** Whether a sentence of the text says that the device lacks the feature. */
const denies = (text: string, feature: Feature): boolean =>
  text.split(/(?<=[.;])\s/).some((sentence) =>
    feature === 'measuring function'
      ? deniesMeasuring.test(sentence)
      : deniesSterile[0]?.test(sentence) === true ||
        // "No version of the device is placed on the market non-sterile" says the contrary.
        (deniesSterile[1]?.test(sentence) === true && !/\b(?:no|not|never|none|neither)\b/i.test(sentence)),
  );

const sterileClauses: ReadonlySet<string> = new Set(['23.2(l)', '23.3(b)', '23.3(c)']);

/** Where a label says that the device is sterile. */
const sterileOnLabels = (graph: TraceGraph): readonly RelatedPlace[] =>
  graph
    .recordsOf('design-output')
    .filter(({ status }) => status !== 'retired')
    .flatMap((output): readonly RelatedPlace[] => {
      const said = (output.fields.particulars ?? []).findIndex(
        ({ clause, content }) =>
          sterileClauses.has(clause) &&
          /\bsterile\b/i.test(content) &&
          !/\b(?:non-?|not |un)sterile\b/i.test(content),
      );
      if (said !== -1)
        return [
          { place: placeOf(output, 'particulars', said, 'content'), message: `${output.id} says sterile` },
        ];
      const drawn = (output.fields.symbols ?? []).findIndex(
        ({ symbol, standard }) => isOfSymbolTable(standard) && labelSymbols.get(symbol)?.method !== undefined,
      );
      return drawn === -1
        ? []
        : [
            {
              place: placeOf(output, 'symbols', drawn, 'symbol'),
              message: `${output.id} has the sterile symbol`,
            },
          ];
    });

const inClassification = (graph: TraceGraph, feature: Feature): readonly RelatedPlace[] =>
  graph
    .recordsOf('classification')
    .filter(({ status, fields }) => status !== 'retired' && (fields.features ?? []).includes(feature))
    .map((record) => ({
      place: placeOf(record, 'features'),
      message: `${record.id} has the feature "${feature}"`,
    }));

/** Where the file says that the device has the feature. */
const shownBy = (graph: TraceGraph, feature: Feature): readonly RelatedPlace[] => [
  ...inClassification(graph, feature),
  ...(feature === 'sterile'
    ? sterileOnLabels(graph)
    : legalRows(graph)
        .filter((row) => row.table === table && row.clause === '15.1' && row.applicable === true)
        .map((row) => ({
          place: placeOfRow(row, 'applicable'),
          message: `${row.record.id} marks 15.1 on measuring functions as applicable`,
        }))),
];

const features: readonly Feature[] = ['sterile', 'measuring function'];

const denialsIn = (graph: TraceGraph): readonly Denial[] => [
  ...graph
    .recordsOf('submission')
    .filter(({ status }) => status !== 'retired')
    .flatMap((submission) =>
      submission.fields.tables.flatMap(({ rows }, at) =>
        rows.flatMap(({ clause, empty = '' }, index) =>
          features
            .filter((feature) => denies(empty, feature))
            .map((feature) => ({
              feature,
              record: submission.id,
              text: `leaves row ${clause} empty with "${empty}"`,
              place: placeOf(submission, 'tables', at, 'rows', index, 'empty'),
              hint: 'Name what answers the row, or correct the records that have the feature.',
            })),
        ),
      ),
    ),
  ...legalRows(graph).flatMap((row) =>
    features
      .filter((feature) => row.applicable === false && denies(row.reason ?? '', feature))
      .map((feature) => ({
        feature,
        record: row.record.id,
        text: `sets ${row.clause} aside with "${row.reason}"`,
        place: placeOfRow(row, 'reason'),
        hint: 'Mark the clause as applicable, or correct the records that have the feature.',
      })),
  ),
  ...graph
    .recordsOf('classification')
    .filter(
      ({ status, fields }) =>
        status !== 'retired' &&
        // In the other classes the list makes no difference to the route, and may be left out.
        (fields.features !== undefined || fields.class === 'I') &&
        !(fields.features ?? []).includes('sterile'),
    )
    .map(
      (record): Denial => ({
        feature: 'sterile',
        record: record.id,
        text: 'does not have "sterile" among the features',
        place: record.fields.features === undefined ? placeOf(record, 'class') : placeOf(record, 'features'),
        ...(record.fields.class === 'I' ? {} : { level: 'warning' as const }),
        hint: 'Add the feature, or correct the label.',
      }),
    ),
];

export const deviceFeatureDenied = defineCheck({
  code: 'device-feature-denied',
  level: 'error',
  title: 'A record denies that the device is sterile or measures, and another one says so',
  basis:
    'Regulation (EU) 2017/745 Article 52(7)(a) and (b), Annex I 11 and 15, Annex II 6.2(e) and 6.2(f); the comparison is common practice, no source',
  explain:
    'A row of a submission is left empty because the device "is not supplied sterile" or has "no measuring function", or a clause is set aside with such a reason. But the classification has the feature, a label says STERILE in its particulars or symbols, or 15.1 on measuring functions is marked as applicable. Or the classification does not have "sterile" among its features while a label says so; in classes above I that is a warning.\n\nA reason that does not hold takes validation reports out of the submission. In class I the features decide whether a notified body takes part at all.\n\nCorrect whichever is wrong. Whether guide marks make a measuring function is for qualified people to decide, once for the whole file.',
  examines: 'reasons of submissions and legal requirements, and features of classifications, that deny one',
  subjects: ({ graph }) => [
    ...denialsIn(graph).map((denial) => ({ denial, shown: shownBy(graph, denial.feature) })),
    // What has no denial was looked at as well.
    ...graph
      .recordsOf('classification')
      .filter(({ status }) => status !== 'retired')
      .map(() => ({ denial: undefined, shown: [] })),
  ],
  judge: ({ denial, shown }): readonly Draft[] =>
    denial === undefined || shown.length === 0
      ? []
      : [
          {
            place: denial.place,
            message: `${denial.record} ${denial.text}, and ${shown.map(({ message }) => message).join(', ')}`,
            hint: denial.hint,
            records: [denial.record],
            related: shown,
            ...(denial.level ? { level: denial.level } : {}),
            data: { feature: denial.feature },
          },
        ],
});
