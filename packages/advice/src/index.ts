/* Long because whatever a screen, a sheet or the terminal answers is handed out here. */
// Everything an answer is made from
export { type Beliefs, believe } from "./belief/beliefs.ts";
export { type Kept, nothingKept, type Situation, situationOf } from "./situation.ts";
export { INTERSEX_TRAIT, type OwnFact } from "./belief/own-facts.ts";
export { sireCandidates, WRONG_SIRE } from "./belief/sires.ts";
// What the herd's own heads teach, and how the calls came out
export { type HerdHeads, learntHeads } from "./heads/learnt-heads.ts";
export { learntModel } from "./heads/learnt-model.ts";
export { headRecord } from "./heads/head-record.ts";
export { regrowthRecord } from "./heads/regrowth-record.ts";
export { comparedKids, litterOf } from "./heads/comparison.ts";
export { readersApart } from "./heads/readers-apart.ts";
export { type Truth, TRUTHS, truthOf } from "./heads/truths.ts";
export type * from "./heads/record-models.ts";
// Answers
export { animalLines, animalModel, genotypeSaid } from "./animal-model.ts";
export { animalRef } from "./animal-ref.ts";
export * from "./herd-book/diversity.ts";
export * from "./herd-book/herd-book.ts";
export { counted, countedOf } from "./counted.ts";
export { LOSS_SETTINGS, lossesOf, type OpenHead, vetWindowOf } from "./heads/head-advice.ts";
export { hornsBelief } from "./heads/horns-belief.ts";
export { hasFinding, headReadingsOf, kidAges } from "./heads/kid-facts.ts";
export { kidModel, mayBeIntersex } from "./heads/kid-model.ts";
export * from "./belief/loci.ts";
export * from "./belief/loci-model.ts";
export { type RestsOn, restsOn } from "./belief/rests-on.ts";
export * from "./belief/why.ts";
export * from "./belief/misfits.ts";
export { herdProblems } from "./problems.ts";
export { herdBreedOf, herdNameOf, vetFiguresOf, WINDOW_SETTINGS } from "./settings.ts";
export { todayModel } from "./today/today.ts";
export { latestChoice, vetList } from "./today/vet-list.ts";
// The season
export { calendarItems, type CalendarItem, type CalendarMatter } from "./today/calendar.ts";
export { type CalendarEntry, type CalendarFile, calendarText } from "./today/calendar-text.ts";
export * from "./season/care.ts";
export { growthModels, type KidGrowthModel, kidGrowthModel } from "./season/growth.ts";
export { type ExpectedDoe, expectedDoes, kiddingDays, pregnancyOn } from "./season/pregnancies.ts";
export { type ServiceCaution, serviceCautions } from "./season/mating-cautions.ts";
export * from "./season/vet-days.ts";
export { VISIT_SETTINGS, type VisitWishes, visitWishes } from "./season/visit-wishes.ts";
export { visitorsModel, type VisitorsModel } from "./season/visitors.ts";
// Pairings, forecasts, tests, keeping and selling
export { breedingStock, type BreedingStock, type NotBred } from "./pairing/breeding-stock.ts";
export { type PairingOptions, pairingsModel, whyNotPair } from "./pairing/pairings.ts";
export type { CandidateBuck } from "./pairing/pairing-table.ts";
export * from "./pairing/pairing-rules.ts";
export * from "./pairing/forecast-model.ts";
export * from "./pairing/test-worth-model.ts";
export * from "./pairing/keep-or-sell.ts";
export { type Money, MONEY_SETTINGS, moneyOf } from "./pairing/money.ts";
export type * from "./pairing/pairing-models.ts";
// The year's review
export { reviewModel } from "./review/review.ts";
export type * from "./review/review-models.ts";
// On paper
export { type BarnCardModel, barnCard } from "./sheets/barn-card.ts";
export * from "./sheets/kid-paper.ts";
export * from "./sheets/sheet-page.ts";
// What screens, sheets and the terminal are given
export type * from "./models.ts";
