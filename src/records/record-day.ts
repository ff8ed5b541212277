import type { TechnicalRecord } from './record.ts';

/** The day that a record speaks of, where it has one: what was done before a change may cite what held then. */
export const dayOfRecord = (record: TechnicalRecord): string | undefined => {
  const { date, executed, decided } = record.fields as {
    date?: unknown;
    executed?: { to?: unknown };
    decided?: { date?: unknown };
  };
  for (const day of [date, executed?.to, decided?.date]) if (typeof day === 'string') return day;
  return undefined;
};
