import { isSummative } from '../evidence/use-scenarios.ts';
import { placeOf } from '../records/record.ts';
import { defineCheck } from './check.ts';

export const summativeBeforeFormative = defineCheck({
  code: 'summative-before-formative',
  level: 'warning',
  title: 'A summative study began before a formative one had ended',
  basis: 'IEC 62366-1:2015 with Amendment 1:2020, 5.7 to 5.9 (from memory)',
  explain:
    'A formative study was still running on the day on which the summative one began, or came after it. Formative studies find what to change; the summative evaluation shows use of the final design. What a later formative study finds can change the design that was already shown.\n\nIf the formative study was about another device or a next version, keep it in the file of that version. If it led to no change, say so in its conclusion and accept the finding with a waiver; if it did, repeat the tasks that the change touches. Whether the units were of the released revision is a check of its own (tested-revision-not-released).',
  examines: 'records of summative studies',
  subjects: ({ graph }) => {
    const studies = graph
      .recordsOf('validation-record')
      .filter((record) => record.status !== 'retired')
      .flatMap((record) => {
        const protocol = graph.recordOf('validation-protocol', record.fields.reports);
        return protocol ? [{ record, protocol }] : [];
      });
    const formative = studies.filter(({ protocol }) => protocol.fields.study === 'formative');
    return studies
      .filter(({ protocol }) => isSummative(protocol))
      .map(({ record }) => ({ record, formative: formative.map((each) => each.record) }));
  },
  judge: ({ record, formative }) => {
    const from = record.fields.executed.from;
    const late = formative.filter((each) => each.fields.executed.to >= from);
    return late.map((each) => ({
      place: placeOf(record, 'executed', 'from'),
      message: `${record.id} began on ${from}, the formative study ${each.id} ended on ${each.fields.executed.to}`,
      hint: `Say in the conclusion of ${each.id} what it changed, and repeat the tasks in ${record.id} that a change touches.`,
      records: [record.id, each.id],
      related: [{ place: placeOf(each, 'executed', 'to'), message: `end of ${each.id}` }],
    }));
  },
});
