import { type ComponentType, Suspense, useCallback, useEffect, useMemo, useState, useSyncExternalStore } from "react";
import type { WeightUnit } from "@pollard/base";
import type { Language } from "@pollard/words";
import { Route, Router, Switch } from "wouter";
import { keepAppHere } from "./adapters/app-update.ts";
import type { Device, KeptHerd } from "./adapters/device.ts";
import { applyLook, type Look, readLook, writeLook } from "./adapters/own-settings/look.ts";
import { writeLanguage, writeUnit } from "./adapters/own-settings/speech.ts";
import { askToKeep } from "./adapters/storage-health.ts";
import {
  AddLocusScreen,
  AnimalFormScreen,
  CareAnswerScreen,
  CareRulesScreen,
  CareScreen,
  CompareScreen,
  CorrectScreen,
  DoeBucksScreen,
  DoeSeenScreen,
  EntriesScreen,
  FactScreen,
  ForecastScreen,
  HelpPageScreen,
  HelpScreen,
  JoinScreen,
  KeptScreen,
  KeysScreen,
  ListScreen,
  LociScreen,
  OutcomeScreen,
  PairScreen,
  PairingsScreen,
  PhonesScreen,
  PedigreeScreen,
  PhotoScreen,
  PlanScreen,
  ProblemsScreen,
  ReviewScreen,
  SafeScreen,
  ScoreScreen,
  ServiceScreen,
  SettingsScreen,
  TablesScreen,
  TestsScreen,
  SheetScreen,
  VetDoneScreen,
  VetListScreen,
  VetWishesScreen,
  VisitorsScreen,
  loadDeskScreens,
} from "./desk-screens-later.ts";
import { exchangeInBackground } from "./house/background.ts";
import { type House, lastHerd, openHouse } from "./house/house.ts";
import { GroundContext, useGround, useScreens } from "./house/use-house.tsx";
import { speak, weighIn } from "./house/wording.ts";
import { goTo, useAddress } from "./parts/frame/address.ts";
import { OfGoat } from "./parts/frame/not-here.tsx";
import { useShortcuts } from "./parts/frame/shortcuts.ts";
import { AnimalScreen } from "./screens/animal/view.tsx";
import { AnimalsScreen } from "./screens/animals/view.tsx";
import { AnswerScreen } from "./screens/answer/view.tsx";
import { FindScreen } from "./screens/find/view.tsx";
import { HolderScreen } from "./screens/holder/view.tsx";
import { KiddingPickScreen } from "./screens/kidding/pick-view.tsx";
import { KiddingScreen, LitterScreen } from "./screens/kidding/view.tsx";
import { ReadingScreen } from "./screens/reading/view.tsx";
import { Nowhere } from "./screens/nowhere/view.tsx";
import { VisitScreens } from "./screens/shown/visit-screens.tsx";
import { StartScreen } from "./screens/start/view.tsx";
import { TodayScreen } from "./screens/today/view.tsx";
import { Mishap, Shut } from "./mishap.tsx";
import type { AskHerd } from "./worker/herd-answers.ts";

type Opening =
  | { readonly state: "looking" }
  | { readonly state: "none" }
  | { readonly state: "open"; readonly house: House }
  | { readonly state: "shut" };

