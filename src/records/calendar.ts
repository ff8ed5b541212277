/** Days in a month (1 to 12) of a year of the Gregorian calendar. */
export const daysInMonth = (year: number, month: number): number => {
  const isLeap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  if (month === 2) return isLeap ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
};

/** True where a text is written as an ISO date, YYYY-MM-DD, whether or not the day exists. */
export const isDateShaped = (text: string): boolean => /^\d{4}-\d{2}-\d{2}$/.test(text);

/** True where an ISO date names a day of the Gregorian calendar (ISO 8601). */
export const isRealDate = (text: string): boolean => {
  if (!isDateShaped(text)) return false;
  const [year = 0, month = 0, day = 0] = text.split('-').map(Number);
  return month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month);
};

/** The same day some months later; the last of the month where it has no such day. ISO dates. */
export const monthsLater = (date: string, months: number): string => {
  const [year = 0, month = 1, day = 1] = date.split('-').map(Number);
  const whole = year * 12 + (month - 1) + months;
  const [laterYear, laterMonth] = [Math.floor(whole / 12), (whole % 12) + 1];
  const laterDay = Math.min(day, daysInMonth(laterYear, laterMonth));
  return `${String(laterYear).padStart(4, '0')}-${String(laterMonth).padStart(2, '0')}-${String(laterDay).padStart(2, '0')}`;
};
