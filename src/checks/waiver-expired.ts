import { isRealDate } from '../records/calendar.ts';
import { defineCheck } from './check.ts';

export const waiverExpired = defineCheck({
  code: 'waiver-expired',
  level: 'warning',
  title: 'A waiver is past its last day',
  basis: 'common practice, no source',
  explain:
    'The waiver in plinth.yaml has come to its end, so it no longer sets the finding apart: if the cause is still there, the finding stands again beside this one.\n\nA waiver accepts a fault for a time, because somebody meant to mend it or to look at it again. The end is the promise to do so.\n\nIf the cause is gone, remove the waiver. Otherwise mend it, or have the role decide again with a new reason and a new end; the old decision stays in the history of the file.',
  examines: 'waivers',
  subjects: ({ project }) => (project.fields.waivers ?? []).map((waiver, index) => ({ waiver, index })),
  judge: ({ waiver, index }, { project, asOf }) =>
    waiver.expires >= asOf || !isRealDate(waiver.expires)
      ? []
      : [
          {
            place: project.yaml.place(['waivers', index, 'expires']),
            message: `the waiver of ${waiver.code} for ${waiver.record} ended on ${waiver.expires}, before ${asOf}`,
            hint: 'Remove the waiver if its cause is gone, or decide anew with a new reason and end.',
            records: [waiver.record],
            data: { code: waiver.code, expires: waiver.expires },
          },
        ],
});
