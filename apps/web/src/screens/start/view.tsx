import { useEffect, useId, useState } from "react";
import type { WeightUnit } from "@pollard/base";
import type { Language } from "@pollard/words";
import { today as clockToday } from "../../adapters/clock.ts";
import type { Device, KeptHerd } from "../../adapters/device.ts";
import { type HubHerd, hubHerds } from "../../adapters/hub/hub-peer.ts";
import type { Look } from "../../adapters/own-settings/look.ts";
import { newId } from "../../adapters/new-id.ts";
import { CrownDrawing } from "../../drawings/head-signs.tsx";
import { demoText } from "../../house/demo.ts";
import { takeInBackup } from "../../house/take-in-backup.ts";
import { useScreens } from "../../house/use-house.tsx";
import { TextField } from "../../parts/answers/text-field.tsx";
import { LanguageChoice } from "../holder/language-choice.tsx";
import { LookChoice } from "../holder/look-choice.tsx";
import { UnitChoice } from "../holder/unit-choice.tsx";
import { JoinForm } from "../phones/join-form.tsx";
import { codeInHash } from "../phones/model.ts";
import { notTakenSaid } from "../safe/model.ts";
import { needsHomeScreen } from "./model.ts";

/** The first minutes: which herd, who is holding the phone, the light and the hands. Three questions, one at a time. */
export function StartScreen(props: {
  readonly device: Device;
  readonly who: string | undefined;
  readonly look: Look;
  readonly onLook: (look: Look) => void;
  readonly language: Language;
  readonly onLanguage: (language: Language) => Promise<void>;
  readonly unit: WeightUnit;
  readonly onUnit: (unit: WeightUnit) => void;
  readonly onReady: (herd: KeptHerd, who: string) => Promise<void>;
}) {
  const s = useScreens();
  const [herd, setHerd] = useState<KeptHerd>();
  const [name, setName] = useState(props.who ?? "");
  const [step, setStep] = useState<"home-screen" | "herd" | "who" | "look">(() =>
    needsHomeScreen(navigator, window) ? "home-screen" : "herd",
  );
  const [wrong, setWrong] = useState<string>();
  const [opening, setOpening] = useState(false);
  useEffect(() => {
    document.title = s.frame.app;
  }, [s]);
  const begin = async (): Promise<void> => {
    if (herd === undefined || opening) return;
    setOpening(true);
    await props.onReady(herd, name.trim());
  };
  return (
    <div className="frame start">
      <header className="board">
        <div className="board-title">{s.start.title}</div>
      </header>
      <main className="page stack">
        {step === "home-screen" && (
          <>
            <h1>{s.start.homeScreenTitle}</h1>
            <p>{s.start.homeScreen}</p>
            <p className="say">{s.start.homeScreenHow}</p>
            <button type="button" className="press" onClick={() => setStep("herd")}>
              {s.start.goOn}
            </button>
          </>
        )}
        {step === "herd" && (
          <>
            <HerdStep
              device={props.device}
              who={name}
              onHerd={(chosen) => {
                setHerd(chosen);
                setStep("who");
              }}
            />
            <LanguageChoice language={props.language} onLanguage={props.onLanguage} />
            <UnitChoice unit={props.unit} onUnit={props.onUnit} />
          </>
        )}
        {step === "who" && (
          <form
            className="stack"
            onSubmit={(event) => {
              event.preventDefault();
              if (name.trim() === "") setWrong(s.holder.whoMissing);
              else setStep("look");
            }}
          >
            <h1>{s.holder.who}</h1>
            <TextField
              label={s.animalForm.name}
              hint={s.holder.whoHint}
              need="needed"
              value={name}
              onText={setName}
              wrong={wrong}
            />
            <button type="submit" className="press main">
              {s.frame.next}
            </button>
            <button type="button" className="press" onClick={() => setStep("herd")}>
              {s.frame.back}
            </button>
          </form>
        )}
        {step === "look" && (
          <>
            <h1>{s.holder.title}</h1>
            <LookChoice look={props.look} onLook={props.onLook} />
            <button type="button" className="press main" onClick={() => void begin()}>
              {opening ? s.start.opening : s.start.start}
            </button>
          </>
        )}
      </main>
    </div>
  );
}

