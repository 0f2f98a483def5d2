// Common repeats under generic names, as rows in words. Common practice on a rigid heddle with a pick-up stick.

export const SEQUENCES = [
  { name: "plain", rows: ["heddle up", "heddle down"] },
  { name: "weft float", rows: ["heddle up", "heddle rest, stick on edge", "heddle up", "heddle down"] },
  { name: "warp float", rows: ["heddle down", "heddle up, stick forward", "heddle down", "heddle up"] },
  {
    name: "lace",
    rows: [
      "heddle up", "heddle rest, stick on edge", "heddle up", "heddle rest, stick on edge", "heddle up", "heddle down",
    ],
  },
];
