import { useState } from "react";
import { useAsked, useGround, useScreens, useToday } from "../../house/use-house.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { SavedLine, type Saving } from "../../parts/keeping/saved-line.tsx";
import { Stepper } from "../../parts/answers/stepper.tsx";
import { LookChoice } from "../holder/look-choice.tsx";
import { lossKey, lossStep, windowKey } from "./model.ts";

/** The vet's own ages, what weighs how much for this keeper, and how the screen looks. */
export function SettingsScreen() {
  const s = useScreens();
  const today = useToday();
  const { house, look, setLook } = useGround();
  const model = useAsked((answers) => answers.settings(), []).value;
  const [saving, setSaving] = useState<Saving>({ state: "nothing" });
  const set = async (key: string | undefined, value: number): Promise<void> => {
    if (key === undefined || saving.state === "saving") return;
    setSaving({ state: "saving" });
    const kept = await house.record([
      { id: house.newId(), fact: { kind: "setting", on: today, body: { key, value } } },
    ]);
    setSaving(
      kept.ok
        ? { state: "kept", time: kept.value.time }
        : { state: "failed", why: kept.error.code, retry: () => void set(key, value) },
    );
  };
  return (
    <Frame
      heading={s.settings.title}
      title={s.settings.title}
      back="/safe"
      place="safe"
      dock={saving.state === "nothing" ? undefined : <SavedLine saving={saving} />}
    >
      <h1 className="in-board">{s.settings.title}</h1>
      <div className="wide-two">
        <div className="stack">
          {model !== undefined && (
            <section className="part">
              <h2>{s.settings.vetAges}</h2>
              <p>{s.settings.vetAgesHint}</p>
              <p className="quiet">{s.settings.source}</p>
              {(["buck", "doe"] as const).map((sex) => (
                <div key={sex} className="stack tight">
                  <h3>{s.settings[sex]}</h3>
                  {FIGURES.map(([figure, word]) => (
                    <Stepper
                      key={figure}
                      label={`${s.settings[sex]}: ${s.settings[word]}`}
                      shown={s.settings[word]}
                      value={model.windows[sex][figure].value}
                      onStep={(way) => {
                        const value = model.windows[sex][figure].value + (way === "more" ? 1 : -1);
                        if (value >= 0 && value <= LATEST_AGE) void set(windowKey(sex, figure), value);
                      }}
                    />
                  ))}
                </div>
              ))}
            </section>
          )}
          {model !== undefined && (
            <section className="part">
              <h2>{s.settings.losses}</h2>
              <p>{s.settings.lossesHint}</p>
              {LOSSES.map(([loss, word]) => (
                <Stepper
                  key={loss}
                  label={s.settings[word]}
                  shown={s.settings[word]}
                  value={model.losses[loss]}
                  onStep={(way) => void set(lossKey(loss), lossStep(model.losses[loss], way))}
                />
              ))}
            </section>
          )}
        </div>
        <div className="stack">
          <section className="part">
            <LookChoice look={look} onLook={setLook} />
          </section>
          <section className="part">
            <h2>{s.settings.loci}</h2>
            <p>{s.settings.lociSay}</p>
            <a className="press start" href="#/loci">
              {s.loci.title}
            </a>
          </section>
          <section className="part">
            <h2>{s.settings.about}</h2>
            <p>{s.settings.aboutSay}</p>
            <p>{s.start.notAVet}</p>
          </section>
        </div>
      </div>
    </Frame>
  );
}

const FIGURES = [
  ["aimFrom", "from"],
  ["aimTo", "aim"],
  ["end", "end"],
] as const;

const LOSSES = [
  ["missedHorns", "missed"],
  ["lateDay", "late"],
  ["extraTrip", "trip"],
  ["look", "look"],
] as const;

/** Past three weeks it is no longer disbudding [ava2022]. */
const LATEST_AGE = 21;
