import { isRealDate } from '../records/calendar.ts';
import { defineCheck } from './check.ts';

/** Longest time, in days, for which a waiver needs no word. */
const usualDays = 366;

export const waiverTooLong = defineCheck({
  code: 'waiver-too-long',
  level: 'note',
  title: 'A waiver holds for more than a year',
  basis: 'common practice, no source',
  explain:
    'A waiver accepts a finding for a time, until it is mended or looked at again. This one ends more than a year after it was given.\n\nWhat is accepted for that long is hardly looked at again before the device has been on the market for a while. Auditors ask for the review of such decisions.\n\nGive it an earlier end, and decide again then.',
  examines: 'waivers',
  subjects: ({ project }) => (project.fields.waivers ?? []).map((waiver, index) => ({ waiver, index })),
  judge: ({ waiver, index }, { project }) => {
    if (!isRealDate(waiver.date) || !isRealDate(waiver.expires)) return [];
    const days = Math.round(
      (Date.parse(`${waiver.expires}T00:00:00Z`) - Date.parse(`${waiver.date}T00:00:00Z`)) / 86_400_000,
    );
    if (days <= usualDays) return [];
    return [
      {
        place: project.yaml.place(['waivers', index, 'expires']),
        message: `the waiver of ${waiver.code} for ${waiver.record} holds for ${days} days, from ${waiver.date} to ${waiver.expires}`,
        hint: 'Give it an end within a year, and decide again then.',
        records: [waiver.record],
        data: { code: waiver.code, days },
      },
    ];
  },
});
