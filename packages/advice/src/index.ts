/* Long because whatever a screen, a sheet or the terminal answers is handed out here. */
// Everything an answer is made from
export type { Beliefs } from "./belief/beliefs.ts";
export { type Kept, nothingKept, type Situation, situationOf } from "./situation.ts";
export type { OwnFact } from "./belief/own-facts.ts";
export { INTERSEX_TRAIT, lastIntersexLook } from "./belief/intersex-look.ts";
export { sireCandidates } from "./belief/sires.ts";
// What the herd's own heads teach, and how the calls came out
export type { HerdHeads } from "./heads/learnt-heads.ts";
export { headRecord } from "./heads/head-record.ts";
export { regrowthRecord } from "./heads/regrowth-record.ts";
export { comparedKids, litterOf } from "./heads/comparison.ts";
export type { Truth } from "./heads/truths.ts";
export type * from "./heads/record-models.ts";
// Answers
export { animalLines, animalModel, genotypeSaid } from "./animal-model.ts";
export { type AnimalRef, animalRef } from "./animal-ref.ts";
export * from "./herd-book/diversity.ts";
export * from "./herd-book/herd-book.ts";
export { type Counted, counted, countedOf, recounted } from "./counted.ts";
export { LOSS_SETTINGS, lossesOf, type OpenHead } from "./heads/head-advice.ts";
export { kidModel, mayBeIntersex } from "./heads/kid-model.ts";
export { frequencyKey, herdLoci, locusFromText } from "./belief/herd-loci.ts";
export type * from "./belief/herd-loci.ts";
export type * from "./belief/findings.ts";
export { locusAnswer, locusProblem, type NamedFact, namedFacts } from "./belief/locus-answer.ts";
export * from "./belief/loci-model.ts";
export { type RestsOn, restsOn } from "./belief/rests-on.ts";
export * from "./belief/why.ts";
export { type Misfit, misfitReasons, type MisfitReasons } from "./belief/misfits.ts";
export { herdProblems } from "./problems.ts";
export { herdBreedOf, herdNameOf, vetFiguresOf, WINDOW_SETTINGS } from "./settings.ts";
export { todayModel } from "./today/today.ts";
export { vetList } from "./today/vet-list.ts";
// The season
export { calendarItems, type CalendarItem, type CalendarMatter } from "./today/calendar.ts";
export { type CalendarEntry, type CalendarFile, calendarText } from "./today/calendar-text.ts";
export { careSetting, careWishes, careTasks, careGiven, heldBack } from "./season/care.ts";
export type * from "./season/care.ts";
export { kidGrowthModel, type KidGrowthModel } from "./season/growth.ts";
export { type ExpectedDoe, expectedDoes, kiddingDays, pregnancyOn } from "./season/pregnancies.ts";
export { type ServiceAsked, type ServiceCaution, serviceCautions } from "./season/mating-cautions.ts";
export { vetDaysModel } from "./season/vet-days.ts";
export type * from "./season/vet-days.ts";
export { VISIT_SETTINGS, type VisitWishes, visitWishes } from "./season/visit-wishes.ts";
export { visitorsModel, type VisitorsModel } from "./season/visitors.ts";
// Pairings, forecasts, tests, keeping and selling
export { breedingStock, type BreedingStock, type NotBred } from "./pairing/breeding-stock.ts";
export { type PairingOptions, pairingsModel } from "./pairing/pairings.ts";
export type { CandidateBuck } from "./pairing/pairing-table.ts";
export { ANIMAL_SETTINGS, pairingRulesOf } from "./pairing/pairing-rules.ts";
export type * from "./pairing/pairing-rules.ts";
export { forecastQuestion, forecastModel } from "./pairing/forecast-model.ts";
export type * from "./pairing/forecast-model.ts";
export { type TestWorthLine, testWorthModel, type TestWorthModel } from "./pairing/test-worth-model.ts";
export { keepOrSell, type KeptKid, type KidUse, type UseClosed } from "./pairing/keep-or-sell.ts";
export type { Money } from "./pairing/money.ts";
export type * from "./pairing/pairing-models.ts";
// The year's review
export { reviewModel } from "./review/review.ts";
export type * from "./review/review-models.ts";
// On paper
export { type BarnCardModel, barnCard } from "./sheets/barn-card.ts";
export * from "./sheets/kid-paper.ts";
export { type SheetBlock, type SheetColumn, type SheetDocument, sheetHtml } from "./sheets/sheet-page.ts";
// What screens, sheets and the terminal are given
export type * from "./animal-models.ts";
export type * from "./heads/kid-models.ts";
export type * from "./problem-models.ts";
export type * from "./today/today-models.ts";
