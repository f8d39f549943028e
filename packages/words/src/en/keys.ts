/** Words of the page that lists the keys. */
export const keysWords = {
  title: "Keys",
  link: "Keys and shortcuts",
  single: "Do single keys do something?",
  answers: { on: "Yes", off: "No, switch them off" },
  kept: "Kept on this device. Keys inside the pedigree and the grid always work.",
  anywhere: "Anywhere",
  singleKeys: [
    { key: "/", does: "Search the animals" },
    { key: "?", does: "This page" },
  ],
  elsewhere: "Elsewhere",
  lines: [
    "Tab goes to what comes next, Shift and Tab back.",
    "Arrow keys go from answer to answer, Space takes one.",
    "In the grid of pairings arrows move and Enter opens.",
  ],
} as const;
