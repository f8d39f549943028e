// One wording for every answer
export { english } from "./en/english.ts";
export { notAHerd, sayFileProblem } from "./en/files.ts";
export { screens } from "./en/screens.ts";
export { season } from "./en/season.ts";
export type { AdviceSaid, ProblemSaid, TaskSaid, Words } from "./words.ts";
