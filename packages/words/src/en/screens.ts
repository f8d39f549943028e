import {
  animalFormWords,
  correctWords,
  factWords,
  kiddingWords,
  outcomeWords,
  readingWords,
  serviceWords,
  signWords,
  vetDoneWords,
} from "./screens-capture.ts";
import { forecastWords, keptWords, pairingsWords, reviewWords, testsWords } from "./screens-breeding.ts";
import { blindWords, compareWords } from "./compare.ts";
import { helpWords } from "./help-words.ts";
import { entriesWords, herdTableWords } from "./herd-table.ts";
import { keysWords } from "./keys.ts";
import { listWords } from "./screens-lists.ts";
import { lociWords } from "./screens-loci.ts";
import { phonesWords } from "./screens-phones.ts";
import { pedigreeWords } from "./pedigree.ts";
import { shownWords } from "./shown.ts";
import { plotsWords } from "./plots.ts";
import { photoWords } from "./photos.ts";
import { scoreWords } from "./score.ts";
import { dayWords, findWords, frameWords, holderWords, startWords } from "./screens-frame.ts";
import { animalsWords, animalWords, answerWords, planWords, todayWords, vetListWords } from "./screens-herd.ts";
import { problemsWords, safeWords, settingsWords } from "./screens-safe.ts";
import { careWords, doeSeenWords, forVetWords, safetyWords, seasonWords, sheetWords } from "./screens-season.ts";

/** Every word that stands on a screen and is not itself an answer, by screen. */
export const screens = {
  frame: frameWords,
  day: dayWords,
  find: findWords,
  holder: holderWords,
  start: startWords,
  kidding: kiddingWords,
  sign: signWords,
  reading: readingWords,
  outcome: outcomeWords,
  vetDone: vetDoneWords,
  animalForm: animalFormWords,
  correct: correctWords,
  service: serviceWords,
  fact: factWords,
  today: todayWords,
  animals: animalsWords,
  animal: animalWords,
  answer: answerWords,
  score: scoreWords,
  compare: compareWords,
  blind: blindWords,
  herdTable: herdTableWords,
  entries: entriesWords,
  keys: keysWords,
  pedigree: pedigreeWords,
  photo: photoWords,
  plots: plotsWords,
  vetList: vetListWords,
  plan: planWords,
  season: seasonWords,
  doeSeen: doeSeenWords,
  care: careWords,
  forVet: forVetWords,
  safety: safetyWords,
  sheet: sheetWords,
  pairings: pairingsWords,
  forecast: forecastWords,
  tests: testsWords,
  review: reviewWords,
  kept: keptWords,
  safe: safeWords,
  problems: problemsWords,
  settings: settingsWords,
  loci: lociWords,
  lists: listWords,
  help: helpWords,
  phones: phonesWords,
  shown: shownWords,
} as const;
