// Days of the calendar as the format writes them: 2026-10-12.

const DAY = /^(\d{4})-(\d{2})-(\d{2})$/;

/** Whether a text is a real day of the Gregorian calendar, or `unknown`. */
export function isDay(text: string): boolean {
  if (text === 'unknown') return true;
  const match = DAY.exec(text);
  if (match === null) return false;
  const [year = 0, month = 0, day = 0] = match.slice(1).map(Number);
  return 1 <= month && month <= 12 && 1 <= day && day <= daysIn(year, month);
}

function daysIn(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}
