/*
 * The screens that are not needed in the first second: one piece, fetched right after Today is there, and on the phone
 * for good with everything else (rule UI-13). Kidding, reading and finding a goat are never among them.
 */
import "./look/desk.css";

export { AnimalFormScreen } from "./screens/animal-form/view.tsx";
export { CareAnswerScreen } from "./screens/care/answer-view.tsx";
export { CareRulesScreen } from "./screens/care/rules-view.tsx";
export { CareScreen } from "./screens/care/view.tsx";
export { CompareScreen } from "./screens/compare/view.tsx";
export { CorrectScreen } from "./screens/correct/view.tsx";
export { DoeSeenScreen } from "./screens/doe-seen/view.tsx";
export { EntriesScreen } from "./screens/entries/view.tsx";
export { FactScreen } from "./screens/fact/view.tsx";
export { AddLocusScreen } from "./screens/loci/add-view.tsx";
export { ListScreen } from "./screens/list/view.tsx";
export { LociScreen } from "./screens/loci/view.tsx";
export { GrowthCurve } from "./screens/care/growth-curve.tsx";
export { HerdTable } from "./screens/animals/table.tsx";
export { KeysScreen } from "./screens/keys/view.tsx";
export { OutcomeScreen } from "./screens/outcome/view.tsx";
export { PedigreeScreen } from "./screens/pedigree/view.tsx";
export { PhotoScreen } from "./screens/photo/view.tsx";
export { JoinScreen } from "./screens/phones/join-view.tsx";
export { PhonesScreen } from "./screens/phones/view.tsx";
export { PlanScreen } from "./screens/plan/view.tsx";
export { ProblemsScreen } from "./screens/problems/view.tsx";
export { SafeScreen } from "./screens/safe/view.tsx";
export { ScoreScreen } from "./screens/score/view.tsx";
export { TablesScreen } from "./screens/tables/view.tsx";
export { VetWishesScreen } from "./screens/season/wishes-view.tsx";
export { ServiceScreen } from "./screens/service/view.tsx";
export { SettingsScreen } from "./screens/settings/view.tsx";
export { SheetScreen } from "./screens/sheet/view.tsx";
export { VetDoneScreen } from "./screens/vet-list/done-view.tsx";
export { VetListScreen } from "./screens/vet-list/view.tsx";
export { VisitDoneScreen, VisitsScreen } from "./screens/shown/visits-view.tsx";
export { VisitorsScreen } from "./screens/visitors/view.tsx";
export { DoeBucksScreen } from "./screens/pairings/doe-view.tsx";
export { ForecastScreen } from "./screens/forecast/view.tsx";
export { HelpPageScreen, HelpScreen } from "./screens/help/view.tsx";
export { KeptScreen } from "./screens/kept/view.tsx";
export { PairScreen } from "./screens/pairings/pair-view.tsx";
export { PairingsScreen } from "./screens/pairings/view.tsx";
export { ReviewScreen } from "./screens/review/view.tsx";
export { TestsScreen } from "./screens/tests/view.tsx";
