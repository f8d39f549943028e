/** Words of the help screens themselves; the pages are in `help.ts`, and are fetched with those screens. */
export const helpWords = {
  title: "Help",
  intro: "All of it is on this device.",
  terms: "Words of the trade",
  find: "Find a word",
  none: "No such word here.",
  from: "From",
  more: "More help",
  caution: "Pollard is no vet. Where it and your vet differ, your vet is right.",
} as const;