/** The whole app: opens the herd that was open last, or asks which; everything else is a screen. */
export function App(props: {
  readonly device: Device;
  readonly answers: AskHerd;
  /** The language that is spoken when the page opens. */
  readonly firstLanguage: Language;
  /** In what weights are shown when the page opens. */
  readonly firstUnit: WeightUnit;
}) {
  const { device, answers } = props;
  const [opening, setOpening] = useState<Opening>({ state: "looking" });
  const [who, setWhoNow] = useState(() => device.who());
  const [look, setLookNow] = useState<Look>(() => readLook(localStorage));

  const [language, setLanguageNow] = useState(props.firstLanguage);
  useEffect(() => {
    document.documentElement.lang = language;
  }, [language]);

  const setLanguage = useCallback(async (wished: Language) => {
    const spoken = await speak(wished);
    writeLanguage(localStorage, spoken);
    setLanguageNow(spoken);
  }, []);
  const [unit, setUnitNow] = useState(props.firstUnit);
  const setUnit = useCallback((wished: WeightUnit) => {
    weighIn(wished);
    writeUnit(localStorage, wished);
    setUnitNow(wished);
  }, []);
  const setLook = useCallback((next: Look) => {
    writeLook(localStorage, next);
    applyLook(document.documentElement, next);
    setLookNow(next);
  }, []);
  const setWho = useCallback(
    async (name: string) => {
      await device.setWho(name);
      setWhoNow(name);
    },
    [device],
  );
  const openHerd = useCallback(
    async (herd: KeptHerd | undefined) => {
      if (opening.state === "open") await opening.house.close();
      await device.setCurrent(herd?.id);
      goTo("/");
      if (herd === undefined) {
        setOpening({ state: "none" });
        return;
      }
      const opened = await openHouse(herd, device, answers);
      setOpening(opened.ok ? { state: "open", house: opened.value } : { state: "shut" });
    },
    [opening, device, answers],
  );

  useEffect(() => {
    void (async () => {
      const herd = await lastHerd(device);
      if (herd === undefined) {
        setOpening({ state: "none" });
        return;
      }
      const opened = await openHouse(herd, device, answers);
      setOpening(opened.ok ? { state: "open", house: opened.value } : { state: "shut" });
    })();
  }, [device, answers]);

  const house = opening.state === "open" ? opening.house : undefined;
  useEffect(() => (house?.herd.sort === "own" ? exchangeInBackground(house) : undefined), [house]);
  const ground = useMemo(
    () =>
      house === undefined
        ? undefined
        : { device, house, who, look, language, unit, setWho, setLook, setLanguage, setUnit, openHerd },
    [device, house, who, look, language, unit, setWho, setLook, setLanguage, setUnit, openHerd],
  );

  if (opening.state === "looking") return null;
  if (opening.state === "shut") return <Shut />;
  if (ground === undefined)
    return (
      <StartScreen
        device={device}
        who={who}
        look={look}
        onLook={setLook}
        language={language}
        onLanguage={setLanguage}
        unit={unit}
        onUnit={setUnit}
        onReady={async (herd, name) => {
          await setWho(name);
          // Some browsers ask a person, and answer when the person does: nothing waits for it.
          void askToKeep(navigator.storage);
          await openHerd(herd);
        }}
      />
    );
  return (
    <GroundContext value={ground}>
      <Router hook={useAddress} hrefs={useAddress.hrefs}>
        <Guarded />
      </Router>
      <Update />
    </GroundContext>
  );
}

/** One screen's mistake leaves the others standing. */
function Guarded() {
  useShortcuts();
  const [address] = useAddress();
  const { house } = useGround();
  return <Mishap at={address}>{house.herd.role === "vet" ? <VisitScreens /> : <Screens />}</Mishap>;
}

/** The screen of the goat that an address names. */
const ofGoat = (Screen: ComponentType<{ readonly id: string }>) =>
  function Named({ id }: { readonly id: string }) {
    return (
      <OfGoat key={id} id={id}>
        <Screen id={id} />
      </OfGoat>
    );
  };

