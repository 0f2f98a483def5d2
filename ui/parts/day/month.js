// One month as a table of days to pick from.

import { h } from "../dom/dom.js";
import { t } from "../../messages.js";
import * as dates from "./dates.js";

/** @typedef {{ focused: number, chosen: number | null, today: number }} MarkedDays days since 1 January 1970 */

const WEEK = [0, 1, 2, 3, 4, 5, 6];

/** The month around the focused day. @param {MarkedDays} marked */
export function monthTable(marked) {
  const { firstDay, dayCount } = dates.monthAround(marked.focused);
  const endDay = firstDay + dayCount;
  const firstCell = firstDay - dates.daysIntoWeek(firstDay);
  const weeks = [];
  for (let weekStart = firstCell; weekStart < endDay; weekStart += 7) {
    const cell = (/** @type {number} */ day) =>
      day < firstDay || day >= endDay ? h("td") : h("td", null, dayButton(day, marked));
    weeks.push(
      h(
        "tr",
        null,
        WEEK.map((offset) => cell(weekStart + offset)),
      ),
    );
  }
  const weekdays = WEEK.map((offset) => h("th", { scope: "col" }, dates.weekdayName(firstCell + offset)));
  return [
    h(
      "div",
      { class: "month-head" },
      monthStep(t("day_month_before"), -1, "‹"),
      h("span", { "aria-live": "polite" }, dates.monthName(marked.focused)),
      monthStep(t("day_month_after"), 1, "›"),
    ),
    h("table", null, h("thead", null, h("tr", null, weekdays)), h("tbody", null, weeks)),
  ];
}

/** @param {number} day @param {MarkedDays} marked */
function dayButton(day, { focused, chosen, today }) {
  return h(
    "button",
    {
      type: "button",
      "data-day": day,
      tabindex: day === focused ? 0 : -1,
      "aria-pressed": String(day === chosen),
      "aria-label": dates.fullName(day),
      "aria-current": day === today ? "date" : null,
    },
    String(dates.dayOfMonth(day)),
  );
}

/** @param {string} label @param {number} months @param {string} sign */
function monthStep(label, months, sign) {
  return h("button", { type: "button", "aria-label": label, "data-step": months }, sign);
}
