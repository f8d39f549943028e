import { createElement, type FunctionComponent, lazy, useState } from "react";

type DeskScreens = typeof import("./desk-screens.ts");

let desk: DeskScreens | undefined;

/** Fetches the screens that come later, in one piece. Called again it costs nothing. */
export const loadDeskScreens = async (): Promise<DeskScreens> => (desk ??= await import("./desk-screens.ts"));

/** A screen of that piece: drawn at once where the piece is here, without the moment for which a late one is held back. */
function later<Props extends object>(
  screenIn: (desk: DeskScreens) => FunctionComponent<Props>,
): FunctionComponent<Props> {
  const Fetched = lazy(async () => ({ default: screenIn(await loadDeskScreens()) }));
  return function Later(props: Props) {
    // Chosen once: the other of the two would be another screen, on which nothing has been entered.
    const [Screen] = useState<FunctionComponent<Props>>(() => (desk === undefined ? Fetched : screenIn(desk)));
    return createElement(Screen, props);
  };
}

export const AnimalFormScreen = later((desk) => desk.AnimalFormScreen);
export const CareAnswerScreen = later((desk) => desk.CareAnswerScreen);
export const CareRulesScreen = later((desk) => desk.CareRulesScreen);
export const CareScreen = later((desk) => desk.CareScreen);
export const CompareScreen = later((desk) => desk.CompareScreen);
export const CorrectScreen = later((desk) => desk.CorrectScreen);
export const DoeSeenScreen = later((desk) => desk.DoeSeenScreen);
export const EntriesScreen = later((desk) => desk.EntriesScreen);
export const FactScreen = later((desk) => desk.FactScreen);
export const AddLocusScreen = later((desk) => desk.AddLocusScreen);
export const ListScreen = later((desk) => desk.ListScreen);
export const TablesScreen = later((desk) => desk.TablesScreen);
export const LociScreen = later((desk) => desk.LociScreen);
export const GrowthCurve = later((desk) => desk.GrowthCurve);
export const HerdTable = later((desk) => desk.HerdTable);
export const KeysScreen = later((desk) => desk.KeysScreen);
export const OutcomeScreen = later((desk) => desk.OutcomeScreen);
export const PedigreeScreen = later((desk) => desk.PedigreeScreen);
export const PhotoScreen = later((desk) => desk.PhotoScreen);
export const JoinScreen = later((desk) => desk.JoinScreen);
export const PhonesScreen = later((desk) => desk.PhonesScreen);
export const PlanScreen = later((desk) => desk.PlanScreen);
export const ProblemsScreen = later((desk) => desk.ProblemsScreen);
export const SafeScreen = later((desk) => desk.SafeScreen);
export const ScoreScreen = later((desk) => desk.ScoreScreen);
export const ServiceScreen = later((desk) => desk.ServiceScreen);
export const SettingsScreen = later((desk) => desk.SettingsScreen);
export const SheetScreen = later((desk) => desk.SheetScreen);
export const VetDoneScreen = later((desk) => desk.VetDoneScreen);
export const VetListScreen = later((desk) => desk.VetListScreen);
export const VetWishesScreen = later((desk) => desk.VetWishesScreen);
export const VisitDoneScreen = later((desk) => desk.VisitDoneScreen);
export const VisitsScreen = later((desk) => desk.VisitsScreen);
export const VisitorsScreen = later((desk) => desk.VisitorsScreen);
export const DoeBucksScreen = later((desk) => desk.DoeBucksScreen);
export const ForecastScreen = later((desk) => desk.ForecastScreen);
export const HelpPageScreen = later((desk) => desk.HelpPageScreen);
export const HelpScreen = later((desk) => desk.HelpScreen);
export const KeptScreen = later((desk) => desk.KeptScreen);
export const PairScreen = later((desk) => desk.PairScreen);
export const PairingsScreen = later((desk) => desk.PairingsScreen);
export const ReviewScreen = later((desk) => desk.ReviewScreen);
export const TestsScreen = later((desk) => desk.TestsScreen);