function HerdStep(props: { readonly device: Device; readonly who: string; readonly onHerd: (herd: KeptHerd) => void }) {
  const s = useScreens();
  const id = useId();
  const [scanned] = useState(() => codeInHash(window.location.hash));
  const [way, setWay] = useState<"choose" | "own" | "join">(scanned === undefined ? "choose" : "join");
  const [name, setName] = useState("");
  const [said, setSaid] = useState<string>();
  const [working, setWorking] = useState(false);
  const [onHub, setOnHub] = useState<readonly HubHerd[]>([]);
  const [here, setHere] = useState<readonly KeptHerd[]>([]);
  useEffect(() => {
    void hubHerds(document.baseURI).then(setOnHub);
    void props.device.herds().then(setHere);
  }, [props.device]);

  const bring = async (file: Promise<Blob>, missing: string): Promise<void> => {
    setWorking(true);
    const read = await file.then(
      (value) => ({ ok: true, value }) as const,
      () => ({ ok: false }) as const,
    );
    const taken = read.ok ? await takeInBackup(read.value, props.device, clockToday(), s.frame.unnamed) : undefined;
    setWorking(false);
    if (taken?.ok) props.onHerd(taken.value.herd);
    else setSaid(taken === undefined ? missing : notTakenSaid(s, taken.error));
  };
  const own = async (): Promise<void> => {
    if (name.trim() === "") {
      setSaid(s.start.herdNameMissing);
      return;
    }
    // Its name is kept with it here, and entered in its ledger by whoever the next question finds holding the phone.
    const id = newId() as string as KeptHerd["id"];
    const herd: KeptHerd = { id, name: name.trim(), sort: "own", begun: "by-name-only" };
    await props.device.keepHerd(herd);
    props.onHerd(herd);
  };
  const fromHub = async (herd: HubHerd): Promise<void> => {
    const kept: KeptHerd = { id: herd.id, name: herd.name ?? s.frame.unnamed, sort: "own" };
    await props.device.keepHerd(kept);
    props.onHerd(kept);
  };
  const elsewhere = onHub.filter((herd) => here.every((kept) => kept.id !== herd.id));
  return (
    <>
      <div className="hero">
        <CrownDrawing finding="rounded-cap" />
        <div>
          <h1>{s.start.motto}</h1>
        </div>
      </div>
      <p>{s.start.promise}</p>
      {way === "join" ? (
        <>
          <h2>{s.phones.join}</h2>
          <JoinForm device={props.device} code={scanned ?? ""} name={props.who} onHerd={props.onHerd} />
          <button type="button" className="press" onClick={() => setWay("choose")}>
            {s.frame.back}
          </button>
        </>
      ) : way === "choose" ? (
        <section className="stack tight" aria-label={s.start.herdQuestion}>
          <h2>{s.start.herdQuestion}</h2>
          {here.map((herd) => (
            <button key={herd.id} type="button" className="press main start" onClick={() => props.onHerd(herd)}>
              {herd.name}
            </button>
          ))}
          <button
            type="button"
            className="press main two-line"
            onClick={() =>
              void bring(
                demoText().then((text) => new Blob([text])),
                s.start.demoFailed,
              )
            }
          >
            <span>{working ? s.start.opening : s.start.demo}</span>
            <span>{s.start.demoHint}</span>
          </button>
          <button type="button" className="press two-line" onClick={() => setWay("own")}>
            <span>{s.start.own}</span>
            <span>{s.start.ownHint}</span>
          </button>
          <button type="button" className="press two-line" onClick={() => setWay("join")}>
            <span>{s.phones.join}</span>
            <span>{s.phones.joinHint}</span>
          </button>
          <label className="press two-line file-key" htmlFor={id}>
            <span>{s.start.backup}</span>
            <span>{s.start.backupHint}</span>
            <input
              id={id}
              type="file"
              onChange={(event) => {
                const file = event.target.files?.[0];
                event.target.value = "";
                if (file) void bring(Promise.resolve(file), s.safe.notABackup);
              }}
            />
          </label>
          {elsewhere.map((herd) => (
            <button key={herd.id} type="button" className="press two-line" onClick={() => void fromHub(herd)}>
              <span>{s.safe.fromHub}</span>
              <span>{s.safe.hubHerd(herd.name, herd.entries)}</span>
            </button>
          ))}
        </section>
      ) : (
        <form
          className="stack"
          onSubmit={(event) => {
            event.preventDefault();
            void own();
          }}
        >
          <TextField label={s.start.herdName} need="needed" value={name} onText={setName} />
          <button type="submit" className="press main">
            {s.frame.next}
          </button>
          <button type="button" className="press" onClick={() => setWay("choose")}>
            {s.frame.back}
          </button>
        </form>
      )}
      {said !== undefined && (
        <p role="alert" className="card">
          {said}
        </p>
      )}
      <p className="quiet">{s.start.notAVet}</p>
    </>
  );
}
