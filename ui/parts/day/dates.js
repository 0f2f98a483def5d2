// Days of the calendar, counted from 1 January 1970, and their names in the reader's language.

const MS_PER_DAY = 86_400_000;

/** @type {string | undefined} */
const locale = (() => {
  try {
    return new Intl.DateTimeFormat(navigator.language).resolvedOptions().locale;
  } catch {
    return undefined;
  }
})();
const fullDate = new Intl.DateTimeFormat(locale, {
  weekday: "long",
  day: "numeric",
  month: "long",
  year: "numeric",
  timeZone: "UTC",
});
const monthAndYear = new Intl.DateTimeFormat(locale, { month: "long", year: "numeric", timeZone: "UTC" });
const shortWeekday = new Intl.DateTimeFormat(locale, { weekday: "short", timeZone: "UTC" });

/** The day in UTC, for when the shell has not named the day. */
export const dayByTheClock = () => Math.floor(Date.now() / MS_PER_DAY);

/** Day of an ISO date; null when it is none. @param {string} iso @returns {number | null} */
export function dayOfIso(iso) {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(iso.trim());
  if (!parts) return null;
  const day = new Date(`${parts[0]}T00:00:00Z`).getTime() / MS_PER_DAY;
  // 31 February is read as a day in March.
  return Number.isNaN(day) || isoOfDay(day) !== parts[0] ? null : day;
}

/** @param {number} day */
export function isoOfDay(day) {
  return new Date(day * MS_PER_DAY).toISOString().slice(0, 10);
}

/** Weekday, day, month and year. @param {number} day */
export const fullName = (day) => fullDate.format(day * MS_PER_DAY);

/** Month and year. @param {number} day */
export const monthName = (day) => monthAndYear.format(day * MS_PER_DAY);

/** @param {number} day */
export const weekdayName = (day) => shortWeekday.format(day * MS_PER_DAY);

/** @param {number} day */
export const dayOfMonth = (day) => new Date(day * MS_PER_DAY).getUTCDate();

/** First day and number of days of the month that a day is in. @param {number} day */
export function monthAround(day) {
  const date = new Date(day * MS_PER_DAY);
  const [year, month] = [date.getUTCFullYear(), date.getUTCMonth()];
  return {
    firstDay: Date.UTC(year, month, 1) / MS_PER_DAY,
    dayCount: new Date(Date.UTC(year, month + 1, 0)).getUTCDate(),
  };
}

/** The same day of another month, or that month's last day. @param {number} day @param {number} months */
export function addMonths(day, months) {
  const date = new Date(day * MS_PER_DAY);
  const [year, month] = [date.getUTCFullYear(), date.getUTCMonth() + months];
  const lastDate = new Date(Date.UTC(year, month + 1, 0)).getUTCDate();
  return Date.UTC(year, month, Math.min(date.getUTCDate(), lastDate)) / MS_PER_DAY;
}

/** How many days a day is after the first day of its week. @param {number} day */
export function daysIntoWeek(day) {
  return (new Date(day * MS_PER_DAY).getUTCDay() - weekStart() + 7) % 7;
}

/** First day of the week in the reader's country, 1 for Monday. */
function weekStart() {
  const known = /** @type {any} */ (new Intl.Locale(locale ?? "en-GB"));
  return known.getWeekInfo?.().firstDay ?? known.weekInfo?.firstDay ?? 1;
}
