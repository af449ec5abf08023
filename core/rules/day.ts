// Days as ISO text (2026-11-25): what comes after what, without a clock or a time zone.

/** Whether a text is a day of the calendar. */
export function isDay(text: string): boolean {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (parts === null) return false;
  const [year, month, day] = parts.slice(1).map(Number);
  if (year === undefined || month === undefined || day === undefined) return false;
  return 1 <= month && month <= 12 && 1 <= day && day <= daysIn(year, month);
}

/** Whether one day is over on another. A day is over only on the next one. */
export function isOver(day: string, today: string): boolean {
  return day < today;
}

/**
 * The same day some months later; the month's last day where it has no such day.
 *
 * @param monthCount whole, >= 0
 * @returns null where `day` is no day
 */
export function monthsLater(day: string, monthCount: number): string | null {
  if (!isDay(day)) return null;
  const [year = 0, month = 1, date = 1] = day.split('-').map(Number);
  const months = year * 12 + (month - 1) + Math.round(monthCount);
  const newYear = Math.floor(months / 12);
  const newMonth = (months % 12) + 1;
  const newDate = Math.min(date, daysIn(newYear, newMonth));
  return [padded(newYear, 4), padded(newMonth, 2), padded(newDate, 2)].join('-');
}

/** @source Gregorian calendar */
function daysIn(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

function padded(value: number, digits: number): string {
  return String(value).padStart(digits, '0');
}