function Screens() {
  useEffect(() => void loadDeskScreens(), []);
  return (
    <Suspense fallback={null}>
      <Switch>
        <Route path="/">
          <TodayScreen />
        </Route>
        <Route path="/animals">
          <AnimalsScreen />
        </Route>
        <Route path="/find/:job?">{({ job }) => <FindScreen job={job === "kidding" ? "kidding" : "open"} />}</Route>
        <Route path="/animal/:id">{ofGoat(AnimalScreen)}</Route>
        <Route path="/pedigree/:id?">{({ id }) => <PedigreeScreen key={id ?? ""} id={id} />}</Route>
        <Route path="/keys">
          <KeysScreen />
        </Route>
        <Route path="/entries">
          <EntriesScreen />
        </Route>
        <Route path="/add">
          <AnimalFormScreen />
        </Route>
        <Route path="/correct/:id">{ofGoat(CorrectScreen)}</Route>
        <Route path="/kidding">
          <KiddingPickScreen />
        </Route>
        <Route path="/kidding/:dam/:step?">
          {({ dam, step }) => (
            <OfGoat key={dam} id={dam} as="dam">
              <KiddingScreen dam={dam} step={step} />
            </OfGoat>
          )}
        </Route>
        <Route path="/litter/:entry">{({ entry }) => <LitterScreen entry={entry} />}</Route>
        <Route path="/reading/:kid/:step?">
          {({ kid, step }) => (
            <OfGoat key={kid} id={kid}>
              <ReadingScreen kid={kid} step={step} />
            </OfGoat>
          )}
        </Route>
        <Route path="/answer/:kid/:shown?">
          {({ kid, shown }) => (
            <OfGoat key={kid} id={kid}>
              <AnswerScreen kid={kid} shown={shown === undefined ? "not-asked-for" : "asked-for"} />
            </OfGoat>
          )}
        </Route>
        <Route path="/compare/:kid/:other?">
          {({ kid, other }) => <CompareScreen key={`${kid} ${other}`} kid={kid} other={other} />}
        </Route>
        <Route path="/photo/:id">{ofGoat(PhotoScreen)}</Route>
        <Route path="/score">
          <ScoreScreen />
        </Route>
        <Route path="/outcome/:id">{ofGoat(OutcomeScreen)}</Route>
        <Route path="/fact/:id">{ofGoat(FactScreen)}</Route>
        <Route path="/service">
          <ServiceScreen id={undefined} />
        </Route>
        <Route path="/service/:id">{ofGoat(ServiceScreen)}</Route>
        <Route path="/plan">
          <PlanScreen />
        </Route>
        <Route path="/pairings">
          <PairingsScreen />
        </Route>
        <Route path="/pairings/:doe">{({ doe }) => <DoeBucksScreen key={doe} doe={doe} />}</Route>
        <Route path="/pair/:doe/:buck">
          {({ doe, buck }) => <PairScreen key={`${doe} ${buck}`} doe={doe} buck={buck} />}
        </Route>
        <Route path="/forecast">
          <ForecastScreen />
        </Route>
        <Route path="/tests">
          <TestsScreen />
        </Route>
        <Route path="/review">
          <ReviewScreen />
        </Route>
        <Route path="/kept">
          <KeptScreen />
        </Route>
        <Route path="/care">
          <CareScreen />
        </Route>
        <Route path="/care/days">
          <CareRulesScreen />
        </Route>
        <Route path="/care/:code/:id">
          {({ code, id }) => (
            <OfGoat key={`${code} ${id}`} id={id}>
              <CareAnswerScreen code={code} id={id} />
            </OfGoat>
          )}
        </Route>
        <Route path="/visitors">
          <VisitorsScreen />
        </Route>
        <Route path="/sheet/:kind/:about?">
          {({ kind, about }) => <SheetScreen key={`${kind} ${about ?? ""}`} kind={kind} about={about} />}
        </Route>
        <Route path="/season/vet">
          <VetWishesScreen />
        </Route>
        <Route path="/seen/:id">{ofGoat(DoeSeenScreen)}</Route>
        <Route path="/vet/:day">{({ day }) => <VetListScreen key={day} day={day} />}</Route>
        <Route path="/vet/:day/:kid">
          {({ day, kid }) => (
            <OfGoat key={kid} id={kid}>
              <VetDoneScreen day={day} kid={kid} />
            </OfGoat>
          )}
        </Route>
        <Route path="/safe">
          <SafeScreen />
        </Route>
        <Route path="/problems">
          <ProblemsScreen />
        </Route>
        <Route path="/settings">
          <SettingsScreen />
        </Route>
        <Route path="/help">
          <HelpScreen />
        </Route>
        <Route path="/help/:id">{({ id }) => <HelpPageScreen key={id} id={id} />}</Route>
        <Route path="/phones">
          <PhonesScreen />
        </Route>
        <Route path="/join/:code?">{({ code }) => <JoinScreen code={code} />}</Route>
        <Route path="/list">
          <ListScreen />
        </Route>
        <Route path="/tables">
          <TablesScreen />
        </Route>
        <Route path="/loci">
          <LociScreen />
        </Route>
        <Route path="/loci/add">
          <AddLocusScreen />
        </Route>
        <Route path="/holder">
          <HolderScreen />
        </Route>
        <Route>
          <Nowhere />
        </Route>
      </Switch>
    </Suspense>
  );
}

/** A newer app that waits: offered on Today only, where no answer is open, and never taken by itself. */
function Update() {
  const s = useScreens();
  const { house } = useGround();
  const [address] = useAddress();
  const [takeOver, setTakeOver] = useState<{ readonly go: () => void }>();
  const version = useSyncExternalStore(house.onChange, () => house.version);
  const [draftsOpen, setDraftsOpen] = useState(true);
  useEffect(() => void keepAppHere((go) => setTakeOver({ go })), []);
  useEffect(() => {
    void house.drafts
      .all()
      .then((found) => setDraftsOpen(!found.ok || found.value.some((draft) => draft.state === "open")));
  }, [house, version, address]);
  if (takeOver === undefined || address !== "/" || draftsOpen) return null;
  return (
    <div className="update">
      <output>{s.frame.updateReady}</output>
      <button type="button" className="press" onClick={takeOver.go}>
        {s.frame.updateNow}
      </button>
    </div>
  );
}
