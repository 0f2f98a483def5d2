// Words of the screen that compares warps.

export const PACE = {
  title: "Pace",
  table: "What each warp took",
  columns: {
    name: "Warp",
    length: "Length woven",
    hours: "At the loom",
    sittings: "Sittings",
    days: "Days, first pick to finished or so far",
    picks_per_hour: "Picks an hour",
    length_per_hour: "Length an hour",
    hours_per_length: "Hours for a length",
  },
  split: "Parted at",
  splitDo: "Part there",
  within: "Warp",
  asTable: "As a table",
  pictures: "Where pictures are saved",
  save: "Save as a picture",
  saved: (/** @type {string} */ path) => `Written to ${path}.`,
};
