// Common repeats under generic names, as rows in words. Common practice on a rigid heddle with a pick-up stick, no source.

export const SEQUENCES = [
  { name: "plain", rows: ["up", "down"] },
  { name: "weft float", rows: ["up", "stick", "up", "down"] },
  { name: "warp float", rows: ["down", "up + stick", "down", "up"] },
  { name: "lace", rows: ["up", "stick", "up", "stick", "up", "down"] },
];
