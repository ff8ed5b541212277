import { placeOf } from '../records/record.ts';
import { recordTexts } from '../records/record-texts.ts';
import { defineCheck } from './check.ts';

export const standardAppliedNowhere = defineCheck({
  code: 'standard-applied-nowhere',
  level: 'note',
  title: 'A standard is listed as applied, and nothing in the file applies it',
  basis: 'common practice, no source',
  explain:
    'No record links to the standard, and no text names its designation. The list says that it was applied.\n\nA reviewer who asks where finds nothing, and doubts the rest of the list.\n\nName it where it was applied: under `standards` of the clause, in the method, in the protocol. If it was not applied, retire its record.',
  awaits: [
    'legal-requirement',
    'biological-evaluation',
    'test-method',
    'verification-protocol',
    'validation-protocol',
    'analysis',
    'design-output',
    'design-input',
  ],
  examines: 'standards in the list',
  subjects: ({ graph }) => graph.recordsOf('standard').filter((standard) => standard.status !== 'retired'),
  judge: (standard, { graph }) => {
    const designation = standard.fields.designation.trim();
    const isNamed =
      graph.linksTo(standard.id).some((link) => graph.record(link.from)?.status !== 'retired') ||
      [...graph.records.values()].some(
        (record) =>
          record.id !== standard.id &&
          record.sound &&
          record.status !== 'retired' &&
          recordTexts(record).some(({ text }) => text.includes(designation) || text.includes(standard.id)),
      );
    return isNamed
      ? []
      : [
          {
            place: placeOf(standard, 'designation'),
            message: `${standard.id} lists ${designation}, and no other record links to it or names it`,
            hint: 'Name it where it was applied, or retire the record.',
            records: [standard.id],
          },
        ];
  },
});
