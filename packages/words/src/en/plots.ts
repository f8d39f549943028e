/** Words of pictures with an axis; each has a sentence and a table. */
export const plotsWords = {
  figures: "Show the figures",
  years: "Year",
  band: (what: string, years: number, last: string) => `${what}, year by year. In year ${years}: ${last}.`,
  bandIs: "Line: the middle of the simulated herds. Band: 9 in 10 of them.",
  growth: "Growth so far",
  growthSays: (times: number, kg: string, days: number) => `Weighed ${times} times. At ${days} days: ${kg}.`,
  age: "Age, days",
  weight: { kg: "Weight, kg", lb: "Weight, lb" },
  day: "Day",
  ofTwenty: "Of 20 equally likely cases",
  guessed: "Guessed",
  weighed: "Weighed",
  how: "How",
  growthKey: "Filled: weighed. Open: guessed.",
} as const;
