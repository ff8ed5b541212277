import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const undocumentedExclusion = defineCheck({
  code: 'undocumented-exclusion',
  level: 'error',
  title: 'A unit was excluded without a deviation',
  basis: 'common practice, no source',
  explain:
    'A unit is left out of the evaluation and no deviation of this record assesses it. A reason in a few words is not enough: whoever excludes a reading decides about the verdict, and the decision needs a number, an assessment of its effect and an approval of its own. Leaving out the one bad unit is the easiest way to a false pass.\n\nWrite a deviation with the record under `against`, name it under `deviation` of the exclusion, or count the unit. A statistical test for outliers can be part of the reasons, never all of them.',
  examines: 'excluded units',
  subjects: ({ graph }) =>
    [...graph.recordsOf('verification-record'), ...graph.recordsOf('validation-record')]
      .filter((record) => record.status !== 'retired')
      .flatMap((record) =>
        (record.fields.exclusions ?? []).map((exclusion, index) => ({ record, exclusion, index })),
      ),
  judge: ({ record, exclusion, index }, { graph }) => {
    const { unit, deviation: id } = exclusion;
    const deviation = id === undefined ? undefined : graph.recordOf('deviation', id);
    // A deviation that does not exist, or is none, is reported as a link; one that is not sound where it is read.
    if (id !== undefined && (!deviation || deviation.fields.against.includes(record.id))) return [];
    return [
      {
        place: placeOf(record, 'exclusions', index, id === undefined ? 'unit' : 'deviation'),
        message: deviation
          ? `${record.id} excludes the unit ${unit} under ${deviation.id}, which is against ${deviation.fields.against.join(', ') || 'no record'}`
          : `${record.id} excludes the unit ${unit} without a deviation`,
        hint: deviation
          ? `Add ${record.id} under "against" of ${deviation.id}, or name the deviation that assesses this exclusion.`
          : 'Write a deviation that assesses the exclusion and name it here, or count the unit.',
        records: [record.id, ...(deviation ? [deviation.id] : [])],
        related: deviation
          ? [{ place: placeOf(deviation, 'against'), message: `records of ${deviation.id}` }]
          : [],
        data: { unit },
      },
    ];
  },
});
