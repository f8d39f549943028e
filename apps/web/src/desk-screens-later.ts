import { lazy } from "react";

/** Fetches the screens that come later, in one piece. Called again it costs nothing. */
export const loadDeskScreens = () => import("./desk-screens.ts");

export const AnimalFormScreen = lazy(async () => ({ default: (await loadDeskScreens()).AnimalFormScreen }));
export const CareAnswerScreen = lazy(async () => ({ default: (await loadDeskScreens()).CareAnswerScreen }));
export const CareRulesScreen = lazy(async () => ({ default: (await loadDeskScreens()).CareRulesScreen }));
export const CareScreen = lazy(async () => ({ default: (await loadDeskScreens()).CareScreen }));
export const CompareScreen = lazy(async () => ({ default: (await loadDeskScreens()).CompareScreen }));
export const CorrectScreen = lazy(async () => ({ default: (await loadDeskScreens()).CorrectScreen }));
export const DoeSeenScreen = lazy(async () => ({ default: (await loadDeskScreens()).DoeSeenScreen }));
export const FactScreen = lazy(async () => ({ default: (await loadDeskScreens()).FactScreen }));
export const AddLocusScreen = lazy(async () => ({ default: (await loadDeskScreens()).AddLocusScreen }));
export const LociScreen = lazy(async () => ({ default: (await loadDeskScreens()).LociScreen }));
export const OutcomeScreen = lazy(async () => ({ default: (await loadDeskScreens()).OutcomeScreen }));
export const PhotoScreen = lazy(async () => ({ default: (await loadDeskScreens()).PhotoScreen }));
export const JoinScreen = lazy(async () => ({ default: (await loadDeskScreens()).JoinScreen }));
export const PhonesScreen = lazy(async () => ({ default: (await loadDeskScreens()).PhonesScreen }));
export const PlanScreen = lazy(async () => ({ default: (await loadDeskScreens()).PlanScreen }));
export const ProblemsScreen = lazy(async () => ({ default: (await loadDeskScreens()).ProblemsScreen }));
export const SafeScreen = lazy(async () => ({ default: (await loadDeskScreens()).SafeScreen }));
export const ScoreScreen = lazy(async () => ({ default: (await loadDeskScreens()).ScoreScreen }));
export const ServiceScreen = lazy(async () => ({ default: (await loadDeskScreens()).ServiceScreen }));
export const SettingsScreen = lazy(async () => ({ default: (await loadDeskScreens()).SettingsScreen }));
export const SheetScreen = lazy(async () => ({ default: (await loadDeskScreens()).SheetScreen }));
export const VetDoneScreen = lazy(async () => ({ default: (await loadDeskScreens()).VetDoneScreen }));
export const VetListScreen = lazy(async () => ({ default: (await loadDeskScreens()).VetListScreen }));
export const VetWishesScreen = lazy(async () => ({ default: (await loadDeskScreens()).VetWishesScreen }));
export const VisitorsScreen = lazy(async () => ({ default: (await loadDeskScreens()).VisitorsScreen }));
export const DoeBucksScreen = lazy(async () => ({ default: (await loadDeskScreens()).DoeBucksScreen }));
export const ForecastScreen = lazy(async () => ({ default: (await loadDeskScreens()).ForecastScreen }));
export const HelpPageScreen = lazy(async () => ({ default: (await loadDeskScreens()).HelpPageScreen }));
export const HelpScreen = lazy(async () => ({ default: (await loadDeskScreens()).HelpScreen }));
export const KeptScreen = lazy(async () => ({ default: (await loadDeskScreens()).KeptScreen }));
export const PairScreen = lazy(async () => ({ default: (await loadDeskScreens()).PairScreen }));
export const PairingsScreen = lazy(async () => ({ default: (await loadDeskScreens()).PairingsScreen }));
export const ReviewScreen = lazy(async () => ({ default: (await loadDeskScreens()).ReviewScreen }));
export const TestsScreen = lazy(async () => ({ default: (await loadDeskScreens()).TestsScreen }));
