// The lists that records are exported to and imported from, with their names.

export const LIST_NAMES = /** @type {const} */ ({
  sittings: "export_sittings",
  warps: "export_warps",
  wefts: "export_wefts",
  finishing: "export_finishing",
  readings: "export_readings",
  weighings: "export_weighings",
  joins: "export_joins",
  places: "export_places",
  plans: "export_plans",
  photos: "export_photos",
  pace: "export_pace",
  everything: "export_everything",
});
